import { writeFile } from 'node:fs/promises';
import { z } from 'zod';
import { type Stretch, VOICE_RATE, VOICE_WINDOW, voiceArgs } from '../../core/media/index.ts';
import { streamFfmpeg } from './ffmpeg.ts';
import type { Listener } from './listener.ts';
import type { Task } from './pool.ts';

export interface FindVoiceParams {
  /** Position of the sound among the file's streams. */
  readonly sound: number;
  /** First sample after the first picture, s; negative before it. */
  readonly soundLate: number;
  /** What listens, and how it is set: both decide the result. */
  readonly listener: string;
  readonly settings: Readonly<Record<string, number>>;
}

/** Where somebody speaks in a file, s from its first picture, or first sample where it has none. */
export const foundVoice = z.object({ talk: z.array(z.tuple([z.number(), z.number()])) });

/** Listens to a file's sound, as it is decoded; no more of it than some seconds is in memory. */
export function findVoice(listener: Listener): Task<FindVoiceParams> {
  return {
    name: 'find-voice',
    version: 1,
    extension: 'json',
    async run({ sound, soundLate }, [path = ''], output, { tools, signal, onSeconds }) {
      const listening = listener.listen();
      const talk: Stretch[] = [];
      let heard = 0;
      const parts = streamFfmpeg(tools, voiceArgs(path, sound), { signal });
      for await (const samples of inWindows(parts, VOICE_WINDOW)) {
        talk.push(...listening.hear(samples));
        heard += samples.length;
        if (heard % VOICE_RATE < VOICE_WINDOW) onSeconds(heard / VOICE_RATE);
      }
      talk.push(...listening.end());
      const late = talk.map(([start, end]) => [Math.max(0, start + soundLate), end + soundLate] as const);
      await writeFile(output, JSON.stringify({ talk: late.filter(([start, end]) => end > start) }));
    },
  };
}

/**
 * 32-bit floats out of parts of any size, so many at a time; the last may be fewer.
 *
 * @param parts bytes, low end first, in order; a number may lie across two of them
 */
export async function* inWindows(
  parts: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  size: number,
): AsyncGenerator<Float32Array> {
  let window = new Uint8Array(size * 4);
  let filled = 0;
  for await (const part of parts)
    for (let at = 0; at < part.length; ) {
      const taken = part.subarray(at, at + window.length - filled);
      window.set(taken, filled);
      filled += taken.length;
      at += taken.length;
      if (filled < window.length) continue;
      yield new Float32Array(window.buffer);
      window = new Uint8Array(size * 4);
      filled = 0;
    }
  if (filled >= 4) yield new Float32Array(window.buffer, 0, Math.floor(filled / 4));
}
