import { copyFile, readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hashOf } from './compare.ts';
import { dice, smallFootage, workspace } from './make.ts';
import { shopWith } from './shop.ts';

const KILLS = 30;
const MAIN = 'src/node/cli/liftside.mjs';

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

const COMMANDS = ['analyse', 'render'] as const;
type Command = (typeof COMMANDS)[number];

const run = (content: string, command: Command) =>
  execa(process.execPath, [MAIN, command, 'take', '--content', content], { reject: false });

/** Every file under a folder, by its path, with its content. */
async function contents(at: string): Promise<Record<string, string>> {
  const names = await readdir(at, { recursive: true, withFileTypes: true }).catch(() => []);
  // What lies beside under a name of its own is not there yet.
  const files = names
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => !/\/\.[^/]+\.(next|last)-|\.lock/.test(path));
  const entries = files.map(async (path) => [path.slice(at.length), hashOf(await readFile(path))] as const);
  return Object.fromEntries(await Promise.all(entries));
}

/** What bears its final name is what an undisturbed run makes: each result, and the programme once it has its manifest. */
async function expectWholeOrNothing(rough: string, calm: string): Promise<void> {
  for (const part of ['media', 'analysis']) {
    const [is, wanted] = await Promise.all([rough, calm].map((at) => contents(join(at, '.liftside', part))));
    expect(wanted).toMatchObject(is!);
  }
  const rendered = await contents(join(rough, '.liftside', 'rendered'));
  if (rendered['/take/manifest.json'] !== undefined)
    expect(rendered).toEqual(await contents(join(calm, '.liftside', 'rendered')));
}

test(`killed ${KILLS} times at any moment, render and analyse end as if undisturbed, with nothing left over`, async () => {
  const [calm, rough] = [await shop('calm'), await shop('rough')];
  const footage = folder.path('a.mp4');
  await smallFootage(footage, 18);
  for (const content of [calm, rough]) await copyFile(footage, `${content}/media/a.mp4`);
  const lengths = new Map<Command, number>();
  for (const command of COMMANDS) {
    const began = Date.now();
    expect((await run(calm, command)).exitCode).toBe(0);
    lengths.set(command, Date.now() - began);
  }

  const next = dice(11);
  const killed = { analyse: 0, render: 0 };
  while (killed.analyse + killed.render < KILLS) {
    const command = killed.analyse <= killed.render ? 'analyse' : 'render';
    const running = run(rough, command);
    const timer = setTimeout(() => running.kill('SIGKILL'), 100 + next() * lengths.get(command)!);
    const ended = await running;
    clearTimeout(timer);
    if (ended.signal === 'SIGKILL') killed[command]++;
    else expect(ended.exitCode).toBe(0);
    await expectWholeOrNothing(rough, calm);
    // Where it came through, there is nothing left to do: the next one begins anew.
    if (ended.exitCode === 0) await rm(join(rough, '.liftside'), { recursive: true });
  }
  expect(killed).toEqual({ analyse: KILLS / 2, render: KILLS / 2 });
  for (const command of COMMANDS) expect((await run(rough, command)).exitCode).toBe(0);
  for (const part of ['rendered', 'analysis', 'media'])
    expect(await contents(join(rough, '.liftside', part))).toEqual(await contents(join(calm, '.liftside', part)));
  expect(await readdir(join(rough, '.liftside', 'tmp'))).toEqual([]);
}, 3_600_000);
