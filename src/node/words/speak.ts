import { writeFile } from 'node:fs/promises';
import { ExecaError, execa } from 'execa';
import { HEARD_RATE, lookAt } from '../../core/words/index.ts';
import { OutsideFailure } from '../failure.ts';
import type { Task } from '../media/pool.ts';
import { writeLooks } from './looks-file.ts';

export interface SpeakParams {
  /** As espeak-ng names its voices, such as `en`, `en-us`, `de`. */
  readonly language: string;
  readonly sentences: readonly string[];
}

/** Words a minute: as somebody explains at work. */
const SPEED = 150;

/** Has espeak-ng speak some sentences, and keeps how each of them looks. */
export function speak(program: string): Task<SpeakParams> {
  return {
    name: 'speak',
    version: 1,
    extension: 'looks',
    async run({ language, sentences }, _, output, { signal, onSeconds }) {
      const parts: Float32Array[] = [];
      for (const [i, sentence] of sentences.entries()) {
        parts.push(lookAt(trimmed(samplesOf(await spoken(program, language, sentence, signal)))));
        onSeconds(i + 1);
      }
      await writeFile(output, writeLooks(parts));
    },
  };
}

async function spoken(program: string, language: string, sentence: string, signal: AbortSignal): Promise<Uint8Array> {
  try {
    const { stdout } = await execa(program, ['-v', language, '-s', String(SPEED), '--stdout', '--stdin'], {
      input: sentence,
      encoding: 'buffer',
      cancelSignal: signal,
    });
    return stdout;
  } catch (error) {
    signal.throwIfAborted();
    const why =
      error instanceof ExecaError
        ? Buffer.from(error.stderr ?? '')
            .toString()
            .trim()
        : String(error);
    throw new OutsideFailure(
      `espeak-ng does not speak "${language}": ${why.split('\n')[0] || 'it failed'}`,
      'espeak-ng --voices lists the languages; --language names another one',
    );
  }
}

/** Mono 16-bit WAV as samples at `HEARD_RATE`, −1 … 1. */
export function samplesOf(wav: Uint8Array): Float32Array {
  const bytes = Buffer.from(wav.buffer, wav.byteOffset, wav.byteLength);
  const found = bytes.indexOf('data');
  if (found < 0) return new Float32Array(0);
  const [data, rate] = [found + 8, bytes.readUInt32LE(24)];
  const count = Math.floor((bytes.length - data) / 2);
  const at = (i: number) => (i < 0 || i >= count ? 0 : bytes.readInt16LE(data + i * 2) / 32_768);
  return Float32Array.from({ length: Math.floor((count * HEARD_RATE) / rate) }, (_, n) => {
    const x = (n * rate) / HEARD_RATE;
    const i = Math.floor(x);
    return at(i) + (at(i + 1) - at(i)) * (x - i);
  });
}

/** Without the silence at both ends. */
function trimmed(samples: Float32Array): Float32Array {
  const loud = (sample: number) => Math.abs(sample) > 0.005;
  const first = samples.findIndex(loud);
  return first < 0 ? samples.subarray(0, 0) : samples.subarray(first, samples.findLastIndex(loud) + 1);
}
