import { writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { z } from 'zod';
import {
  type HeardPiece,
  joinHeard,
  PIECE_LENGTH,
  PIECE_OVERLAP,
  VOICE_RATE,
  voiceArgs,
} from '../../core/media/index.ts';
import { streamFfmpeg } from './ffmpeg.ts';
import type { Ear, Listener } from './listener.ts';
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

/**
 * Listens to a file's sound as it is decoded, to several pieces at once where there are several processors: the network
 * takes one window after the other, and longer than decoding does. No more than those pieces is in memory.
 */
export function findVoice(listener: Listener): Task<FindVoiceParams> {
  return {
    name: 'find-voice',
    version: 2,
    extension: 'json',
    async run({ sound, soundLate }, [path = ''], output, { tools, signal, onSeconds }) {
      const ears: { readonly ear: Ear; open: number }[] = [];
      const heard: Promise<HeardPiece>[] = [];
      let done = 0;
      const hear = async (from: number, samples: Float32Array<ArrayBuffer>): Promise<HeardPiece> => {
        const { length } = samples;
        if (ears.length < availableParallelism() && ears.every(({ open }) => open > 0))
          ears.push({ ear: listener.start(), open: 0 });
        const one = ears.toSorted((a, b) => a.open - b.open)[0];
        if (!one) throw new RangeError('no processor');
        one.open++;
        const speech = await one.ear.hear(samples);
        one.open--;
        done += length;
        onSeconds(done / VOICE_RATE);
        return { from, length, speech };
      };
      try {
        for await (const { from, samples } of inPieces(streamFfmpeg(tools, voiceArgs(path, sound), { signal }))) {
          // One more than can be heard is ready, so that nobody waits.
          await heard.at(-availableParallelism() - 1);
          const piece = hear(from, samples);
          // Its failure is told where it is waited for.
          piece.catch(() => undefined);
          heard.push(piece);
        }
        const talk = joinHeard(await Promise.all(heard)).map(
          ([start, end]) => [start / VOICE_RATE + soundLate, end / VOICE_RATE + soundLate] as const,
        );
        const late = talk.map(([start, end]) => [Math.max(0, start), end] as const);
        await writeFile(output, JSON.stringify({ talk: late.filter(([start, end]) => end > start) }));
      } finally {
        await Promise.all(ears.map(({ ear }) => ear.close()));
      }
    },
  };
}

/** Sound in pieces that overlap. */
export async function* inPieces(
  parts: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): AsyncGenerator<{ readonly from: number; readonly samples: Float32Array<ArrayBuffer> }> {
  let blocks: Float32Array[] = [];
  let [from, length] = [0, 0];
  for await (const block of inWindows(parts, PIECE_OVERLAP)) {
    blocks.push(block);
    length += block.length;
    if (length < PIECE_LENGTH + (from > 0 ? PIECE_OVERLAP : 0)) continue;
    yield { from, samples: joinSamples(blocks) };
    from += length - block.length;
    [blocks, length] = [[block], block.length];
  }
  if (blocks.length > (from > 0 ? 1 : 0)) yield { from, samples: joinSamples(blocks) };
}

/** Sound of several parts as one, in memory of its own. */
export function joinSamples(parts: readonly Float32Array[]): Float32Array<ArrayBuffer> {
  const whole = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
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
