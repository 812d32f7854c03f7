import { copyFile, readdir, readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { SHOOTS } from '../footage/script/index.ts';
import { shotsOf } from '../footage/script/timeline.ts';
import { hashOf } from './compare.ts';
import { ffmpeg, workspace } from './make.ts';
import { shopWith } from './shop.ts';

/** Of the chain recording, s: three slates, three first attempts, five idle stretches, and much hammering. */
const SECONDS = 1500;

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

/** Everything people wrote or brought, by hash; what Liftside keeps for itself is left out. */
async function written(content: string): Promise<string[]> {
  const entries = await readdir(content, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  const own = files.filter((path) => !path.startsWith(join(content, '.liftside'))).toSorted();
  return Promise.all(own.map(async (path) => `${path} ${hashOf(await readFile(path))}`));
}

// Held against the demo's shooting script, which knows what is a slate, a first attempt, an idle stretch.
test('what is proposed for the demo lies where nothing was meant to stay, finds nearly all of it, and changes nothing', async () => {
  const content = await shopWith(
    folder.path('shop'),
    'title: Take\nfiles: [{file: media/a.mp4}]\nrate: "29.97df"\ncaptions: media/a.vtt\n',
  );
  await ffmpeg('-i', 'content/media/chain-1.mp4', '-t', String(SECONDS), '-c', 'copy', join(content, 'media/a.mp4'));
  await copyFile(resolve('content/media/chain.vtt'), join(content, 'media/a.vtt'));
  const before = await written(content);
  const run = (...flags: string[]) =>
    execa(process.execPath, ['src/node/cli/liftside.mjs', 'suggest', 'take', '--content', content, ...flags]);
  const answer = JSON.parse((await run('--json')).stdout) as {
    savesSeconds: number;
    speechBy: string;
    cuts: { kind: string; start: number; end: number; reason: string; savesSeconds: number }[];
  };
  expect(answer.speechBy).toBe('network');
  const chain = SHOOTS.find(({ id }) => id === 'chain')!;
  const shots = shotsOf(chain)
    .map(({ scene, start, end }) => ({ kind: scene.kind, start: start / 10, end: end / 10 }))
    .filter(({ end }) => end <= SECONDS);
  const stays = shots.filter(({ kind }) => kind === 'chapter' || kind === 'step');
  const common = (a: { start: number; end: number }, b: { start: number; end: number }) =>
    Math.max(0, Math.min(a.end, b.end) - Math.max(a.start, b.start));
  // A breath of what stays may go: the script's own cuts are as rough.
  for (const cut of answer.cuts)
    expect([cut, stays.reduce((sum, shot) => sum + common(shot, cut), 0) < 1.5]).toEqual([cut, true]);
  for (const kind of ['slate', 'retake', 'idle'] as const) {
    const meant = shots.filter((shot) => shot.kind === kind);
    const found = meant.filter(
      (shot) => answer.cuts.reduce((sum, cut) => sum + common(shot, cut), 0) > 0.8 * (shot.end - shot.start),
    );
    expect(meant.length).toBeGreaterThanOrEqual(3);
    expect([kind, found.length]).toEqual([kind, meant.length]);
  }
  expect(new Set(answer.cuts.map(({ kind }) => kind))).toEqual(new Set(['slate', 'retake', 'dead-air']));
  // An empty bench and a door without anybody are known for what they are.
  const empty = answer.cuts.filter(({ reason }) => reason.includes('nobody is there'));
  expect(empty.length).toBeGreaterThanOrEqual(3);
  for (const { reason, savesSeconds } of answer.cuts) {
    expect(reason).toMatch(/\w+ \w+/);
    expect(savesSeconds).toBeGreaterThan(1);
  }
  expect(answer.cuts.reduce((sum, cut) => sum + cut.savesSeconds, 0)).toBeCloseTo(answer.savesSeconds, 3);

  // Said again as a table and as an edit list to be taken over by hand: nothing of what people wrote is touched.
  expect((await run()).stdout).toMatch(/together \d+ min of .*; nothing has been changed$/);
  expect((await run('--edit')).stdout).toMatch(/^edit:\n(?: {2}- \{ ?in: "[\d:.]+", out: "[\d:.]+" ?\}\n?)+$/);
  expect(await written(content)).toEqual(before);
});
