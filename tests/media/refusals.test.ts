import { open, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, type TestContext, test } from 'vitest';
import { mayMount, mountSmallDisk, type SmallDisk } from '../support/small-disk.ts';
import { ffmpeg, testPicture, workspace } from './make.ts';
import { shopWith } from './shop.ts';

const MAIN = 'src/node/cli/liftside.mjs';
const RECORDING =
  'title: Take\nfiles: [{file: media/a.mp4}, {file: media/b.mp4}]\nedit:\n  - {in: "0:00:01.3", out: "0:00:11.4"}\n  - {in: "0:00:13.1", out: "0:00:22.9"}\n';

let folder: Awaited<ReturnType<typeof workspace>>;
const mounted: SmallDisk[] = [];
beforeAll(async () => {
  folder = await workspace();
  const noise = ['-f', 'lavfi', '-i', 'anoisesrc=c=pink:r=48000:a=0.3:d=12'];
  await ffmpeg(...testPicture('320x180', '25', 12), ...noise, '-preset', 'ultrafast', '-g', '50', folder.path('a.mp4'));
});
afterAll(async () => {
  for (const one of mounted) one.unmount();
  await folder.remove();
});

/** A disk of its own of so many MB; the test is skipped, with the reason, where nothing may be mounted. */
async function disk(name: string, megabytes: number, context: TestContext): Promise<string> {
  if (!mayMount()) context.skip('a small disk cannot be mounted here');
  const path = folder.path(name);
  mounted.push(mountSmallDisk(path, megabytes * 1024));
  return path;
}

/** A content folder with two camera files of 12 s. */
async function shop(at: string): Promise<string> {
  await shopWith(at, RECORDING);
  for (const name of ['a.mp4', 'b.mp4']) await execa('cp', [folder.path('a.mp4'), join(at, 'media', name)]);
  return at;
}

const liftside = (content: string, ...words: string[]) =>
  execa(process.execPath, [MAIN, ...words, '--content', content], { reject: false, all: true, env: { NO_COLOR: '1' } });

const names = (path: string): Promise<string[]> => readdir(path).catch((): string[] => []);

/** Refused in words, with exit code 3, and no trace of the program's inside. */
function expectRefused(ended: { readonly all: string; readonly exitCode?: number | undefined }, words: RegExp): void {
  expect(ended.all).toMatch(words);
  expect(ended.all).not.toMatch(/\n\s+at |node:internal|a fault in Liftside/);
  expect(ended.exitCode).toBe(3);
}

/** No result was begun, and nothing bears a final name. */
async function expectUntouched(content: string, target?: string): Promise<void> {
  expect(await names(join(content, '.liftside', 'media'))).toEqual([]);
  await expectNoProgramme(content, target);
}

async function expectNoProgramme(
  content: string,
  target = join(content, '.liftside', 'rendered', 'take'),
): Promise<void> {
  expect(await names(target)).toEqual([]);
  expect(await names(join(content, '.liftside', 'analysis', 'take'))).toEqual([]);
  expect(await names(join(content, '.liftside', 'tmp'))).toEqual([]);
}

test.each(['render', 'analyse'])('a camera file that is missing is told before %s begins', async (command) => {
  const content = await shop(folder.path(`missing-${command}`));
  await rm(join(content, 'media', 'b.mp4'));
  expectRefused(await liftside(content, command, 'take'), /media\/b\.mp4 is not there/);
  await expectUntouched(content);
});

test('a second camera that is missing is told before analyse begins', async () => {
  const content = await shop(folder.path('missing-angle'));
  await shopWith(content, `${RECORDING}angles:\n  - {id: side, file: media/side.mp4}\n`);
  expectRefused(await liftside(content, 'analyse', 'take'), /media\/side\.mp4 is not there/);
  await expectUntouched(content);
});

test('a disk that is too full is told before anything is rendered', async (context) => {
  const content = await shop(await disk('small', 5, context));
  expectRefused(
    await liftside(content, 'render', 'take'),
    /rendering takes up to \d+ MB on the disk of .*small.*, and \d+ MB are free/,
  );
  await expectUntouched(content);
});

test('a target disk that is too full is told before anything is rendered', async (context) => {
  const content = await shop(folder.path('roomy'));
  const target = join(await disk('target', 1, context), 'out');
  expectRefused(await liftside(content, 'render', 'take', '--to', target), /on the disk of .*target.*say --to/s);
  await expectUntouched(content, target);
});

test('a content folder on a read-only disk is told before work begins; check still works', async (context) => {
  const content = await shop(await disk('kept', 20, context));
  await execa('mount', ['-o', 'remount,ro', content]);
  for (const command of ['render', 'analyse'])
    expectRefused(await liftside(content, command, 'take'), /nothing can be written to .*\.liftside.*read-only/s);
  expect((await liftside(content, 'check')).exitCode).toBeLessThan(3);
  expect(await names(content)).not.toContain('.liftside');
});

test('a read-only target is told before anything is rendered', async (context) => {
  const content = await shop(folder.path('to-read-only'));
  const target = await disk('read-only', 1, context);
  await execa('mount', ['-o', 'remount,ro', target]);
  expectRefused(
    await liftside(content, 'render', 'take', '--to', join(target, 'out')),
    /nothing can be written to .*read-only.*: the disk is read-only/s,
  );
  await expectUntouched(content);
});

test('a disk that fills up in the middle ends the work in words; with room again the next run goes on', async (context) => {
  const content = await shop(await disk('filling', 40, context));
  const running = liftside(content, 'render', 'take');
  // Once the first result is there, something else takes all the room.
  while ((await names(join(content, '.liftside', 'media'))).length === 0) await wait(10);
  const hog = await open(join(content, 'hog'), 'w');
  const block = Buffer.alloc(1 << 16);
  for (let full = false; !full; )
    full = await hog.write(block).then(
      ({ bytesWritten }) => bytesWritten === 0,
      () => true,
    );
  await hog.close();
  expectRefused(await running, /disk is full|free some space/);
  await expectNoProgramme(content);
  await rm(join(content, 'hog'));
  const again = await liftside(content, 'render', 'take');
  expect([again.exitCode, await names(join(content, '.liftside', 'tmp'))]).toEqual([0, []]);
  expect(await names(join(content, '.liftside', 'rendered', 'take'))).toContain('manifest.json');
});

// Needs no rights: the shell lets no file grow past a limit, as some disks and quotas do.
test.each(['render', 'analyse'])('a file that may not grow further ends %s in words', async (command) => {
  const content = await shop(folder.path(`limit-${command}`));
  const limited = await execa(
    'sh',
    ['-c', `ulimit -f 100 && exec "$@"`, 'sh', process.execPath, MAIN, command, 'take', '--content', content],
    { reject: false, all: true, env: { NO_COLOR: '1', NODE_DISABLE_COMPILE_CACHE: '1' } },
  );
  expectRefused(limited, /larger|grow|too large/i);
  await expectNoProgramme(content);
});
