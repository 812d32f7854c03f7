import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

test('--version is the one of package.json', async () => {
  const { version } = JSON.parse(readFileSync(join(import.meta.dirname, '../../../package.json'), 'utf8'));
  expect(await call(['--version'])).toEqual({ code: 0, out: `${version}\n`, said: '' });
});

test.each(['bild', 'bild --help', 'bild --content x'])('a command that is not there is an error: %s', async (line) => {
  const { code, out, said } = await call(line.split(' '));
  expect([code, out, said]).toEqual([2, '', expect.stringMatching(/unknown command 'bild'[\s\S]*build/)]);
});

test('help of all commands and of one is no error', async () => {
  expect(await call(['--help'])).toMatchObject({ code: 0, out: expect.stringContaining('check') });
  expect(await call(['check', '--help'])).toMatchObject({ code: 0, out: expect.stringContaining('--sarif') });
});

test('two documents on one output are refused', async () => {
  const { code, out, said } = await call(['check', '--json', '--sarif'], { content: shopFolder() });
  expect([code, out, said]).toEqual([2, '', expect.stringContaining('say one of them')]);
});
