import { open, rm } from 'node:fs/promises';
import { voiceArgs } from '../../core/media/index.ts';
import { runFfmpeg, type Watch } from './ffmpeg.ts';
import type { Tools } from './tools.ts';

/** Sound of a file while it is decoded: one channel at `VOICE_RATE`, −1 … 1. */
export interface DecodedSound {
  /** The file that it is written to, one sample after the other. */
  readonly file: string;
  /**
   * Waits until there are so many samples, or no more will come.
   *
   * @returns how many of them there are
   * @throws OutsideFailure when ffmpeg fails
   */
  reach(until: number): Promise<number>;
  /**
   * Samples from one on until before another; fewer where the sound ends. Waits until so many are decoded.
   *
   * @throws OutsideFailure when ffmpeg fails
   */
  read(from: number, until: number): Promise<Float32Array<ArrayBuffer>>;
}

/** Bytes of a sample, a 32-bit float. */
const SIZE = 4;

/**
 * Decodes a file's sound into a file beside, for as long as it is used. To take it from a pipe, part by part as they
 * come, would cost Node.js half of what decoding does.
 *
 * @param stream position among the file's streams
 * @param beside path of the file for the samples, 230 MB an hour; it is removed
 * @throws OutsideFailure when ffmpeg fails; the signal's reason when it was stopped
 */
export async function decodeSound<T>(
  tools: Tools,
  { path, stream, beside }: { readonly path: string; readonly stream: number; readonly beside: string },
  { signal, onSeconds }: Pick<Watch, 'signal' | 'onSeconds'>,
  use: (sound: DecodedSound) => Promise<T>,
): Promise<T> {
  const enough = new AbortController();
  const file = await open(beside, 'w+');
  let decoded = false;
  let moreCame = () => {};
  const decoding = runFfmpeg(tools, ['-stats_period', '0.1', ...voiceArgs(path, stream, beside)], {
    signal: signal ? AbortSignal.any([signal, enough.signal]) : enough.signal,
    onSeconds: (seconds) => {
      onSeconds?.(seconds);
      moreCame();
    },
  }).finally(() => {
    decoded = true;
  });
  // Its failure is told where it is waited for.
  decoding.catch(() => undefined);
  const reach = async (until: number) => {
    for (;;) {
      const ended = decoded;
      if (ended) await decoding;
      const there = Math.floor((await file.stat()).size / SIZE);
      if (there >= until || ended) return Math.min(there, until);
      await Promise.race([decoding, new Promise<void>((done) => (moreCame = done))]);
    }
  };
  const read = async (from: number, until: number) => {
    const samples = new Float32Array(Math.max(0, (await reach(until)) - from));
    const bytes = new Uint8Array(samples.buffer);
    for (let filled = 0; filled < bytes.length; ) {
      const { bytesRead } = await file.read(bytes, filled, bytes.length - filled, from * SIZE + filled);
      if (bytesRead === 0) break;
      filled += bytesRead;
    }
    return samples;
  };
  try {
    return await use({ file: beside, reach, read });
  } finally {
    enough.abort();
    await decoding.catch(() => undefined);
    await file.close();
    await rm(beside, { force: true });
  }
}
