import { writeFile } from 'node:fs/promises';
import { voiceArgs } from '../../core/media/index.ts';
import { HEARD_RATE, lookAt } from '../../core/words/index.ts';
import { streamFfmpeg } from '../media/ffmpeg.ts';
import { inWindows, joinSamples } from '../media/find-voice.ts';
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
    let [next, heard] = [0, 0];
    let taken: Float32Array[] = [];
    const end = () => {
      parts.push(lookAt(joinSamples(taken)));
      taken = [];
      next++;
    };
    for await (const samples of inWindows(streamFfmpeg(tools, voiceArgs(path, sound), { signal }), HEARD_RATE)) {
      for (let span = spans[next]; span && span[0] < heard + samples.length; span = spans[next]) {
        taken.push(samples.subarray(Math.max(0, span[0] - heard), span[1] - heard));
        if (span[1] > heard + samples.length) break;
        end();
      }
      heard += samples.length;
      onSeconds(heard / HEARD_RATE);
    }
    while (next < spans.length) end();
    await writeFile(output, writeLooks(parts));
  },
};
