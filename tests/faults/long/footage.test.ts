import { copyFile, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { loadShop, mendFolder } from '../../../src/node/files/index.ts';
import { findRendered } from '../../../src/node/media/rendered.ts';
import { child, contents, countChanges, figures, HOME, inFolder, MAIN, watching } from '../support/run.ts';
import { film } from '../support/shop.ts';

const RECORDING =
  'title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:01.3", out: "0:00:15.4"}\n  - {in: "0:00:17.1", out: "0:01:16.9"}\n';

async function shop(folder: string): Promise<string> {
  const content = join(folder, 'content');
  await mkdir(join(content, 'recordings'), { recursive: true });
  await writeFile(join(content, 'shop.yaml'), 'name: Test garage\n');
  await writeFile(join(content, 'recordings/take.yaml'), RECORDING);
  await film(join(content, 'media/a.mp4'), 90);
  return content;
}

const render = (content: string, ...more: string[]) => [MAIN, 'render', 'take', '--content', content, ...more];
const rendered = async (content: string) => {
  const [recording] = (await loadShop(content)).shop.recordings;
  if (!recording) throw new Error('the recording could not be read');
  return findRendered(content, recording);
};
const names = (folder: string) => readdir(folder).catch(() => []);

test('a camera file that changes underneath never passes for what was rendered', async () => {
  let [changes, refused, stale] = [0, 0, 0];
  for (const wait of [0, 300, 1000, 2500])
    await inFolder('footage', async (folder) => {
      const content = await shop(folder);
      await film(join(folder, 'other.mp4'), 90, 'maroon');
      const rendering = child(render(content));
      const goesOn = watching(rendering);
      while ((await names(join(content, '.liftside/tmp'))).length === 0 && goesOn()) await pause(10);
      await pause(wait);
      // As a person puts another take in its place.
      await copyFile(join(folder, 'other.mp4'), join(content, 'media/.a'));
      await rename(join(content, 'media/.a'), join(content, 'media/a.mp4'));
      changes++;
      const ended = await rendering;
      expect(ended.all).not.toContain('fault in Liftside');
      if (ended.exitCode !== 0) refused++;
      else if (!(await rendered(content))) stale++;
      // Rendered anew, it is what the file is now.
      expect((await child(render(content))).exitCode).toBe(0);
      expect(await rendered(content)).toBeDefined();
    });
  figures('a camera file changed underneath', { changes, refused, 'told apart afterwards': stale });
});

test('two processes that render or analyse the same recording both end well, with one programme', async () => {
  await inFolder('footage', async (folder) => {
    const content = await shop(folder);
    const both = await Promise.all([child(render(content)), child(render(content))]);
    expect(both.map(({ exitCode, all }) => [exitCode, exitCode === 0 ? '' : all])).toEqual([
      [0, ''],
      [0, ''],
    ]);
    expect(await rendered(content)).toBeDefined();
    const analyse = [MAIN, 'analyse', 'take', '--content', content];
    const looked = await Promise.all([child(analyse), child(analyse)]);
    expect(looked.map(({ exitCode, all }) => [exitCode, exitCode === 0 ? '' : all])).toEqual([
      [0, ''],
      [0, ''],
    ]);
    expect(await names(join(content, '.liftside/rendered'))).toEqual(['take']);
    expect(await names(join(content, '.liftside/tmp'))).toEqual([]);
    figures('two processes rendering and analysing', { 'ended well': 4 });
  });
});

test('render --to a folder of somebody else is refused before any work, and a folder of its own is made over whole', async () => {
  await inFolder('footage', async (folder) => {
    const content = await shop(folder);
    await mkdir(join(folder, 'mine'));
    await writeFile(join(folder, 'mine/programme.mp4'), 'mine');
    const refused = await child(render(content, '--to', join(folder, 'mine')));
    expect([refused.exitCode, refused.all]).toEqual([2, expect.stringContaining('it holds programme.mp4')]);
    const cwd = join(folder, 'empty');
    await mkdir(cwd);
    for (let n = 0; n < 2; n++)
      expect((await child(render(content, '--to', join(folder, 'out')), { cwd })).exitCode).toBe(0);
    expect(await names(join(folder, 'out'))).toContain('manifest.json');
    expect(await names(cwd)).toEqual([]);
    expect((await names(folder)).toSorted()).toEqual(['content', 'empty', 'mine', 'out']);
  });
});

/** Every file of the rendered programme. */
const programmeOf = async (content: string) => contents(join(content, '.liftside/rendered/take'));

test('a render killed while it puts the programme in place leaves the last one whole, or the new one', async () => {
  await inFolder('footage', async (folder) => {
    const content = await shop(folder);
    const file = join(content, 'recordings/take.yaml');
    const cut = async (out: string) => writeFile(file, RECORDING.replace('0:01:16.9', out));
    const programmes: Record<string, Record<string, string>> = {};
    for (const out of ['0:01:10', '0:01:12']) {
      await cut(out);
      expect((await child(render(content))).exitCode).toBe(0);
      programmes[out] = await programmeOf(content);
    }
    const [old, next] = Object.values(programmes);
    expect(old).not.toEqual(next);
    // From here on the pieces are there: what a render changes on disk is the assembling and the putting in place.
    const before = async () => {
      await cut('0:01:10');
      await rm(join(content, '.liftside/rendered'), { recursive: true });
      expect((await child(render(content))).exitCode).toBe(0);
      await cut('0:01:12');
    };
    await before();
    const changes = await countChanges(render(content));
    const ends = { old: 0, new: 0 };
    let kills = 0;
    for (let back = 0; back < 10; back++)
      for (const half of [false, true]) {
        await before();
        const killed = await child(render(content), { killAt: { place: changes - back, half } });
        if (killed.signal !== 'SIGKILL') continue;
        kills++;
        await mendFolder(join(content, '.liftside/rendered/take'));
        const found = await programmeOf(content);
        const end = found['programme.mp4'] === next?.['programme.mp4'] ? 'new' : 'old';
        ends[end]++;
        expect(found).toEqual(end === 'new' ? next : old);
        expect((await child(render(content))).exitCode).toBe(0);
        expect(await programmeOf(content)).toEqual(next);
        expect(
          (await names(join(content, '.liftside/rendered'))).filter((name) => !/^(take|\.take\.lock)/.test(name)),
        ).toEqual([]);
      }
    figures('a render killed as it is put in place', { 'changes of the disk': changes, kills, ...ends, torn: 0 });
    expect(kills).toBeGreaterThanOrEqual(10);
    for (const count of Object.values(ends)) expect(count).toBeGreaterThan(0);
  });
});

test('analyse, suggest, render and papers work from any folder, and write there only what they are asked to', async () => {
  await inFolder('footage', async (folder) => {
    const content = await shop(folder);
    const cwd = join(folder, 'empty');
    await mkdir(cwd);
    for (const words of [
      ['analyse', 'take'],
      ['suggest', 'take'],
      ['render', 'take'],
    ]) {
      const ended = await child([MAIN, ...words, '--content', '../content'], { cwd });
      expect([words[0], ended.exitCode, ended.exitCode === 0 ? '' : ended.all]).toEqual([words[0], 0, '']);
      expect(await names(cwd)).toEqual([]);
    }
    expect(await rendered(content)).toBeDefined();
    const demo = join(HOME, 'content');
    const ended = await child(
      [MAIN, 'export', 'chain-saturday', '--to', 'pdf-kit-list', '--content', demo, '-o', '../kit.pdf'],
      { cwd },
    );
    expect([ended.exitCode, ended.exitCode === 0 ? '' : ended.all]).toEqual([0, '']);
    expect(await names(cwd)).toEqual([]);
    expect((await readFile(join(folder, 'kit.pdf'))).subarray(0, 5).toString()).toBe('%PDF-');
  });
});
