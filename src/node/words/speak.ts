import { readFile, rm, writeFile } from 'node:fs/promises';
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
/** 1, in 16 bits. */
const FULL = 32_768;

/** Words a minute: as somebody explains at work. */
const SPEED = 150;

/**
 * Between two sentences of one call, s: more than twice as long as any pause within one, so that the sound is cut there.
 * With 1.6 s a few parts of sentences were taken for sentences, and all were spoken one by one.
 */
const BREAK = 3;

/** Has espeak-ng speak some sentences, and keeps how each of them looks. */
export function speak(program: string): Task<SpeakParams> {
  return {
    name: 'speak',
    version: 3,
    extension: 'looks',
    async run({ language, sentences }, _, output, { signal, onSeconds }) {
      const sound = `${output}.wav`;
      const say = async (text: string, how: readonly string[] = []) => {
        await writeSpoken(program, [...how, '-s', String(SPEED), '-w', sound, '--stdin', '-v', language], text, signal);
        return readWav(await readFile(sound));
      };
      try {
        // Speech Synthesis Markup Language 1.1, 3.1.8 and 3.2.3. In one call it takes a fifth of the time: most of what a
        // sentence costs by itself is to start the program.
        const text = sentences.map((sentence) => `<s>${escapeXml(sentence)}</s><break time="${BREAK}s"/>`).join('\n');
        let parts = atPauses(await say(text, ['-m']), BREAK / 2);
        // One of them has no sound, or a long pause of its own: then which is which is sure only one by one.
        if (parts.length !== sentences.length) {
          parts = [];
          for (const [i, sentence] of sentences.entries()) {
            const [whole] = atPauses(await say(sentence), Number.POSITIVE_INFINITY);
            parts.push(whole ?? SILENCE);
            onSeconds(i + 1);
          }
        }
        await writeFile(output, writeLooks(parts.map((part) => lookAt(toHeardRate(part)))));
      } finally {
        await rm(sound, { force: true });
      }
    },
  };
}

/** @param how switches, the language last */
async function writeSpoken(
  program: string,
  how: readonly string[],
  input: string,
  cancelSignal: AbortSignal,
): Promise<void> {
  try {
    await execa(program, how, { input, cancelSignal });
  } catch (error) {
    cancelSignal.throwIfAborted();
    const why = error instanceof ExecaError ? String(error.stderr ?? '').trim() : String(error);
    throw new OutsideFailure(
      `espeak-ng does not speak "${how.at(-1) ?? ''}": ${why.split('\n')[0] || 'it failed'}`,
      'espeak-ng --voices lists the languages; --language names another one',
    );
  }
}

/** Sound as espeak-ng writes it: one channel. */
interface Sound {
  readonly samples: Int16Array;
  /** Samples a second. */
  readonly rate: number;
}
const SILENCE: Sound = { samples: new Int16Array(0), rate: HEARD_RATE };

/** The sound in a WAV of one channel, 16 bits; nothing where there is none. */
export function readWav(wav: Uint8Array): Sound {
  const bytes = Buffer.from(wav.buffer, wav.byteOffset, wav.byteLength);
  const found = bytes.indexOf('data');
  if (found < 0) return SILENCE;
  const samples = new Int16Array((bytes.length - found - 8) >> 1);
  Buffer.from(samples.buffer).set(bytes.subarray(found + 8, found + 8 + samples.byteLength));
  return { samples, rate: bytes.readUInt32LE(24) };
}

/** Sound at `HEARD_RATE`, −1 … 1. */
export function toHeardRate({ samples, rate }: Sound): Float32Array {
  const heard = new Float32Array(Math.floor((samples.length * HEARD_RATE) / rate));
  for (let n = 0; n < heard.length; n++) {
    const x = (n * rate) / HEARD_RATE;
    const i = Math.floor(x);
    const here = samples[i] ?? 0;
    heard[n] = (here + ((samples[i + 1] ?? 0) - here) * (x - i)) / FULL;
  }
  return heard;
}

/**
 * What sounds, without the silence around it and between.
 *
 * @param least pauses that part it, s; shorter ones stay
 */
export function atPauses({ samples, rate }: Sound, least: number): Sound[] {
  const parts: Sound[] = [];
  const quiet = QUIET * FULL;
  let [from, last] = [-1, -1];
  const end = () => parts.push({ samples: samples.subarray(from, last + 1), rate });
  for (let i = 0; i < samples.length; i++) {
    if (Math.abs(samples[i] ?? 0) <= quiet) continue;
    if (from >= 0 && i - last > least * rate) {
      end();
      from = i;
    }
    if (from < 0) from = i;
    last = i;
  }
  if (from >= 0) end();
  return parts;
}
