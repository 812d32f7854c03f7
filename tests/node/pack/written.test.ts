import { execFileSync } from 'node:child_process';
import { createHash, hash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { manifestText } from '../../../src/core/pack/index.ts';
import { checkPackage, openPackage, type PackEntry, writeFolder, writeZip } from '../../../src/node/pack/index.ts';
import { onPath } from '../../../src/node/programs/on-path.ts';

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'liftside-written-'));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

const MANIFEST = manifestText({
  ...{ format: 'liftside-package', version: 1, kind: 'lesson', id: 'chain', title: 'Chain', shop: 'Millrace' },
  ...{ language: 'en', invented: true, opens: 'pages/index.html', lessons: ['chain'], films: [] },
});

function entries(film: string): PackEntry[] {
  // No two places are alike, so that a piece in the wrong place is seen.
  writeFileSync(
    film,
    new Uint32Array(750_000).map((_, i) => Math.imul(i + 1, 2_654_435_761)),
  );
  const text = (path: string, words: string) => ({
    path,
    bytes: Buffer.byteLength(words),
    from: { bytes: Buffer.from(words) },
  });
  return [
    text('READ ME FIRST.html', '<p>Open it.</p>'),
    { path: 'film/chain.mp4', bytes: 3_000_000, from: { file: film } },
    text('package.json', MANIFEST),
    text('pages/index.html', '<p>step</p>'.repeat(1000)),
    text('source/media/Schräge Kette.vtt', 'WEBVTT\n'),
    text('source/words.yaml', ''),
  ];
}

function wishes(to: string, aborted = new AbortController()) {
  return { to, content: '/nowhere/content', signal: aborted.signal, wrote: () => {} };
}

async function stateOf(path: string) {
  const files = await openPackage(path);
  try {
    return await checkPackage(files, new AbortController().signal);
  } finally {
    await files.close();
  }
}

test('a zip file has the same bytes in every time zone and whenever it is made; other programs find it whole', async () => {
  const cwd = folder();
  const zone = process.env.TZ;
  onTestFinished(() => {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  });
  const sums = new Set<string>();
  for (const tz of ['UTC', 'Asia/Tokyo', 'America/New_York']) {
    process.env.TZ = tz;
    const to = join(cwd, `${sums.size}.zip`);
    const written = await writeZip(entries(join(cwd, 'film.mp4')), wishes(to));
    expect(written.at(-1)).toMatchObject({ path: 'files.txt' });
    sums.add(hash('sha256', readFileSync(to)));
  }
  expect(sums.size).toBe(1);
  const state = await stateOf(join(cwd, '0.zip'));
  expect(state).toMatchObject({ whole: true, damaged: [], missing: [], extra: [], manifest: { id: 'chain' } });
  // Info-ZIP, where it is installed, as a second reader: it compares every sum.
  if (await onPath(['unzip'], process.env))
    expect(execFileSync('unzip', ['-tq', join(cwd, '0.zip')], { encoding: 'utf8' })).toContain('No errors detected');
});

test.each([false, true])('a film of many pieces is written as it is, pressed: %s', async (pressAll) => {
  const cwd = folder();
  const list = entries(join(cwd, 'film.mp4'));
  const film = createHash('sha256')
    .update(readFileSync(join(cwd, 'film.mp4')))
    .digest('hex');
  const digits = { path: 'pages/digits.txt', bytes: 9, from: { bytes: Buffer.from('123456789') } };
  await writeZip([...list, digits], { ...wishes(join(cwd, 'a.zip')), pressAll });
  const files = await openPackage(join(cwd, 'a.zip'));
  // The check value of CRC-32 (ISO-HDLC) in the catalogue of parametrised CRC algorithms (from memory).
  expect(files.ownSums?.get('pages/digits.txt')).toBe(0xcbf43926);
  const state = await checkPackage(files, new AbortController().signal);
  await files.close();
  expect([state.whole, state.sums.get('film/chain.mp4')]).toEqual([true, film]);
  await writeFolder(list, wishes(join(cwd, 'a')));
  expect((await stateOf(join(cwd, 'a'))).sums.get('film/chain.mp4')).toBe(film);
});

test('folder: what is damaged, missing and added is told by file', async () => {
  const cwd = folder();
  const to = join(cwd, 'chain');
  await writeFolder(entries(join(cwd, 'film.mp4')), wishes(to));
  expect(await stateOf(to)).toMatchObject({ whole: true, extra: [] });
  const film = readFileSync(join(to, 'film/chain.mp4'));
  film[1_500_000] = (film[1_500_000] ?? 0) ^ 1;
  writeFileSync(join(to, 'film/chain.mp4'), film);
  rmSync(join(to, 'source/words.yaml'));
  writeFileSync(join(to, 'pages/more.html'), '');
  writeFileSync(join(to, '.DS_Store'), '');
  expect(await stateOf(to)).toMatchObject({
    ...{ whole: false, damaged: ['film/chain.mp4'], changed: [], missing: ['source/words.yaml'] },
    extra: ['pages/more.html'],
  });
});

test('zip: a byte that was lost is damage, a file that somebody put in is a change, below a folder of its own too', async () => {
  const cwd = folder();
  const whole = join(cwd, 'a.zip');
  const list = entries(join(cwd, 'film.mp4'));
  await writeZip(list, wishes(whole));
  const bytes = readFileSync(whole);
  // The film is stored as it is, so a byte in its middle is a byte of it.
  bytes[1_500_000] = (bytes[1_500_000] ?? 0) ^ 1;
  writeFileSync(join(cwd, 'b.zip'), bytes);
  expect(await stateOf(join(cwd, 'b.zip'))).toMatchObject({ whole: false, damaged: ['film/chain.mp4'], changed: [] });

  const { default: yazl } = await import('yazl');
  const again = new yazl.ZipFile();
  const files = await openPackage(whole);
  for (const { path, from } of list) {
    const own = 'bytes' in from ? Buffer.from(from.bytes) : readFileSync(from.file);
    const put = path === 'pages/index.html' ? Buffer.from('<p>other</p>') : own;
    again.addBuffer(put, `chain/${path}`, { compress: false });
  }
  const sums: Buffer[] = [];
  for await (const piece of await files.read('files.txt')) sums.push(piece);
  await files.close();
  again.addBuffer(Buffer.concat(sums), 'chain/files.txt');
  again.end();
  const pieces: Buffer[] = [];
  for await (const piece of again.outputStream) pieces.push(Buffer.from(piece as Uint8Array));
  writeFileSync(join(cwd, 'c.zip'), Buffer.concat(pieces));
  expect(await stateOf(join(cwd, 'c.zip'))).toMatchObject({
    ...{ whole: false, damaged: [], changed: ['pages/index.html'], missing: [] },
  });
});

test('whole or not at all: a film that grows shorter, or a stop in the middle, leaves what was there', async () => {
  const cwd = folder();
  const film = join(cwd, 'film.mp4');
  const list = entries(film);
  truncateSync(film, 1_000_000);
  await expect(writeZip(list, wishes(join(cwd, 'a.zip')))).rejects.toThrow(/a\.zip could not be written/);
  const stop = new AbortController();
  const stopped = (to: string) => ({ ...wishes(to, stop), wrote: () => stop.abort() });
  await expect(writeZip(entries(film), stopped(join(cwd, 'a.zip')))).rejects.toThrow();
  await expect(writeFolder(entries(film), stopped(join(cwd, 'a')))).rejects.toThrow();
  expect(readdirSync(cwd)).toEqual(['film.mp4']);
});

test('only a package takes the place of a package', async () => {
  const cwd = folder();
  const list = entries(join(cwd, 'film.mp4'));
  const to = join(cwd, 'a.zip');
  writeFileSync(to, 'my diary');
  await expect(writeZip(list, wishes(to))).rejects.toThrow('is no package that Liftside has made');
  expect(readFileSync(to, 'utf8')).toBe('my diary');
  rmSync(to);
  await writeZip(list, wishes(to));
  await writeZip(list.slice(0, 4), wishes(to));
  expect((await stateOf(to)).sums.size).toBe(4);
  mkdirSync(join(cwd, 'mine'));
  writeFileSync(join(cwd, 'mine/diary.txt'), '');
  await expect(writeFolder(list, wishes(join(cwd, 'mine')))).rejects.toThrow('was not made by Liftside');
  expect(existsSync(join(cwd, 'mine/diary.txt'))).toBe(true);
});
