import { copyFile, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hashOf } from './compare.ts';
import { dice, ffmpeg, testPicture, workspace } from './make.ts';
import { shopWith } from './shop.ts';

/** `LIFTSIDE_KILLS=30` for the long run; a few are enough for every day. */
const KILLS = Number(process.env.LIFTSIDE_KILLS ?? 6);
const MAIN = 'src/node/cli/main.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

async function shop(name: string): Promise<string> {
  return shopWith(
    folder.path(name),
    'title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:01.3", out: "0:00:05.4"}\n  - {in: "0:00:07.1", out: "0:00:16.9"}\n',
  );
}

const run = (content: string, command: string) =>
  execa(process.execPath, [MAIN, command, 'take', '--content', content], { reject: false });

/** Every file under a folder, by its path, with its content. */
async function contents(at: string): Promise<Record<string, string>> {
  const names = await readdir(at, { recursive: true, withFileTypes: true });
  const files = names.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  const entries = files.map(async (path) => [path.slice(at.length), hashOf(await readFile(path))] as const);
  return Object.fromEntries(await Promise.all(entries));
}

test(`killed ${KILLS} times at any moment, render and analyse end as if undisturbed, with nothing left over`, async () => {
  const [calm, rough] = [await shop('calm'), await shop('rough')];
  const noise = ['-f', 'lavfi', '-i', 'anoisesrc=c=pink:r=48000:a=0.3:d=18'];
  const footage = folder.path('a.mp4');
  await ffmpeg(
    ...testPicture('320x180', '25', 18),
    ...noise,
    '-preset',
    'ultrafast',
    '-g',
    '50',
    '-c:a',
    'aac',
    footage,
  );
  for (const content of [calm, rough]) await copyFile(footage, `${content}/media/a.mp4`);
  const began = Date.now();
  for (const command of ['analyse', 'render']) expect((await run(calm, command)).exitCode).toBe(0);
  const length = (Date.now() - began) / 2;

  const next = dice(11);
  let killed = 0;
  for (let i = 0; i < KILLS; i++) {
    const running = run(rough, next() < 0.3 ? 'analyse' : 'render');
    const timer = setTimeout(() => running.kill('SIGKILL'), 150 + next() * length);
    if ((await running).signal === 'SIGKILL') killed++;
    clearTimeout(timer);
    const final: readonly string[] = await readdir(join(rough, '.liftside', 'rendered', 'take')).catch(
      (): string[] => [],
    );
    // What bears its final name is whole: with a manifest, the programme is the undisturbed one.
    if (final.includes('manifest.json'))
      expect(hashOf(await readFile(join(rough, '.liftside/rendered/take/programme.mp4')))).toBe(
        hashOf(await readFile(join(calm, '.liftside/rendered/take/programme.mp4'))),
      );
  }
  expect(killed).toBeGreaterThan(0);
  for (const command of ['analyse', 'render']) expect((await run(rough, command)).exitCode).toBe(0);
  for (const part of ['rendered', 'analysis', 'media'])
    expect(await contents(join(rough, '.liftside', part))).toEqual(await contents(join(calm, '.liftside', part)));
  expect(await readdir(join(rough, '.liftside', 'tmp'))).toEqual([]);
}, 900_000);
