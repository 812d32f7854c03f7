import { cp, mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from '@playwright/test';
import { call } from '../support/call.ts';
import { playing } from '../support/lesson-page.ts';
import { CONTENT } from '../support/serve-demo.ts';

test('a class packed, opened, unpacked into an empty shop and packed again is the same package @long', async ({
  page,
}) => {
  const cwd = await mkdtemp(join(tmpdir(), 'liftside-trip-'));
  const run = async (...words: string[]) => {
    const { code, said, out } = await call(words, { cwd, env: process.env, now: () => new Date() });
    expect([words[0], code, code === 0 ? '' : said]).toEqual([words[0], 0, '']);
    return { said, out };
  };
  try {
    await cp(CONTENT, join(cwd, 'content'), { recursive: true, filter: (path) => !path.includes('.liftside') });
    const pack = (content: string, to: string, ...more: string[]) =>
      run('pack', 'chain-saturday', '--footage', 'uncut', '--content', join(cwd, content), '-o', to, ...more);
    const { out } = await pack('content', 'a.zip', '--to', 'zip', '--json');
    const { files, bytes, format } = JSON.parse(out);
    expect([format, bytes]).toEqual(['zip', (await readFile(join(cwd, 'a.zip'))).length]);
    const paths = files.map((file: { path: string }) => file.path);
    for (const path of [
      'READ ME FIRST.html',
      'papers/chain-saturday.handout.pdf',
      'source/classes/chain-saturday.yaml',
      'licences/video.js.txt',
      'pages/footage/stills/chain/tighten-the-axle-nut.jpg',
    ])
      expect(paths).toContain(path);
    await run('check-pack', 'a.zip');
    await run('unpack', 'a.zip', '--content', join(cwd, 'other'));
    await run('check', '--content', join(cwd, 'other'));
    await pack('other', 'b.zip', '--to', 'zip');
    expect((await readFile(join(cwd, 'b.zip'))).equals(await readFile(join(cwd, 'a.zip')))).toBe(true);

    await pack('other', 'folder');
    await run('check-pack', 'folder');
    await page.goto(pathToFileURL(join(cwd, 'folder', 'READ ME FIRST.html')).href);
    await page.getByRole('link', { name: 'Open the class' }).click();
    await expect(page.locator('h1')).toContainText('Chain and sprockets');
    await page.goBack();
    await page.getByRole('link', { name: 'Replace the chain and sprockets' }).first().click();
    const still = page.locator('.curtain-still');
    expect(await still.evaluate((img: HTMLImageElement) => img.decode().then(() => img.naturalWidth))).toBeGreaterThan(
      400,
    );
    await page.locator('.start').click();
    await playing(page, true);
  } finally {
    await rm(cwd, { recursive: true });
  }
});
