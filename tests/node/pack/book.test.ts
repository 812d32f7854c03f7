import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { beforeAll, expect, onTestFinished, test } from 'vitest';
import { packageContents } from '../../../src/core/pack/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { assembleBook } from '../../../src/node/pack/assemble-book.ts';
import { checkPackage, openPackage, type PackEntry, writeZip } from '../../../src/node/pack/index.ts';
import { onPath } from '../../../src/node/programs/on-path.ts';

const content = resolve('content');
const signal = new AbortController().signal;
const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '',
  isArray: (name) => ['item', 'itemref'].includes(name),
});
const textOf = ({ from }: PackEntry) =>
  'bytes' in from ? Buffer.from(from.bytes).toString() : readFileSync(from.file, 'utf8');

let entries: readonly PackEntry[] = [];
const find = (path: string) => {
  const entry = entries.find((one) => one.path === path);
  if (!entry) throw new Error(`no ${path}`);
  return textOf(entry);
};

beforeAll(async () => {
  const loaded = await loadShop(content);
  const contents = packageContents(loaded.shop, loaded.texts.keys(), 'chain');
  if (!contents.ok) throw new Error(contents.problem);
  const options = {
    content,
    home: resolve('.'),
    now: () => new Date(),
    signal,
    footage: 'none',
    env: process.env,
  } as const;
  ({ entries } = await assembleBook(loaded, contents.value, options));
});

test('the container, the package document and every document are as EPUB 3.2 has them', () => {
  // Open Container Format, 4.3: first, and stored; 3.5.2.1.
  expect(entries[0]?.path).toBe('mimetype');
  expect(find('mimetype')).toBe('application/epub+zip');
  expect(find('META-INF/container.xml')).toContain('full-path="book.opf"');
  for (const { path } of entries.filter(({ path }) => /\.(?:xhtml|opf|xml)$/.test(path)))
    expect([path, XMLValidator.validate(find(path))]).toEqual([path, true]);
  const { package: book } = parser.parse(find('book.opf'));
  // Packages, 3.4.3: identifier, title, language, modified.
  expect(book.metadata['dc:identifier']['#text']).toBe('https://millrace.example/lessons/chain/#book');
  expect(book['unique-identifier']).toBe(book.metadata['dc:identifier'].id);
  expect(JSON.stringify(book.metadata)).toMatch(/"dcterms:modified"|T00:00:00Z/);
  // 3.4.5: everything is listed, once, but for the container's own files and the document itself.
  const listed: string[] = book.manifest.item.map(({ href }: { href: string }) => decodeURIComponent(href));
  expect(new Set(listed)).toEqual(
    new Set([
      ...entries.map(({ path }) => path).filter((path) => !/^(?:mimetype|book\.opf|META-INF\/.*)$/.test(path)),
      'files.txt',
    ]),
  );
  expect(listed).toHaveLength(new Set(listed).size);
  const ids = new Set(book.manifest.item.map(({ id }: { id: string }) => id));
  for (const { idref } of book.spine.itemref) expect(ids).toContain(idref);
});

test('chapters, steps, values with their sources, cautions, and a table of contents that leads to each of them', () => {
  const contents = find('book/contents.xhtml');
  const ways = [...contents.matchAll(/href="([^"#]+)(?:#([^"]+))?"/g)];
  // The demo's lesson has five chapters.
  expect(ways.filter(([, file, id]) => /^chain-\d+\.xhtml$/.test(file ?? '') && id === undefined)).toHaveLength(5);
  for (const [, file = '', id] of ways) if (id !== undefined) expect(find(`book/${file}`)).toContain(`id="${id}"`);
  expect(ways.filter(([, , id]) => id !== undefined).length).toBeGreaterThan(12);
  // The demo's own figures (invented).
  const values = find('book/chain-values.xhtml');
  expect(values).toMatch(/Rear axle nut[\s\S]*98 ± 5 N·m[\s\S]*<small>[^<]+<\/small>/);
  expect(find('book/title.xhtml')).toContain('Do not work from these values.');
  expect(find('book/chain.xhtml')).toContain('service manual for the exact model and year decides');
  const all = entries
    .filter(({ path }) => path.endsWith('.xhtml'))
    .map(textOf)
    .join('');
  expect(all).toContain('<p class="word">WARNING</p>');
  // Tools stand beside each other without a comma: each in a frame.
  expect(all).toContain('<strong class="thing">Breaker bar</strong>');
  expect(all).not.toMatch(/href="\/|src="\//);
});

test('a book is a package: its sums are right, its content comes along; other programs find it sound', async () => {
  const cwd = mkdtempSync(join(tmpdir(), 'liftside-book-'));
  onTestFinished(() => rmSync(cwd, { recursive: true }));
  const to = join(cwd, 'chain.epub');
  await writeZip(entries, { to, content: '/nowhere', signal, wrote: () => {} });
  const bytes = readFileSync(to);
  // Open Container Format, 4.3: readable at its place, nothing between name and words.
  expect(bytes.toString('latin1', 30, 58)).toBe('mimetypeapplication/epub+zip');
  expect([bytes.readUInt16LE(6) & 8, bytes.readUInt16LE(8), bytes.readUInt16LE(28)]).toEqual([0, 0, 0]);
  const files = await openPackage(to);
  const state = await checkPackage(files, signal).finally(() => files.close());
  expect(state).toMatchObject({ whole: true, extra: [], manifest: { id: 'chain' } });
  expect(files.sizes.has('source/lessons/chain.mdx')).toBe(true);
});

test('epubcheck finds nothing wrong with it', async ({ skip }) => {
  const [java, epubcheck] = process.env.LIFTSIDE_LONG
    ? await Promise.all([onPath(['java'], process.env), onPath(['epubcheck'], process.env)])
    : [];
  if (java === undefined || epubcheck === undefined)
    return skip('epubcheck (Debian: apt-get install epubcheck) runs with LIFTSIDE_LONG=1, where it is installed');
  const cwd = mkdtempSync(join(tmpdir(), 'liftside-book-'));
  onTestFinished(() => rmSync(cwd, { recursive: true }));
  const loaded = await loadShop(content);
  for (const id of ['chain', 'chain-saturday']) {
    const contents = packageContents(loaded.shop, loaded.texts.keys(), id);
    if (!contents.ok) throw new Error(contents.problem);
    const options = {
      content,
      home: resolve('.'),
      now: () => new Date(),
      signal,
      footage: 'uncut',
      env: process.env,
    } as const;
    const made = await assembleBook(loaded, contents.value, options);
    // Of each step that is on film.
    expect(made.entries.filter(({ path }) => path.startsWith(`book/pictures/steps/chain/`)).length).toBeGreaterThan(8);
    const to = join(cwd, `${id}.epub`);
    await writeZip(made.entries, { to, content: '/nowhere', signal, wrote: () => {} });
    const { stdout, stderr } = await promisify(execFile)(java, ['-jar', epubcheck, '--failonwarnings', to]).catch(
      (error) => error,
    );
    expect(`${stdout}${stderr}`).toContain('No errors or warnings detected');
  }
});
