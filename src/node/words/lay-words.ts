import { readFile } from 'node:fs/promises';
import { setImmediate } from 'node:timers/promises';
import type { Recording } from '../../core/model/index.ts';
import { TICKS_PER_SECOND, toSeconds } from '../../core/time/index.ts';
import {
  evenedOut,
  type Laid,
  LOOK,
  type Looks,
  layingText,
  NUMBERS,
  type Sentence,
  type SpokenPart,
  type TimedScript,
  timeWords,
} from '../../core/words/index.ts';
import { fileInside } from '../files/inside.ts';
import { examine } from '../media/examine.ts';
import type { Analysis } from '../media/kept-analysis.ts';
import { runJobs, type Wanted, type Workplace, want } from '../media/pool.ts';
import { hearLooks } from './hear-looks.ts';
import { readLooks } from './looks-file.ts';
import { speak } from './speak.ts';

/** Sentences that are spoken in one job. */
const TOGETHER = 32;
/** Pauses shorter than this stay in the sound that the text is laid on, s: many short parts are not worth their seams. */
const JOINED = 0.3;

/**
 * Lays the sentences of a text on the sound of a recording.
 *
 * @param program espeak-ng, which speaks the text so that it can be compared
 * @param language as espeak-ng names it
 * @throws OutsideFailure when espeak-ng or ffmpeg fails
 */
export async function layWords(
  content: string,
  recording: Recording,
  sentences: readonly Sentence[],
  analysis: Pick<Analysis, 'speech'>,
  { program, language }: { readonly program: string; readonly language: string },
  place: Workplace,
): Promise<TimedScript> {
  place.progress.start('listening, and speaking the text');
  const heard: { job: Wanted; starts: number[] }[] = [];
  for (const { file, span } of recording.files) {
    const examined = await examine(fileInside(content, file), place.tools, place.signal);
    const [sound] = examined.sounds;
    const late = examined.picture && sound ? sound.start - examined.picture.start : 0;
    const talk = talkWithin(analysis, span);
    if (!sound || talk.length === 0) continue;
    const from = span.start / TICKS_PER_SECOND + late;
    const params = { sound: sound.stream, talk: talk.map(([start, end]) => [start - from, end - from] as const) };
    const length = toSeconds(span.end - span.start);
    const job = want(hearLooks, [{ path: examined.path, content: examined.content }], params, length);
    heard.push({ job, starts: talk.map(([start]) => start) });
  }
  const spoken = Array.from({ length: Math.ceil(sentences.length / TOGETHER) }, (_, i) => {
    const some = sentences.slice(i * TOGETHER, (i + 1) * TOGETHER).map(({ words }) => words.join(' '));
    return want(speak(program), [], { language, sentences: some }, some.length);
  });
  const results = await runJobs([...heard.map(({ job }) => job), ...spoken], place);
  const read = await Promise.all(results.map(async (path) => readLooks(await readFile(path))));
  const voices = read.slice(heard.length).flat();
  const sounds = read.slice(0, heard.length);
  const parts = sounds.flatMap((ofFile, i) =>
    ofFile.map((looks, n): SpokenPart => ({ start: heard[i]?.starts[n] ?? 0, looks: looks.length / NUMBERS })),
  );
  const said = sentences.filter((_, i) => (voices[i]?.length ?? 0) > 0);
  const mute = sentences.filter((_, i) => (voices[i]?.length ?? 0) === 0);
  let sum = 0;
  const ends = voices.flatMap((looks) => {
    sum += looks.length / NUMBERS;
    return looks.length > 0 ? [sum] : [];
  });
  const laid = await lay(evenedOut(voices), ends, evenedOut(sounds.flat()), place);
  const timed = timeWords(said, ends, laid, parts);
  return { words: timed.words, missing: [...timed.missing, ...mute].toSorted((a, b) => a.line - b.line) };
}

async function lay(text: Looks, ends: readonly number[], sound: Looks, place: Workplace): Promise<Laid> {
  place.progress.start('laying the text on the sound');
  place.progress.expect(sound.count * LOOK);
  const step = place.progress.step(sound.count * LOOK);
  const laying = layingText(text, ends, sound);
  for (;;) {
    const next = laying.next();
    if (next.done) {
      step.end();
      return next.value;
    }
    step.reached(next.value * LOOK);
    // Whoever wants to stop it is heard in between.
    await setImmediate();
    place.signal.throwIfAborted();
  }
}

/** Where somebody speaks in a file, s of the recording; what hardly pauses is one. */
function talkWithin(
  { speech }: Pick<Analysis, 'speech'>,
  { start, end }: { start: number; end: number },
): [number, number][] {
  const found: [number, number][] = [];
  for (const [from, until] of speech) {
    const [a, b] = [Math.max(from, start) / TICKS_PER_SECOND, Math.min(until, end) / TICKS_PER_SECOND];
    if (b <= a) continue;
    const last = found.at(-1);
    if (last && a - last[1] < JOINED) last[1] = b;
    else found.push([a, b]);
  }
  return found;
}
