import { mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';
import { child, inFolder, MAIN } from '../support/run.ts';

// Every command works from any folder, and writes nothing into the one it is called in unless asked.

const before = process.cwd();
let end = () => {};
let cwd = '';
beforeAll(async () => {
  cwd = await new Promise<string>((use) => {
    void inFolder('anywhere', (folder) => {
      use(folder);
      return new Promise<void>((done) => {
        end = done;
      });
    });
  });
});
afterAll(() => {
  process.chdir(before);
  end();
});

test.each([
  ['check', 1],
  ['check --json', 1],
  ['times chain', 0],
  ['fit saturday', 0],
  ['corrections', 0],
  ['timecode 0:01:00 --rate 25', 0],
  ['quantities -', 0],
  ['export saturday --to ics', 0],
  ['export chain --to vtt-chapters', 0],
  ['export tarn-420 --to csv', 0],
  ['new lesson brakes', 0],
] as const)('%s', async (line, code) => {
  const content = shopFolder();
  process.chdir(cwd);
  const ended = await call(line.split(' '), { content, cwd, input: async () => 'Torque it to 98 newton metres.' });
  process.chdir(before);
  expect([ended.code, ended.said]).toEqual([code, expect.not.stringContaining('fault in Liftside')]);
  expect(await readdir(cwd)).toEqual([]);
});

test('build finds its packages and writes only what it is asked to', async () => {
  await inFolder('build', async (folder) => {
    const here = join(folder, 'here');
    await mkdir(here);
    const content = shopFolder({
      files: {},
      without: ['lessons/chain.mdx', 'recordings/chain.yaml', 'classes/saturday.yaml'],
    });
    const built = await child([MAIN, 'build', '--content', content, '--to', '../site'], { cwd: here });
    expect([built.exitCode, built.all]).toEqual([0, expect.stringContaining('into ../site')]);
    expect(await readdir(here)).toEqual([]);
    expect((await readdir(folder)).toSorted()).toEqual(['here', 'site']);
    const names = await readdir(join(folder, 'site'));
    expect(names).toContain('index.html');
    expect(names).not.toContain('.scaffold');
  });
});
