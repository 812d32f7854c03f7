import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';

/** Samples a second of all sound here. */
export const SAMPLE_RATE = 16_000;

export interface Voice {
  readonly name: string;
  readonly pitch: number;
  readonly speed: number;
}
export const INSTRUCTOR: Voice = { name: 'en-gb', pitch: 42, speed: 120 };
export const SOMEONE: Voice = { name: 'en-gb+f3', pitch: 50, speed: 130 };

const CACHE = '.liftside/footage/speech';

/** A sentence spoken by espeak-ng: mono samples −1 … 1 at 16 kHz, silence at both ends taken off. */
export function speak(text: string, voice: Voice): Float32Array {
  const sentence = text.replaceAll('\u00a0', ' ');
  mkdirSync(CACHE, { recursive: true });
  const file = `${CACHE}/${createHash('sha256')
    .update(JSON.stringify([voice, sentence]))
    .digest('hex')
    .slice(0, 24)}.f32`;
  if (!existsSync(file)) {
    const wav = execFileSync('espeak-ng', [
      '-v',
      voice.name,
      '-p',
      String(voice.pitch),
      '-s',
      String(voice.speed),
      '--stdout',
      sentence,
    ]);
    const raw = new Uint8Array(resampled(wav).buffer);
    writeFileSync(file, raw);
  }
  const bytes = readFileSync(file);
  return trimmed(new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength)));
}

function trimmed(samples: Float32Array): Float32Array {
  const loud = (sample: number) => Math.abs(sample) > 0.01;
  const first = samples.findIndex(loud);
  const last = samples.findLastIndex(loud);
  return first < 0 ? samples.subarray(0, 0) : samples.subarray(Math.max(0, first - 160), last + 320);
}

/** A mono 16-bit WAV at our rate; smoothed first, so that what our rate cannot hold does not fold back. */
function resampled(wav: Buffer): Float32Array {
  const data = wav.indexOf('data') + 8;
  const rate = wav.readUInt32LE(24);
  const count = Math.floor((wav.length - data) / 2);
  const at = (i: number) => (i < 0 || i >= count ? 0 : wav.readInt16LE(data + i * 2) / 32_768);
  const smooth = (i: number) => 0.25 * at(i - 1) + 0.5 * at(i) + 0.25 * at(i + 1);
  return Float32Array.from({ length: Math.floor((count * SAMPLE_RATE) / rate) }, (_, n) => {
    const x = (n * rate) / SAMPLE_RATE;
    const i = Math.floor(x);
    return smooth(i) + (smooth(i + 1) - smooth(i)) * (x - i);
  });
}
