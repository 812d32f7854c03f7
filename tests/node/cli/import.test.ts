import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { runCommandLine } from '../../../src/node/cli/run-command-line.ts';

// The demo shop, copied: what a round trip through another program must not touch.
const DEMO = resolve(import.meta.dirname, '../../../content');
let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-import-'));
  await cp(DEMO, join(folder, 'content'), {
    recursive: true,
    filter: (path) => !/\.(mp4|liftside)$|\.liftside/.test(path),
  });
});
afterEach(() => rm(folder, { recursive: true, force: true }));

async function run(...words: string[]) {
  const written: string[] = [];
  const said: string[] = [];
  const code = await runCommandLine(words, {
    cwd: folder,
    home: folder,
    env: {},
    terminal: false,
    signal: new AbortController().signal,
    now: () => new Date('2026-11-25T08:00:00Z'),
    input: async () => '',
    out: (text) => written.push(text),
    say: (text) => said.push(text),
  });
  return { code, written: written.join('\n'), said: said.join('\n') };
}

const read = (file: string) => readFile(join(folder, 'content', file), 'utf8');

// Without footage a recording has no measured files to cut, so edit lists go out only where the footage is there.
test.each(['mkv-chapters', 'vtt-metadata', 'ffmetadata', 'chapter-list'])(
  '%s out and in again changes nothing',
  async (format) => {
    expect((await run('export', 'chain', '--to', format, '-o', 'out.vtt')).code).toBe(0);
    const { code, said, written } = await run(
      'import',
      'out.vtt',
      '--into',
      'chain',
      '--as',
      format === 'vtt-metadata' ? 'vtt-chapters' : format,
    );
    expect([code, written]).toEqual([0, '']);
    expect(said).toContain('nothing changes');
  },
);

test('a dry run shows what would change and changes nothing; the real one does just that', async () => {
  await writeFile(join(folder, 'more.txt'), '0:09:53 Take the rear wheel out\n1:06:00 Clear up\n');
  const before = await read('lessons/chain.mdx');
  const dry = await run('import', 'more.txt', '--into', 'chain', '--clock', 'recording', '--dry-run');
  expect(dry.code).toBe(0);
  expect(dry.written).toMatch(/^--- lessons\/chain\.mdx\n\+\+\+ lessons\/chain\.mdx\n/);
  expect(dry.written.split('\n').filter((line) => /^[+-](?![+-])/.test(line))).toEqual([
    '+',
    '+## Clear up',
    '+<Cue at="1:06:00" />',
  ]);
  expect(await read('lessons/chain.mdx')).toBe(before);
  const real = await run('import', 'more.txt', '--into', 'chain', '--clock', 'recording');
  expect(real.said).toContain('lesson chain: 1 chapter new, 1 as before');
  expect(await read('lessons/chain.mdx')).toBe(`${before.trimEnd()}\n\n## Clear up\n<Cue at="1:06:00" />\n`);
  expect((await readdir(join(folder, 'content/lessons'))).toSorted()).toEqual(['chain.mdx', 'front-brake.mdx']);
});

test('a transcript in UTF-16 becomes captions in UTF-8', async () => {
  const srt = '1\r\n00:01:40,000 --> 00:01:44,000\r\nGröße: 81 N·m\r\n';
  await writeFile(join(folder, 'words.srt'), Buffer.from(`\uFEFF${srt}`, 'utf16le'));
  const { code, said } = await run('import', 'words.srt', '--into', 'chain');
  expect([code, said.includes('wrote media/chain.vtt')]).toEqual([0, true]);
  expect(await read('media/chain.vtt')).toMatch(/00:01:40\.000 --> 00:01:44\.000\nGröße: 81 N·m\n$/);
});

test.each<[string, string[], number, string]>([
  ['buy milk', ['notes.txt', '--into', 'chain'], 2, 'cannot be told from its text'],
  ['0:00 x', ['notes.txt', '--into', 'chian'], 2, 'no recording or lesson "chian": the nearest is "chain"'],
  ['0:00 x', ['notes.txt'], 2, '--into names a recording, a lesson or a machine'],
  ['0:00 x', ['nothing.txt', '--into', 'chain'], 2, 'there is no file nothing.txt'],
  ['{"OTIO_SCHEMA":"Clip.2"}', ['notes.txt', '--into', 'chain'], 1, 'the file holds no timeline (Clip.2)'],
])('%j with %j is refused in words', async (text, words, code, told) => {
  await writeFile(join(folder, 'notes.txt'), text);
  const ran = await run('import', ...words);
  expect([ran.code, ran.written]).toEqual([code, '']);
  expect(ran.said).toContain(told);
});
