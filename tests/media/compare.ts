import { hash } from 'node:crypto';
import { execa } from 'execa';
import { readFrameStrip } from '../support/frame-strip.ts';

const WIDTH = 64;
const HEIGHT = 36;

/** Every frame of a file as ffmpeg decodes it: small and grey for finding the nearest, and a hash of the whole. */
export interface Decoded {
  readonly small: readonly Uint8Array[];
  readonly hashes: readonly string[];
}

async function raw(args: readonly string[]): Promise<Uint8Array> {
  const { stdout } = await execa('ffmpeg', ['-v', 'error', '-nostdin', ...args, '-'], {
    encoding: 'buffer',
    stdin: 'ignore',
    maxBuffer: 1 << 30,
  });
  return stdout;
}

/** Decodes a whole file; frames one for one as they are stored. */
export async function decode(path: string, filters: readonly string[] = []): Promise<Decoded> {
  const before = filters.length > 0 ? `${filters.join(',')},` : '';
  const grey = await raw([
    '-i',
    path,
    '-map',
    '0:v:0',
    '-vf',
    `${before}scale=${WIDTH}:${HEIGHT},format=gray`,
    '-fps_mode',
    'passthrough',
    '-f',
    'rawvideo',
  ]);
  const hashed = await raw(['-i', path, '-map', '0:v:0', '-fps_mode', 'passthrough', '-f', 'framemd5']);
  const size = WIDTH * HEIGHT;
  return {
    small: Array.from({ length: grey.length / size }, (_, i) => grey.subarray(i * size, (i + 1) * size)),
    hashes: Buffer.from(hashed)
      .toString()
      .split('\n')
      .filter((line) => line !== '' && !line.startsWith('#'))
      .map((line) => line.split(',').at(-1)?.trim() ?? ''),
  };
}

/** Decoded pictures one after the other, as bytes of one format. @param filters that give it @param size bytes of a picture */
export async function* rawPictures(path: string, filters: string, size: number): AsyncGenerator<Uint8Array> {
  const args = ['-i', path, '-map', '0:v:0', '-vf', filters, '-fps_mode', 'passthrough', '-f', 'rawvideo', '-'];
  const running = execa('ffmpeg', ['-v', 'error', '-nostdin', ...args], {
    encoding: 'buffer',
    stdin: 'ignore',
    buffer: { stdout: false, stderr: true },
  });
  let rest = Buffer.alloc(0);
  for await (const bytes of running.readable()) {
    rest = Buffer.concat([rest, bytes]);
    let at = 0;
    for (; at + size <= rest.length; at += size) yield rest.subarray(at, at + size);
    rest = rest.subarray(at);
  }
  await running;
}

/** The number of every frame, read off the strip along its lower edge. */
export async function framesShown(path: string): Promise<(number | undefined)[]> {
  const size = { width: 64, height: 36 };
  const frames: (number | undefined)[] = [];
  const scale = `scale=${size.width}:${size.height}:flags=area,format=rgba`;
  for await (const data of rawPictures(path, scale, size.width * size.height * 4))
    frames.push(readFrameStrip({ ...size, data }));
  return frames;
}

/** The frame of `source` near `expected` that a frame looks most like. */
export function nearestFrame(frame: Uint8Array, source: Decoded, expected: number, reach = 3): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let i = Math.max(0, expected - reach); i <= Math.min(source.small.length - 1, expected + reach); i++) {
    const other = source.small[i]!;
    let sum = 0;
    for (let p = 0; p < frame.length; p++) sum += Math.abs(frame[p]! - other[p]!);
    if (sum < least) {
      least = sum;
      best = i;
    }
  }
  return best;
}

/**
 * Sound of a file as numbers, one channel, from the moment its picture begins, by the times in the file: silence where
 * the sound begins later. @param rate Hz
 */
export async function samples(path: string, rate = 48_000): Promise<Float32Array> {
  const { stdout } = await execa('ffprobe', ['-v', 'error', '-show_streams', '-of', 'json', path]);
  const streams: { codec_type: string; start_time: string }[] = JSON.parse(stdout).streams;
  const picture = Number(streams.find((s) => s.codec_type === 'video')?.start_time ?? 0);
  return heard(path, `aresample=${rate}:async=1:first_pts=${Math.round(picture * rate)}`);
}

/** Sound of a file as numbers, one channel, from its first sample on, whatever its time. @param rate Hz */
export async function soundAlone(path: string, rate = 48_000): Promise<Float32Array> {
  return heard(path, `aresample=${rate}`);
}

async function heard(path: string, filter: string): Promise<Float32Array> {
  const bytes = await raw(['-copyts', '-i', path, '-map', '0:a:0', '-ac', '1', '-af', filter, '-f', 'f32le']);
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
}

/**
 * How much later `heard` comes in `output` than at sample `at`, samples: the lag where the two agree best.
 *
 * @param expected sample of the source that should be heard at `at`
 */
export function lagOf(
  output: Float32Array,
  at: number,
  source: Float32Array,
  expected: number,
  length = 12_000,
  reach = 2_400,
): number {
  let best = 0;
  let most = Number.NEGATIVE_INFINITY;
  for (let lag = -reach; lag <= reach; lag++) {
    let sum = 0;
    for (let i = 0; i < length; i += 2) sum += output[at + i + lag]! * source[expected + i]!;
    if (sum > most) {
      most = sum;
      best = lag;
    }
  }
  return best;
}

export function hashOf(bytes: Uint8Array): string {
  return hash('sha256', bytes);
}
