import { copyFile, cp, link, mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { execa } from 'execa';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { STRIP, stripBlocks } from '../support/frame-strip.ts';

/** A folder of its own for a test file's footage, and the way to be rid of it. */
export async function workspace(): Promise<{ path: (name: string) => string; remove: () => Promise<void> }> {
  const folder = await mkdtemp(join(tmpdir(), 'footage-'));
  return { path: (name) => join(folder, name), remove: () => rm(folder, { recursive: true, force: true }) };
}

/** Runs ffmpeg over test sources; the file is overwritten. */
export async function ffmpeg(...args: string[]): Promise<void> {
  await execa('ffmpeg', ['-hide_banner', '-nostdin', '-v', 'error', '-y', ...args], { stdin: 'ignore' });
}

/** A moving test picture (`testsrc2`) and its length, as ffmpeg input. */
export function testPicture(size: string, rate: string, seconds: number): string[] {
  return ['-f', 'lavfi', '-i', `testsrc2=s=${size}:r=${rate}:d=${seconds}`];
}

/** A small file with a moving picture and noise that varies, the same in every run. */
export async function smallFootage(path: string, seconds: number): Promise<void> {
  const noise = ['-f', 'lavfi', '-i', `anoisesrc=c=pink:r=48000:a=0.3:d=${seconds}:seed=4`];
  const coding = ['-preset', 'ultrafast', '-g', '50', '-c:a', 'aac'];
  await ffmpeg(...testPicture('320x180', '25', seconds), ...noise, ...coding, path);
}

/** A steady tone as ffmpeg input. */
export function tone(hz: number, seconds: number, sampleRate = 48_000): string[] {
  return ['-f', 'lavfi', '-i', `sine=f=${hz}:r=${sampleRate}:d=${seconds}`];
}

/** Numbers from 0 to 1 that are the same in every run. */
export function dice(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  return () => uniformFloat64(generator);
}

/** The demo's content where it may be changed; its footage by hard link where the disk allows. */
export async function demoCopy(to: string): Promise<string> {
  const demo = resolve(import.meta.dirname, '../../content');
  const media = join(demo, 'media');
  await cp(demo, to, {
    recursive: true,
    filter: (path) => path !== media && !path.startsWith(join(demo, '.liftside')),
  });
  await mkdir(join(to, 'media'));
  for (const name of await readdir(media)) {
    const [from, into] = [join(media, name), join(to, 'media', name)];
    await link(from, into).catch(() => copyFile(from, into));
  }
  return to;
}

/**
 * Grey pictures with the frame strip, so that a test can read off which frame of which camera it sees.
 *
 * @param rate frames a second, as a fraction
 * @param first number on the first frame
 * @param sound ffmpeg arguments of one sound input, or none
 */
export async function stripFootage(
  path: string,
  { rate, frames, first = 0, size = [320, 180], sound = [], coding = [] }: StripFootage,
): Promise<void> {
  const [width, height] = size;
  const input = ['-f', 'rawvideo', '-pix_fmt', 'gray', '-s', `${width}x${height}`, '-r', rate, '-i', '-'];
  const mapped = sound.length > 0 ? [...sound, '-map', '0:v', '-map', '1:a', '-c:a', 'aac'] : [];
  const kind = ['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p', '-g', '30', ...coding];
  const pictures = function* () {
    for (let i = 0; i < frames; i++) yield stripPicture(first + i, width, height);
  };
  await execa('ffmpeg', ['-hide_banner', '-v', 'error', '-y', ...input, ...mapped, ...kind, path], {
    input: Readable.from(pictures()),
  });
}

interface StripFootage {
  readonly rate: string;
  readonly frames: number;
  readonly first?: number;
  readonly size?: readonly [number, number];
  readonly sound?: readonly string[];
  readonly coding?: readonly string[];
}

function stripPicture(frame: number, width: number, height: number): Uint8Array {
  const picture = new Uint8Array(width * height).fill(110);
  const top = Math.round((height * (STRIP.rows - 1)) / STRIP.rows);
  const column = (n: number) => Math.round((n / STRIP.columns) * width);
  for (let y = top; y < height; y++)
    for (const [i, white] of stripBlocks(frame).entries())
      picture.fill(
        white ? 235 : 16,
        y * width + column(STRIP.firstColumn + i),
        y * width + column(STRIP.firstColumn + i + 1),
      );
  return picture;
}
