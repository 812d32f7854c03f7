import { copyFile, mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { EncodedPacketSink } from 'mediabunny';
import {
  type Aligned,
  type Alignment,
  alignSound,
  blocksWithin,
  COARSE_RATE,
  integratedLoudness,
  peakLevels,
  presenceOf,
  type Stretch,
  THUMBNAILS,
  VOICE_SETTINGS,
} from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import {
  type EditList,
  fromSeconds,
  printSignedTime,
  type Range,
  TICKS_PER_SECOND,
  type Ticks,
  ticks,
} from '../../core/time/index.ts';
import { errorCode } from '../files/error-code.ts';
import { fileInside } from '../files/inside.ts';
import { analyseFile, fileAnalysis, PEAKS_PER_SECOND, RESULT, readSound } from './analyse-file.ts';
import { openMedia } from './camera-formats.ts';
import { type Examined, examine } from './examine.ts';
import { findVoice, foundVoice } from './find-voice.ts';
import { type Analysis, analysisFolder, rangesOf } from './kept-analysis.ts';
import { findListener, type Listener } from './listener.ts';
import { needFiles } from './need-files.ts';
import { runJobs, type Wanted, type Workplace, want } from './pool.ts';

interface Looked {
  readonly file: Examined;
  readonly at: Range<'recording'>;
  readonly folder: string;
  /** Where somebody speaks, s from its first picture; absent where nothing listened. */
  readonly talk?: readonly Stretch[];
}

/**
 * Looks through every camera file of a recording, each in one decoding pass, and aligns further cameras by sound.
 * Files that were looked through before are not decoded again.
 *
 * @throws OutsideFailure when a file is missing or ffmpeg fails
 */
export async function analyseRecording(content: string, recording: Recording, place: Workplace): Promise<Analysis> {
  const { angles } = recording;
  await needFiles(
    content,
    recording,
    [...recording.files, ...angles].map(({ file }) => file),
  );
  const files = await Promise.all(
    recording.files.map(async ({ file, span: at }) => ({
      at,
      name: file,
      file: await examine(fileInside(content, file), place.tools, place.signal),
    })),
  );
  const others = await Promise.all(
    angles.map(async ({ id, file }) => ({
      id,
      name: file,
      file: await examine(fileInside(content, file), place.tools, place.signal),
    })),
  );
  place.progress.start('analysing');
  const wanted = [
    ...files.map(({ file, at }) => lookThrough(file, (at.end - at.start) / TICKS_PER_SECOND)),
    ...others.map(({ file }) => lookThrough({ ...file, ...without }, file.sounds[0]?.length ?? 0)),
  ];
  const listener = await listenerOf(place);
  const listening = files.map(({ file, at }) =>
    listener ? listenTo(file, (at.end - at.start) / TICKS_PER_SECOND, listener) : undefined,
  );
  const results = await runJobs([...wanted, ...listening.flatMap((one) => one ?? [])], place);
  const [folders, heard] = [results.slice(0, wanted.length), results.slice(wanted.length)];
  const looked: Looked[] = [];
  for (const [i, { file, at }] of files.entries()) {
    const result = listening[i] ? heard.shift() : undefined;
    const talk = result === undefined ? [] : foundVoice.parse(JSON.parse(await readFile(result, 'utf8'))).talk;
    looked.push({ file, at, folder: folders[i] ?? '', ...(listener && { talk }) });
  }
  const analysis = await together(recording, looked, place);
  const aligned: Analysis['angles'][number][] = [];
  if (others.length > 0) {
    place.progress.start('aligning by sound');
    const reference = await soundOf(looked, recording.length ?? ticks(0));
    for (const [i, { id, name, file }] of others.entries()) {
      const other = await readSound(join(folders[files.length + i] ?? '', RESULT.sound));
      const found = alignSound(reference, other, COARSE_RATE);
      aligned.push({ id, file: name, ...(found.ok ? fromPicture(found.value, file) : refusal(found, file)) });
    }
  }
  const whole = { ...analysis, angles: aligned };
  await keep(analysisFolder(content, recording.id), whole, looked, place);
  return whole;
}

/** Why it was not aligned, and where it may lie all the same. */
function refusal(
  { reason, candidate: found }: Extract<Aligned, { ok: false }>,
  file: Examined,
): { refused: string; candidate?: number } {
  if (found === undefined) return { refused: reason };
  const candidate = Math.round((found - soundLate(file)) * 100) / 100;
  const refused = `${reason}; the likeliest is "${printSignedTime(fromSeconds(candidate))}": hear both there in the cutting room, or write it and listen`;
  return { refused, candidate };
}

/** What is to listen: what the place says, else what this machine has. */
async function listenerOf({ listener }: Workplace): Promise<Listener | undefined> {
  if (listener !== undefined) return listener ?? undefined;
  const found = await findListener();
  return found.ok ? found.value : undefined;
}

/** The job that listens to one file; none where it has no sound. @param length of its picture, s */
function listenTo(
  { path, content, picture, sounds }: Examined,
  length: number,
  listener: Listener,
): Wanted | undefined {
  const [sound] = sounds;
  if (!sound) return undefined;
  const params = {
    sound: sound.stream,
    soundLate: picture ? sound.start - picture.start : 0,
    listener: listener.name,
    settings: VOICE_SETTINGS,
  };
  return want(findVoice(listener), [{ path, content }], params, length);
}

const without = { picture: undefined };

/** An alignment of sound, told for the first picture where there is one: the sound of a file may begin before or after. */
function fromPicture({ offset, drift, confidence }: Alignment, file: Examined) {
  return { offset: offset - soundLate(file) / (1 + drift / 1e6), drift, confidence };
}

/** First sample of a file after its first picture, s; 0 where it has not both. */
function soundLate({ picture, sounds }: Examined): number {
  return picture && sounds[0] ? sounds[0].start - picture.start : 0;
}

/** The job that looks through one file. @param length of its picture, s */
export function lookThrough(
  file: Omit<Examined, 'picture'> & { picture?: Examined['picture'] | undefined },
  length: number,
): Wanted {
  const [sound] = file.sounds;
  const { picture } = file;
  return want(
    analyseFile,
    [{ path: file.path, content: file.content }],
    {
      picture: picture?.stream ?? null,
      sound: sound?.stream ?? null,
      framesPerSecond: picture ? Math.max(1, picture.framesPerSecond) : 0,
      deinterlace: picture?.interlaced ?? false,
      length,
      soundLate: picture && sound ? sound.start - picture.start : 0,
    },
    length,
  );
}

async function together(
  recording: Recording,
  looked: readonly Looked[],
  place: Workplace,
): Promise<Omit<Analysis, 'angles'>> {
  const found = await Promise.all(
    looked.map(async ({ folder }) =>
      fileAnalysis.parse(JSON.parse(await readFile(join(folder, RESULT.facts), 'utf8'))),
    ),
  );
  const spans = (key: 'sound' | 'silence' | 'black' | 'freeze' | 'still') =>
    found.flatMap((one, i) => one[key].flatMap((stretch) => clampToFile(stretch, looked[i]?.at)));
  const speechBy = looked.some(({ talk }) => talk) ? 'network' : 'loudness';
  const length = recording.length ?? looked.at(-1)?.at.end ?? ticks(0);
  const sound = joinTouching(spans('sound'));
  const speech =
    speechBy === 'loudness'
      ? sound
      : joinTouching(looked.flatMap(({ talk = [], at }) => talk.flatMap((stretch) => clampToFile(stretch, at))));
  const { work, nobody } = presenceOf(
    length,
    rangesOf(speech),
    rangesOf(sound),
    rangesOf(joinTouching(spans('still'))),
  );
  const spoken = integratedLoudness(
    looked.flatMap(({ talk = [], file }, i) => {
      const late = file.picture ? (file.sounds[0]?.start ?? file.picture.start) - file.picture.start : 0;
      return blocksWithin(
        found[i]?.momentary ?? [],
        talk.map(([start, end]): Stretch => [start - late, end - late]),
      );
    }),
  );
  const times = (values: (one: (typeof found)[number]) => readonly number[]) =>
    found.flatMap((one, i) => values(one).map((time) => moment(time, looked[i]?.at)));
  const blocks = found.flatMap(({ momentary }) => momentary.slice(3));
  const integrated = found.length === 1 ? found[0]?.integrated : integratedLoudness(blocks);
  const peaks = found.flatMap(({ truePeak }) => truePeak ?? []);
  const ranges = found.flatMap(({ range: one }) => one ?? []);
  const keyFrames = (await Promise.all(looked.map(({ file, at }) => keyFramesOf(file.path, at)))).flat();
  place.signal.throwIfAborted();
  return {
    version: 2,
    recording: recording.id,
    inputs: recording.files.map(({ file }, i) => ({ file, content: looked[i]?.file.content ?? '' })),
    length,
    loudness: {
      ...(integrated !== undefined && { integrated }),
      ...(ranges.length > 0 && { range: Math.max(...ranges) }),
      ...(peaks.length > 0 && { truePeak: Math.max(...peaks) }),
      ...(spoken !== undefined && { speech: spoken }),
    },
    speechBy,
    speech,
    work: pairsOf(work),
    nobody: pairsOf(nobody),
    silence: joinTouching(spans('silence')).filter(([start, end]) => end - start >= LEAST_SILENCE),
    scenes: found.flatMap(({ scenes }, i) => scenes.map(({ at, score }) => ({ at: moment(at, looked[i]?.at), score }))),
    black: spans('black'),
    freeze: spans('freeze'),
    keyFrames,
    claps: times(({ claps }) => claps),
    thumbnails: {
      every: THUMBNAILS.every,
      width: THUMBNAILS.width,
      columns: THUMBNAILS.columns,
      rows: THUMBNAILS.rows,
      sheets: found.flatMap(({ sheets }, i) =>
        sheets.map((_, n) => ({
          name: sheetName(i, n),
          at: moment(n * THUMBNAILS.columns * THUMBNAILS.rows * THUMBNAILS.every, looked[i]?.at),
        })),
      ),
    },
    peaks: { perSecond: PEAKS_PER_SECOND, bytes: [] },
  };
}

/** A rest shorter than this is none, ticks: where a camera file ends its sound may, a little before its picture. */
const LEAST_SILENCE = 0.4 * TICKS_PER_SECOND;

const sheetName = (file: number, sheet: number) => `sheet-${file + 1}-${sheet + 1}.jpg`;

function moment(seconds: number, at: Range<'recording'> | undefined): Ticks<'recording'> {
  const [start, end] = [at?.start ?? 0, at?.end ?? 0];
  return ticks(Math.min(end, Math.max(start, start + fromSeconds<'recording'>(seconds))));
}

function clampToFile([start, end]: readonly [number, number], at: Range<'recording'> | undefined): [number, number][] {
  const [from, until] = [moment(start, at), moment(end, at)];
  return until > from ? [[from, until]] : [];
}

const pairsOf = (list: EditList) => list.map(({ start, end }): [number, number] => [start, end]);

/** Stretches that touch where one camera file ends and the next begins are one. */
function joinTouching(spans: readonly [number, number][]): [number, number][] {
  const out: [number, number][] = [];
  for (const [start, end] of spans) {
    const last = out.at(-1);
    if (last && start <= last[1]) out[out.length - 1] = [last[0], Math.max(last[1], end)];
    else out.push([start, end]);
  }
  return out;
}

/** Key pictures of a file, from its index. */
async function keyFramesOf(path: string, at: Range<'recording'>): Promise<Ticks<'recording'>[]> {
  const input = openMedia(path);
  try {
    const [track] = await input.getVideoTracks();
    if (!track) return [];
    const first = await track.getFirstTimestamp();
    const sink = new EncodedPacketSink(track);
    const times: Ticks<'recording'>[] = [];
    for (let key = await sink.getFirstKeyPacket({ metadataOnly: true }); key; ) {
      times.push(moment(key.timestamp - first, at));
      key = await sink.getNextKeyPacket(key, { metadataOnly: true });
    }
    return times;
  } catch {
    // Containers that mediabunny does not read have their key frames found when they are rendered.
    return [];
  } finally {
    input.dispose();
  }
}

/** The coarse sound of the whole recording. */
async function soundOf(looked: readonly Looked[], length: Ticks<'recording'>): Promise<Int16Array> {
  const whole = new Int16Array(Math.ceil((length / TICKS_PER_SECOND) * COARSE_RATE));
  for (const { folder, at, file } of looked) {
    const samples = await readSound(join(folder, RESULT.sound));
    const late = file.picture ? (file.sounds[0]?.start ?? file.picture.start) - file.picture.start : 0;
    const from = Math.max(0, Math.round((at.start / TICKS_PER_SECOND + late) * COARSE_RATE));
    whole.set(samples.subarray(0, Math.max(0, whole.length - from)), from);
  }
  return whole;
}

/** Puts the analysis where the cutting room and later runs find it. */
async function keep(
  folder: string,
  analysis: Analysis,
  looked: readonly Looked[],
  { store }: Workplace,
): Promise<void> {
  const staging = await store.temporaryFolder();
  const pairs = new Int8Array(Math.ceil((analysis.length / TICKS_PER_SECOND) * PEAKS_PER_SECOND) * 2);
  for (const [i, { folder: found, at, file }] of looked.entries()) {
    const late = file.picture ? (file.sounds[0]?.start ?? file.picture.start) - file.picture.start : 0;
    const bytes = new Int8Array(await readFile(join(found, RESULT.peaks)));
    const from = Math.max(0, Math.round((at.start / TICKS_PER_SECOND + late) * PEAKS_PER_SECOND)) * 2;
    pairs.set(bytes.subarray(0, Math.max(0, pairs.length - from)), from);
    for (const [n, sheet] of fileAnalysis
      .parse(JSON.parse(await readFile(join(found, RESULT.facts), 'utf8')))
      .sheets.entries())
      await copyFile(join(found, sheet), join(staging, sheetName(i, n)));
  }
  const levels = peakLevels(pairs);
  await writeFile(join(staging, 'peaks.s8'), Buffer.concat(levels.map((level) => Buffer.from(level))));
  const text = JSON.stringify({
    ...analysis,
    peaks: { perSecond: PEAKS_PER_SECOND, bytes: levels.map((l) => l.length) },
  });
  await writeFile(join(staging, 'analysis.json'), text);
  await mkdir(dirname(folder), { recursive: true });
  // Taken away at once, not file by file: another run may be putting its own there.
  await rename(folder, store.temporary('last')).catch((error: unknown) => {
    if (errorCode(error) !== 'ENOENT') throw error;
  });
  await store.keep(staging, folder);
}
