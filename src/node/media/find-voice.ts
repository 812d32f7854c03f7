import { writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { z } from 'zod';
import { type HeardPiece, joinHeard, PIECE_LENGTH, PIECE_OVERLAP, VOICE_RATE } from '../../core/media/index.ts';
import { type DecodedSound, decodeSound } from './decoded-sound.ts';
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
 * takes one window after the other, and longer than decoding does. No more than those pieces are in memory.
 */
export function findVoice(listener: Listener): Task<FindVoiceParams> {
  return {
    name: 'find-voice',
    version: 3,
    extension: 'json',
    async run({ sound: stream, soundLate }, [path = ''], output, { tools, signal, onSeconds }) {
      const ears: { readonly ear: Ear; open: number }[] = [];
      const heard: Promise<HeardPiece>[] = [];
      let done = 0;
      const hear = async (file: string, from: number, length: number): Promise<HeardPiece> => {
        if (ears.length < availableParallelism() && ears.every(({ open }) => open > 0))
          ears.push({ ear: listener.start(), open: 0 });
        const one = ears.toSorted((a, b) => a.open - b.open)[0];
        if (!one) throw new RangeError('no processor');
        one.open++;
        const speech = await one.ear.hear({ file, from, length });
        one.open--;
        done += length;
        onSeconds(done / VOICE_RATE);
        return { from, length, speech };
      };
      const hearAll = async (decoded: DecodedSound) => {
        for await (const { from, length } of inPieces(decoded)) {
          // One more than can be heard is ready, so that nobody waits.
          await heard.at(-availableParallelism() - 1);
          const piece = hear(decoded.file, from, length);
          // Its failure is told where it is waited for.
          piece.catch(() => undefined);
          heard.push(piece);
        }
        return joinHeard(await Promise.all(heard));
      };
      try {
        const sound = { path, stream, beside: `${output}.f32` };
        const speech = await decodeSound(tools, sound, { signal }, hearAll);
        const talk = speech.map(
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

/** Sound in pieces that overlap, each as soon as it is decoded: its first sample, and how many it has. */
export async function* inPieces(
  sound: Pick<DecodedSound, 'reach'>,
): AsyncGenerator<{ readonly from: number; readonly length: number }> {
  for (let [from, until] = [0, PIECE_LENGTH]; ; [from, until] = [until - PIECE_OVERLAP, until + PIECE_LENGTH]) {
    const there = await sound.reach(until);
    if (there - from > (from > 0 ? PIECE_OVERLAP : 0)) yield { from, length: there - from };
    if (there < until) return;
  }
}
