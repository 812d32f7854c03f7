import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

test('build --to a folder that is somebody else’s is a wrong call; it is named with what it holds, and keeps it', async () => {
  const content = shopFolder();
  const mine = join(content, '../', `${content.split('/').at(-1)}-photos`);
  mkdirSync(join(mine, 'trip'), { recursive: true });
  writeFileSync(join(mine, 'trip/a.jpg'), 'mine');
  const { code, said } = await call(['build', '--to', mine], { content });
  expect([code, said]).toEqual([
    2,
    `${mine} was not made by Liftside and is not empty: it holds trip\nname a new folder, an empty one, or one that Liftside has made; nothing was changed`,
  ]);
  expect(readFileSync(join(mine, 'trip/a.jpg'), 'utf8')).toBe('mine');
  expect(readdirSync(mine)).toEqual(['trip']);
});

test.each(['.', '..', '/', 'lessons', 'media'])('build --to %s of the content folder is a wrong call', async (to) => {
  const content = shopFolder();
  const before = readdirSync(content, { recursive: true }).filter((name) => !String(name).startsWith('.liftside'));
  const { code, said } = await call(['build', '--to', to], { content, cwd: content });
  expect(code).toBe(2);
  expect(said).toMatch(/what is there would be replaced\n.*nothing was changed$/);
  expect(readdirSync(content, { recursive: true }).filter((name) => !String(name).startsWith('.liftside'))).toEqual(
    before,
  );
});

test('build --footage wants to know of what it has heard', async () => {
  const { code, said } = await call(['build', '--footage', 'all', '--to', 'site'], { content: shopFolder() });
  expect([code, said]).toEqual([
    2,
    '--footage is rendered or uncut, not "all"\nleave it out for finished programmes only',
  ]);
});
