import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { FORMATS } from '../../../src/core/interchange/index.ts';
import { type Context, Flags } from '../../../src/node/cli/command.ts';
import exportTo from '../../../src/node/cli/export.ts';
import { SHELL_EXPORTERS } from '../../../src/node/cli/exporters.ts';
import { smallShop } from '../../support/shop.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-export-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

async function run(
  id: string,
  options: Readonly<Record<string, string>>,
  files: Readonly<Record<string, string>> = {},
) {
  const { shop } = smallShop(files);
  const written: string[] = [];
  const said: string[] = [];
  const context: Context = {
    content: folder,
    cwd: folder,
    home: folder,
    env: {},
    terminal: false,
    signal: new AbortController().signal,
    now: () => new Date('2026-11-25T08:00:00Z'),
    commands: async () => [],
    load: async () => ({ content: folder, shop, diagnostics: [], texts: new Map(), notes: [], sums: new Map() }),
    input: async () => '',
    out: (text) => written.push(text),
    say: (text) => said.push(text),
  };
  const code = await exportTo.run([id], new Flags(new Map(Object.entries(options))), context);
  return { code, written: written.join('\n'), said: said.join('\n') };
}

test('a text goes to standard output, what it could not carry to standard error', async () => {
  const { code, written, said } = await run('chain', { to: 'edl' });
  expect(code).toBe(0);
  expect(written).toMatch(/^TITLE: Chain, uncut\n/);
  expect(said).toContain('moved to whole frames');
});

test('with -o it goes into a file', async () => {
  const { code, written, said } = await run('saturday', { to: 'ics', output: 'saturday.ics' });
  expect([code, written, said.includes('wrote saturday.ics')]).toEqual([0, '', true]);
  expect(await readFile(join(folder, 'saturday.ics'), 'utf8')).toContain('BEGIN:VEVENT');
});

test.each([
  ['chian', { to: 'vtt' }, 2, 'no recording "chian": the nearest is "chain"'],
  ['chain', { to: 'ics' }, 2, 'no class "chain"'],
  ['chain', {}, 2, '--to names a format:'],
  ['sunday', { to: 'ics' }, 2, 'no class "sunday"'],
] as const)('%s %j ends with %d and says %s', async (id, options, code, words) => {
  const ran = await run(id, options);
  expect([ran.code, ran.written]).toEqual([code, '']);
  expect(ran.said).toContain(words);
});

test('a recording without captions has none to export, and that is a fault of the content', async () => {
  const { code, said } = await run('chain', { to: 'vtt' }, { 'media/chain.vtt': 'WEBVTT\n' });
  expect([code, said]).toEqual([
    1,
    'chain has no captions\nname a WebVTT or SRT file under captions:, or import a transcript',
  ]);
});

test('a file that cannot be written is no fault of the content', async () => {
  await expect(run('chain', { to: 'vtt', output: 'nowhere/a.vtt' })).rejects.toMatchObject({
    message: expect.stringMatching(/nowhere\/a\.vtt could not be written: its folder is not there$/),
    help: expect.stringContaining('name a file in a folder that is there'),
  });
});

test('no two formats share a name', () => {
  const ids = [...FORMATS, ...SHELL_EXPORTERS].map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
});
