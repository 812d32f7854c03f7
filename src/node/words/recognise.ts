import { readFile, writeFile } from 'node:fs/promises';
import { z } from 'zod';
import { type Job, VOICE_RATE, VOICE_WINDOW, voiceArgs } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { fromSeconds, printClockTime, TICKS_PER_SECOND } from '../../core/time/index.ts';
import {
  cutAtQuiet,
  groupPieces,
  type Piece,
  recognisedWords,
  type TimedWord,
  talkPieces,
  withoutShouting,
} from '../../core/words/index.ts';
import { fileInside } from '../files/inside.ts';
import { examine } from '../media/examine.ts';
import { streamFfmpeg } from '../media/ffmpeg.ts';
import type { Analysis } from '../media/kept-analysis.ts';
import { type Task, toolVersion, type Wanted, type Workplace } from '../media/pool.ts';
import { inWindows, joinSamples } from '../media/streamed-sound.ts';
import type { FoundModel } from './find-model.ts';
import { type Recogniser, startRecogniser } from './recogniser.ts';

/** What is shorter holds no word, s. */
const LEAST = 0.1;

const kept = z.array(z.object({ text: z.string(), start: z.number(), end: z.number(), ends: z.boolean() }));

/** Some pieces of a file whose words are kept as one result. */
interface Group {
  readonly pieces: readonly Piece[];
  readonly job: Job;
  /** Where the result lies, or will. */
  readonly path: string;
}

const VERSION = 1;

/** What decides which words are recognised. */
export interface RecogniseTaskParams {
  /** Position of the sound among the file's streams. */
  readonly sound: number;
  readonly pieces: readonly Piece[];
  /** Fingerprint of the model. */
  readonly model: string;
  readonly kind: string;
  readonly language: string;
  readonly hotWords: readonly string[];
}

/** Recognises the words of some pieces of a file, for a machine that gets no more than them to do. */
export function recognisePieces(model: FoundModel): Task<RecogniseTaskParams> {
  return {
    name: 'recognise',
    version: VERSION,
    extension: 'json',
    async run({ sound, pieces, hotWords }, [path = ''], output, { tools, store, signal, onSeconds }) {
      const recogniser = await startRecogniser(model, hotWords, await store.temporaryFolder(), signal);
      const enough = new AbortController();
      const either = AbortSignal.any([signal, enough.signal]);
      const windows = inWindows(streamFfmpeg(tools, voiceArgs(path, sound), { signal: either }), VOICE_WINDOW);
      try {
        const words = await wordsOf(pieces, new Passing(windows), recogniser, 0, onSeconds);
        await writeFile(output, JSON.stringify(words));
      } finally {
        recogniser.close();
        enough.abort();
        await windows.return(undefined).catch(() => undefined);
      }
    },
  };
}

/** A camera file, and what is to be recognised in it. */
interface Sounding {
  readonly path: string;
  readonly stream: number;
  /** Where its first sample lies, s of the recording. */
  readonly from: number;
  readonly groups: readonly Group[];
}

export interface RecogniseParams {
  readonly model: FoundModel;
  readonly language: string;
  /** What it should rather hear than what sounds alike. */
  readonly hotWords: readonly string[];
}

/**
 * The words of a recording with their times, s of recording time. Each file is decoded once, and of its sound no more
 * than a piece of talk is in memory; what was recognised before is not recognised again.
 *
 * @throws OutsideFailure when ffmpeg or the recogniser fails: what was recognised until then is kept
 */
export async function recogniseRecording(
  content: string,
  recording: Recording,
  analysis: Pick<Analysis, 'speech'>,
  params: RecogniseParams,
  place: Workplace,
): Promise<TimedWord[][]> {
  const files = await soundsOf(content, recording, analysis, params, place);
  place.progress.start('recognising speech');
  const open = new Map<Sounding, Group[]>();
  for (const file of files)
    for (const group of file.groups)
      if (await place.store.has(group.path)) place.progress.had(talkOf(group));
      else {
        open.set(file, [...(open.get(file) ?? []), group]);
        place.progress.expect(talkOf(group));
      }
  if (open.size > 0 && place.crew) await place.crew.run(wantedOf(open, params.model), place);
  else if (open.size > 0) {
    const folder = await place.store.temporaryFolder();
    const recogniser = await startRecogniser(params.model, params.hotWords, folder, place.signal);
    try {
      for (const [file, groups] of open) await recogniseFile(file, groups, recogniser, place);
    } finally {
      recogniser.close();
    }
  }
  const found: TimedWord[][] = [];
  for (const { groups, from } of files)
    for (const { path } of groups) {
      const words = kept.parse(JSON.parse(await readFile(path, 'utf8')));
      found.push(words.map((word) => ({ ...word, start: word.start + from, end: word.end + from })));
    }
  const written = withoutShouting(found.flat());
  let next = 0;
  return found.map(({ length }) => {
    next += length;
    return written.slice(next - length, next);
  });
}

/** Each group as a job by itself, with where its result will lie. */
function wantedOf(open: ReadonlyMap<Sounding, readonly Group[]>, model: FoundModel): Map<string, Wanted> {
  const task = recognisePieces(model);
  const all = [...open].flatMap(([file, groups]) => groups.map((group) => ({ file, group })));
  return new Map(
    all.map(({ file, group }) => {
      const { job, pieces, path } = group;
      const params = job.params as unknown as RecogniseTaskParams;
      const wanted: Wanted = {
        ...{ job, version: VERSION, extension: 'json', seconds: talkOf({ pieces }) },
        run: (output, bench) => task.run(params, [file.path], output, bench),
      };
      return [path, wanted];
    }),
  );
}

function talkOf({ pieces }: Pick<Group, 'pieces'>): number {
  return pieces.reduce((sum, [start, end]) => sum + end - start, 0);
}

async function soundsOf(
  content: string,
  recording: Recording,
  analysis: Pick<Analysis, 'speech'>,
  { model, language, hotWords }: RecogniseParams,
  place: Workplace,
): Promise<Sounding[]> {
  const files: Sounding[] = [];
  for (const { file, span } of recording.files) {
    const examined = await examine(fileInside(content, file), place.tools, place.signal);
    const [sound] = examined.sounds;
    if (!sound) continue;
    const late = examined.picture ? sound.start - examined.picture.start : 0;
    const from = span.start / TICKS_PER_SECOND + late;
    const until = span.end / TICKS_PER_SECOND - from;
    const talk = analysis.speech
      .map(([start, end]): Piece => [start / TICKS_PER_SECOND - from, end / TICKS_PER_SECOND - from])
      .map(([start, end]): Piece => [Math.max(0, start), Math.min(until, end)])
      .filter(([start, end]) => end > start);
    const groups = groupPieces(talkPieces(talk, until)).map((pieces): Group => {
      const job: Job = {
        task: 'recognise',
        inputs: [{ path: examined.path, content: examined.content }],
        params: {
          sound: sound.stream,
          pieces: pieces.map(([start, end]) => [start, end]),
          model: model.fingerprint,
          kind: model.kind,
          language,
          hotWords: model.hotWords ? [...hotWords] : [],
        },
      };
      return { pieces, job, path: place.store.path(job, toolVersion(VERSION, place.tools), 'json') };
    });
    files.push({ path: examined.path, stream: sound.stream, from, groups });
  }
  return files;
}

/** Decodes a file once, and recognises its open groups as their sound passes. */
async function recogniseFile(
  { path, stream, from }: Sounding,
  groups: readonly Group[],
  recogniser: Recogniser,
  place: Workplace,
): Promise<void> {
  const enough = new AbortController();
  const signal = AbortSignal.any([place.signal, enough.signal]);
  const windows = inWindows(streamFfmpeg(place.tools, voiceArgs(path, stream), { signal }), VOICE_WINDOW);
  const passing = new Passing(windows);
  try {
    for (const group of groups) {
      const step = place.progress.step(talkOf(group));
      const words = await wordsOf(group.pieces, passing, recogniser, from, step.reached);
      const temporary = place.store.temporary('json');
      await writeFile(temporary, JSON.stringify(words));
      await place.store.keep(temporary, group.path);
      step.end();
    }
  } finally {
    enough.abort();
    // Nothing more is wanted of it, so that what it says of being stopped is no failure.
    await windows.return(undefined).catch(() => undefined);
  }
}

/** @param from where the file's first sample lies, s of the recording: for messages */
async function wordsOf(
  pieces: readonly Piece[],
  passing: Passing,
  recogniser: Recogniser,
  from: number,
  onSeconds: (done: number) => void,
): Promise<TimedWord[]> {
  const words: TimedWord[] = [];
  let done = 0;
  for (const [start, end] of pieces) {
    const samples = await passing.take(Math.round(start * VOICE_RATE), Math.round(end * VOICE_RATE));
    for (const [first, last] of cutAtQuiet(samples, VOICE_RATE)) {
      if (last - first < LEAST * VOICE_RATE) continue;
      const at = { start: start + first / VOICE_RATE, end: start + last / VOICE_RATE };
      const where = printClockTime(fromSeconds<'recording'>(Math.max(0, from + at.start)));
      words.push(...recognisedWords(await recogniser.recognise(samples.subarray(first, last), where), at));
    }
    done += end - start;
    onSeconds(done);
  }
  return words;
}

/** Sound as it is decoded, of which one stretch after the other is taken. */
class Passing {
  readonly #windows: AsyncGenerator<Float32Array>;
  #held: Float32Array[] = [];
  /** Of the first sample held, and of the one that comes next. */
  #from = 0;
  #heard = 0;

  constructor(windows: AsyncGenerator<Float32Array>) {
    this.#windows = windows;
  }

  /** From a sample to another, after what was taken before; fewer where the sound ends early. */
  async take(first: number, last: number): Promise<Float32Array> {
    this.#forget(first);
    while (this.#heard < last) {
      const next = await this.#windows.next();
      if (next.done) break;
      this.#held.push(next.value);
      this.#heard += next.value.length;
      this.#forget(first);
    }
    return joinSamples(this.#held).subarray(Math.max(0, first - this.#from), Math.max(0, last - this.#from));
  }

  #forget(before: number): void {
    for (let first = this.#held[0]; first && this.#from + first.length <= before; first = this.#held[0]) {
      this.#from += first.length;
      this.#held.shift();
    }
  }
}
