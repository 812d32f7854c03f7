import { writeFile } from 'node:fs/promises';
import { HEARD_RATE, lookAt } from '../../core/words/index.ts';
import { type DecodedSound, decodeSound } from '../media/decoded-sound.ts';
import type { Task } from '../media/pool.ts';
import { writeLooks } from './looks-file.ts';

export interface HearLooksParams {
  /** Position of the sound among the file's streams. */
  readonly sound: number;
  /** Where somebody speaks, in order, s from the first sample. */
  readonly talk: readonly (readonly [start: number, end: number])[];
}

/** Keeps how the speech of a file looks, part by part; of its sound no more than one part is in memory. */
export const hearLooks: Task<HearLooksParams> = {
  name: 'hear-looks',
  version: 1,
  extension: 'looks',
  async run({ sound, talk }, [path = ''], output, { tools, signal, onSeconds }) {
    const spans = talk.map(
      ([start, end]) => [Math.max(0, Math.round(start * HEARD_RATE)), Math.round(end * HEARD_RATE)] as const,
    );
    const parts: Float32Array[] = [];
    const look = async (decoded: DecodedSound) => {
      for (const [start, end] of spans) {
        parts.push(lookAt(await decoded.read(start, Math.max(start, end))));
        onSeconds(end / HEARD_RATE);
      }
    };
    await decodeSound(tools, { path, stream: sound, beside: `${output}.f32` }, { signal }, look);
    await writeFile(output, writeLooks(parts));
  },
};
