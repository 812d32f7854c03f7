import { copyFile, cp, link, mkdtemp, readdir, readFile, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { TICKS_PER_SECOND } from '../../../src/core/time/index.ts';
import { runCommandLine } from '../../../src/node/cli/run-command-line.ts';
import { loadShop } from '../../../src/node/files/index.ts';

// The demo shop, copied: what a round trip through another program must not touch.
const DEMO = resolve(import.meta.dirname, '../../../content');
let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-import-'));
  await cp(DEMO, join(folder, 'content'), {
    recursive: true,
    filter: (path) => !/\.(mp4|liftside)$|\.liftside/.test(path),
  });
  const media = await readdir(join(DEMO, 'media'));
  for (const name of media.filter((one) => one.endsWith('.mp4')))
    await link(join(DEMO, 'media', name), join(folder, 'content/media', name)).catch(() =>
      copyFile(join(DEMO, 'media', name), join(folder, 'content/media', name)),
    );
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

const ROUND_TRIPS = [
  ['edl', 'edl'],
  ['otio', 'otio'],
  ['vtt', 'vtt'],
  ['srt', 'srt'],
  ['vtt-chapters', 'vtt'],
  ['vtt-metadata', 'vtt'],
  ['mkv-chapters', 'xml'],
  ['ffmetadata', 'txt'],
  ['chapter-list', 'txt'],
  ['paper-edit', 'txt'],
] as const;

// Every kind of file is told from its text alone, and so is the clock of the captions.
describe.each(['chain', 'front-brake'])('%s of the demo', (id) => {
  test.each(ROUND_TRIPS)('%s out and in again changes nothing', async (format, extension) => {
    expect((await run('export', id, '--to', format, '-o', `out.${extension}`)).code).toBe(0);
    const { code, said, written } = await run('import', `out.${extension}`, '--into', id);
    expect([code, written]).toEqual([0, '']);
    expect(said).toContain('nothing changes');
  });

  // Most of the demo's points lie between frames: in points go down and out points up, each by less than one.
  test.each(['edl', 'otio'])('the edit list comes whole out of %s where the recording has none', async (format) => {
    const recording = async () =>
      (await loadShop(join(folder, 'content'))).shop.recordings.find((one) => one.id === id);
    const before = await recording();
    await run('export', id, '--to', format, '-o', `out.${format}`);
    const file = `recordings/${id}.yaml`;
    const bare = (await read(file)).replace(/^edit:\n(?: {2}.*\n)+/m, '');
    await writeFile(join(folder, 'content', file), bare);
    expect((await recording())?.edited).toBe(false);
    expect((await run('import', `out.${format}`, '--into', id)).code).toBe(0);
    const after = await recording();
    expect(after?.edit.length).toBe(before?.edit.length);
    for (const [i, kept] of (before?.edit ?? []).entries()) {
      const frame = before?.rate?.ticksPerFrame ?? 0;
      const again = after?.edit[i];
      const moved = [kept.start - (again?.start ?? 0), (again?.end ?? 0) - kept.end];
      for (const by of moved) {
        // To within the millisecond that clock times are written in.
        expect(by).toBeGreaterThanOrEqual(-TICKS_PER_SECOND / 1000);
        expect(by).toBeLessThan(frame);
      }
    }
  });

  test('captions of the programme leave those in cuts alone, and a changed word is the whole difference', async () => {
    await run('export', id, '--to', 'vtt', '-o', 'out.vtt');
    const vtt = await readFile(join(folder, 'out.vtt'), 'utf8');
    const words = /\n([A-Z][^\n]*)\n\n/.exec(vtt)?.[1] ?? '';
    await writeFile(join(folder, 'out.vtt'), vtt.replace(words, 'Changed on the way.'));
    const { code, written, said } = await run('import', 'out.vtt', '--into', id, '--dry-run');
    expect(code).toBe(0);
    expect(said).toContain('captions: 1 new or changed');
    expect(written.split('\n').filter((line) => /^[+-](?![+-])/.test(line))).toEqual([
      `-${words}`,
      '+Changed on the way.',
    ]);
  });
});

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
  expect((await readdir(join(folder, 'content/lessons'))).toSorted()).toEqual([
    'chain.mdx',
    'front-brake.es.mdx',
    'front-brake.mdx',
  ]);
});

// The files are holes of a size: nothing could be read out of them but zeros.
test('100 MB are refused by their size, before they are opened, in words', async () => {
  await writeFile(join(folder, 'big.vtt'), '');
  await truncate(join(folder, 'big.vtt'), 100_000_000);
  const { code, said } = await run('import', 'big.vtt', '--into', 'chain');
  expect([code, said]).toEqual([
    2,
    'big.vtt has 100 MB, more than the 64 MB that are read\ntake the edit list, chapters or transcript of one recording; footage goes under files: of a recording',
  ]);
  expect((await run('import', 'none.vtt', '--into', 'chain')).said).toContain('there is no file none.vtt');
  await truncate(join(folder, 'content/media/chain.vtt'), 100_000_000);
  const checked = await run('check');
  expect(checked.code).toBe(1);
  expect(checked.written).toContain('it has 100 MB, more than the 16 MB that are read');
});

test('a difference of tens of thousands of lines is summed up, not looked for line by line', async () => {
  const vtt = (words: string) =>
    `WEBVTT\n\n${Array.from({ length: 20_000 }, (_, i) => `0${Math.floor(i / 3600)}:${String(Math.floor(i / 60) % 60).padStart(2, '0')}:${String(i % 60).padStart(2, '0')}.000 --> 09:00:00.000\n${words} ${i}\n`).join('\n')}`;
  await writeFile(join(folder, 'content/media/chain.vtt'), vtt('before'));
  await writeFile(join(folder, 'words.vtt'), vtt('after'));
  const { code, written } = await run('import', 'words.vtt', '--into', 'chain', '--dry-run');
  expect(code).toBe(0);
  expect(written).toContain('60001 lines become 60001: too much differs to be shown line by line');
});

test('a paper edit marked by hand: the difference first, then the file, with its comments', async () => {
  await run('export', 'front-brake', '--to', 'paper-edit', '-o', 'paper.txt');
  const paper = await readFile(join(folder, 'paper.txt'), 'utf8');
  const line = '02:02:14:08  Bars straight, so that the reservoir stands level.';
  expect(paper).toContain(`${line}\n`);
  await writeFile(
    join(folder, 'paper.txt'),
    paper.replace(line, `step: Level the bars\n[cut] ${line}`).replace('Gloves. Glasses.', 'Gloves. [-Glasses.'),
  );
  const file = 'recordings/front-brake.yaml';
  const before = await read(file);
  const dry = await run('import', 'paper.txt', '--into', 'front-brake', '--dry-run');
  expect([dry.code, await read(file)]).toEqual([0, before]);
  // From the frame of the first word to that of the next line, as the paper labels them.
  expect(dry.written).toContain('out: "02:02:14:08" }');
  expect(dry.written).toContain('in: "02:02:20:11", out: "0:05:09.7" }');
  expect(dry.said).toContain('1 step new');
  expect(dry.said).toMatch(/line \d+: "\[-" before "Glasses. They stay on" has no "-\]"/);
  const { code, said } = await run('import', 'paper.txt', '--into', 'front-brake');
  expect([code, said.includes(`wrote ${file}`)]).toEqual([0, true]);
  const after = await read(file);
  const comments = (text: string) => text.match(/#.*/g) ?? [];
  expect(comments(after)).toEqual(comments(before));
  expect(await read('lessons/front-brake.mdx')).toContain('### Level the bars\n');
  const again = await run('import', 'paper.txt', '--into', 'front-brake');
  expect(again.said).toContain('nothing changes');
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
  ['0:00 x', ['notes.txt'], 2, '--into names a recording, a lesson, a machine or a class'],
  ['0:00 x', ['nothing.txt', '--into', 'chain'], 2, 'there is no file nothing.txt'],
  ['{"OTIO_SCHEMA":"Clip.2"}', ['notes.txt', '--into', 'chain'], 1, 'the file holds no timeline (Clip.2)'],
])('%j with %j is refused in words', async (text, words, code, told) => {
  await writeFile(join(folder, 'notes.txt'), text);
  const ran = await run('import', ...words);
  expect([ran.code, ran.written]).toEqual([code, '']);
  expect(ran.said).toContain(told);
});
