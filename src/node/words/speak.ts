import { writeFile } from 'node:fs/promises';
import { ExecaError, execa } from 'execa';
import { escapeXml } from '../../core/pages/index.ts';
import { HEARD_RATE, lookAt } from '../../core/words/index.ts';
import { OutsideFailure } from '../failure.ts';
import type { Task } from '../media/pool.ts';
import { writeLooks } from './looks-file.ts';

export interface SpeakParams {
  /** As espeak-ng names its voices, such as `en`, `en-us`, `de`. */
  readonly language: string;
  readonly sentences: readonly string[];
}

/** What is softer is silence, of 1. */
const QUIET = 0.005;

/** Words a minute: as somebody explains at work. */
const SPEED = 150;

/** Between two sentences of one call, s: longer than any pause within one, so that the sound is cut there. */
const BREAK = 3;

/** Has espeak-ng speak some sentences, and keeps how each of them looks. */
export function speak(program: string): Task<SpeakParams> {
  return {
    name: 'speak',
    version: 2,
    extension: 'looks',
    async run({ language, sentences }, _, output, { signal, onSeconds }) {
      let parts = await spokenTogether(program, language, sentences, signal);
      // One of them has no sound, or a long pause of its own: then which is which is sure only one by one.
      if (parts.length !== sentences.length) {
        parts = [];
        for (const [i, sentence] of sentences.entries()) {
          const samples = samplesOf(await spoken(program, ['-v', language], sentence, signal));
          parts.push(atPauses(samples, Number.POSITIVE_INFINITY)[0] ?? new Float32Array(0));
          onSeconds(i + 1);
        }
      }
      await writeFile(output, writeLooks(parts.map(lookAt)));
    },
  };
}

/** Sentences in one call, which takes a fifth of the time: most of what one costs by itself is to start the program. */
async function spokenTogether(
  program: string,
  language: string,
  sentences: readonly string[],
  signal: AbortSignal,
): Promise<Float32Array[]> {
  // Speech Synthesis Markup Language 1.1, 3.1.8 and 3.2.3.
  const text = sentences.map((sentence) => `<s>${escapeXml(sentence)}</s><break time="${BREAK}s"/>`).join('\n');
  return atPauses(samplesOf(await spoken(program, ['-m', '-v', language], text, signal)), BREAK / 2);
}

/** @param how switches, the language last */
async function spoken(program: string, how: readonly string[], text: string, signal: AbortSignal): Promise<Uint8Array> {
  try {
    const { stdout } = await execa(program, [...how, '-s', String(SPEED), '--stdout', '--stdin'], {
      input: text,
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
      `espeak-ng does not speak "${how.at(-1) ?? ''}": ${why.split('\n')[0] || 'it failed'}`,
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
  const given = new Int16Array(count);
  for (let i = 0; i < count; i++) given[i] = bytes.readInt16LE(data + i * 2);
  const samples = new Float32Array(Math.floor((count * HEARD_RATE) / rate));
  for (let n = 0; n < samples.length; n++) {
    const x = (n * rate) / HEARD_RATE;
    const i = Math.floor(x);
    const here = given[i] ?? 0;
    samples[n] = (here + ((given[i + 1] ?? 0) - here) * (x - i)) / 32_768;
  }
  return samples;
}

/**
 * What sounds, without the silence around it and between.
 *
 * @param least pauses that part it, s; shorter ones stay
 */
export function atPauses(samples: Float32Array, least: number): Float32Array[] {
  const parts: Float32Array[] = [];
  let [from, last] = [-1, -1];
  for (let i = 0; i < samples.length; i++) {
    if (Math.abs(samples[i] ?? 0) <= QUIET) continue;
    if (from >= 0 && i - last > least * HEARD_RATE) {
      parts.push(samples.subarray(from, last + 1));
      from = i;
    }
    if (from < 0) from = i;
    last = i;
  }
  if (from >= 0) parts.push(samples.subarray(from, last + 1));
  return parts;
}
