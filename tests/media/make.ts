import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { execa } from 'execa';

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

/** A steady tone as ffmpeg input. */
export function tone(hz: number, seconds: number, sampleRate = 48_000): string[] {
  return ['-f', 'lavfi', '-i', `sine=f=${hz}:r=${sampleRate}:d=${seconds}`];
}
