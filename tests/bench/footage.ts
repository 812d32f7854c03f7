/**
 * Ratios of rendering and analysing, in one run, each against a named alternative:
 *
 *     npx node tests/bench/footage.ts [minutes, 60 when left out]
 *
 * Footage: 1280 × 720 at 30000/1001, a key picture a second, one cut a minute, cut on whole frames as the cutting room
 * does. It needs some gigabytes in the temporary folder and, for an hour, half an hour on two quiet processors.
 */
import { copyFile, mkdir, mkdtemp, open, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { execa } from 'execa';

const minutes = Number(process.argv[2] ?? 60);
const folder = await mkdtemp(join(tmpdir(), 'bench-footage-'));
const main = resolve(import.meta.dirname, '../../src/node/cli/liftside.mjs');
const ffmpeg = (...args: string[]) => execa('ffmpeg', ['-v', 'error', '-nostdin', '-y', ...args]);
const liftside = (...args: string[]) => execa(process.execPath, [main, ...args, '--content', folder]);

/** Memory left free, bytes. */
const LEFT = 512 << 20;
let filled = 0;

/**
 * Fills free memory with pages of an empty file, as it is filled with files where a computer has been at work for long.
 * Memory that a virtual machine touches for the first time is slow to come, and whoever writes first would pay for it.
 */
async function fillMemory(): Promise<void> {
  const told = await readFile('/proc/meminfo', 'utf8').catch(() => '');
  const wanted = Number(/^MemFree: +(\d+) kB/m.exec(told)?.[1] ?? 0) * 1024 - LEFT;
  if (wanted <= 0) return;
  const file = await open(join(folder, `empty-${filled++}`), 'w+');
  try {
    await file.truncate(wanted);
    const buffer = Buffer.alloc(4 << 20);
    while ((await file.read(buffer, 0, buffer.length)).bytesRead > 0);
  } finally {
    await file.close();
  }
}

/** What went before is on the disk first, so that nobody pays for the writing of another. */
async function timed(what: string, work: () => Promise<unknown>): Promise<number> {
  await execa('sync');
  await fillMemory();
  const from = performance.now();
  await work();
  const seconds = (performance.now() - from) / 1000;
  process.stdout.write(`${what.padEnd(44)} ${seconds.toFixed(1).padStart(8)} s\n`);
  return seconds;
}

async function writeShop(moved: number): Promise<void> {
  const cuts = Array.from({ length: minutes }, (_, i) => {
    const shift = i === Math.floor(minutes / 2) ? moved : 0;
    return `  - {in: "${clock(i * 60 + 3.37)}", out: "${clock(i * 60 + 58.81 + shift)}"}`;
  });
  const text = `title: Hour\nfiles: [{file: media/hour.mp4}]\nrate: "29.97"\nedit:\n${cuts.join('\n')}\n`;
  await writeFile(join(folder, 'recordings', 'hour.yaml'), text);
}

/** The nearest whole frame. */
function clock(seconds: number): string {
  const s = (Math.round((seconds * 30_000) / 1001) * 1001) / 30_000;
  return `${Math.floor(s / 3600)}:${String(Math.floor(s / 60) % 60).padStart(2, '0')}:${(s % 60).toFixed(6).padStart(9, '0')}`;
}

try {
  for (const name of ['recordings', 'media']) await mkdir(join(folder, name));
  await writeFile(join(folder, 'shop.yaml'), 'name: Bench\n');
  const hour = join(folder, 'media', 'hour.mp4');
  const minute = join(folder, 'minute.mp4');
  await ffmpeg(
    ...[
      '-f',
      'lavfi',
      '-i',
      'testsrc2=s=1280x720:r=30000/1001:d=60',
      '-f',
      'lavfi',
      '-i',
      'anoisesrc=c=pink:r=48000:a=0.2:d=60',
    ],
    ...[
      '-vf',
      'noise=alls=6:allf=t',
      '-c:v',
      'libx264',
      '-preset',
      'veryfast',
      '-b:v',
      '6M',
      '-g',
      '30',
      '-c:a',
      'aac',
      minute,
    ],
  );
  await ffmpeg('-stream_loop', String(minutes - 1), '-i', minute, '-c', 'copy', hour);
  await writeShop(0);

  const decode = await timed('bare decode', () => ffmpeg('-i', hour, '-f', 'null', '-'));
  const analyse = await timed('analyse', () => liftside('analyse', 'hour'));
  const copy = await timed('plain file copy', () => copyFile(hour, join(folder, 'copy.mp4')));
  await rm(join(folder, 'copy.mp4'));
  const first = await timed('render, copying where possible', () => liftside('render', 'hour'));
  await writeShop(1.4);
  const second = await timed('render again after one moved cut', () => liftside('render', 'hour'));
  const select = Array.from({ length: minutes }, (_, i) => `between(t,${i * 60 + 3.37},${i * 60 + 58.81})`).join('+');
  const full = await timed('full encode of the same programme', () =>
    ffmpeg(
      ...['-i', hour, '-vf', `select='${select}',setpts=N/FRAME_RATE/TB`, '-af', `aselect='${select}',asetpts=N/SR/TB`],
      ...['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-c:a', 'aac', join(folder, 'full.mp4')],
    ),
  );
  const ratio = (what: string, value: number, aim: string) =>
    process.stdout.write(`${what.padEnd(44)} ${value.toFixed(2).padStart(8)}   ${aim}\n`);
  ratio('full encode / render', full / first, 'at least 10');
  ratio('render / plain file copy', first / copy, 'the limit is 1');
  ratio('analyse / bare decode', analyse / decode, 'under 1.3');
  ratio('second render / first', second / first, 'under 0.15');
} finally {
  await rm(folder, { recursive: true, force: true });
}
