import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import {
  type AnalyseParams,
  analyseArgs,
  COARSE_RATE,
  findClaps,
  findStill,
  LOGS,
  listenFor,
  peakPairs,
  readLoudnessLog,
  readPictureLog,
} from '../../core/media/index.ts';
import { runFfmpeg } from './ffmpeg.ts';
import type { Task } from './pool.ts';

/** Pairs of lowest and highest sample in a second, at the finest zoom. */
export const PEAKS_PER_SECOND = 100;

const stretches = z.array(z.tuple([z.number(), z.number()]));
/** What one pass over a camera file found out; times in s from its first picture, or first sample where it has none. */
export const fileAnalysis = z.object({
  scenes: z.array(z.object({ at: z.number(), score: z.number() })),
  black: stretches,
  freeze: stretches,
  /** Where nothing moves in the picture; all of a file without one. */
  still: stretches,
  /** Where it is louder than the room. */
  sound: stretches,
  silence: stretches,
  claps: z.array(z.number()),
  momentary: z.array(z.number()),
  integrated: z.number().optional(),
  range: z.number().optional(),
  truePeak: z.number().optional(),
  /** Seconds of sound looked at. */
  heard: z.number(),
  sheets: z.array(z.string()),
});
export type FileAnalysis = z.infer<typeof fileAnalysis>;

export interface AnalyseFileParams extends AnalyseParams {
  /** Length of the picture, s. */
  readonly length: number;
  /** First sample after the first picture, s; negative before it. */
  readonly soundLate: number;
}

/** Names inside the result folder. */
export const RESULT = { facts: 'facts.json', peaks: 'peaks.s8', sound: LOGS.sound } as const;

/** Looks through a camera file in one decoding pass; the result is a folder. */
export const analyseFile: Task<AnalyseFileParams> = {
  name: 'analyse',
  version: 2,
  extension: 'found',
  async run(params, [path = ''], output, { tools, signal, onSeconds }) {
    await mkdir(output, { recursive: true });
    if (params.picture !== null || params.sound !== null)
      await runFfmpeg(tools, analyseArgs(path, params), { signal, onSeconds, cwd: output });
    const read = (name: string) => readFile(join(output, name), 'utf8').catch(() => '');
    const picture = readPictureLog(await read(LOGS.picture), params.length);
    const loudness = readLoudnessLog(await read(LOGS.loudness));
    const samples = await readSound(join(output, LOGS.sound));
    const heard = listenFor(samples, COARSE_RATE);
    const late = (time: number) => Math.max(0, time + params.soundLate);
    const facts: FileAnalysis = {
      ...picture,
      black: picture.black.map(([start, end]) => [start, end]),
      freeze: picture.freeze.map(([start, end]) => [start, end]),
      scenes: [...picture.scenes],
      still: findStill(await readFile(join(output, LOGS.grid)).catch(() => Buffer.alloc(0)), params.length).map(
        ([start, end]) => [start, end],
      ),
      sound: heard.speech.map(([start, end]) => [late(start), late(end)]),
      silence: heard.silence.map(([start, end]) => [late(start), late(end)]),
      claps: findClaps(samples, COARSE_RATE).map(late),
      ...loudness,
      momentary: [...loudness.momentary],
      heard: samples.length / COARSE_RATE,
      sheets: (await readdir(output)).filter((name) => name.endsWith('.jpg')).toSorted(bySheet),
    };
    await rm(join(output, LOGS.grid), { force: true });
    await writeFile(join(output, RESULT.peaks), peakPairs(samples, COARSE_RATE, PEAKS_PER_SECOND));
    await writeFile(join(output, 'facts.part'), JSON.stringify(facts));
    await rename(join(output, 'facts.part'), join(output, RESULT.facts));
  },
};

/** Coarse sound as it was written down; empty where there is none. */
export async function readSound(path: string): Promise<Int16Array> {
  const bytes = await readFile(path).catch(() => Buffer.alloc(0));
  return new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length - (bytes.length % 2)));
}

function bySheet(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}
