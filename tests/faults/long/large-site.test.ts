import { execFile } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { XMLParser } from 'fast-xml-parser';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { inLanguage } from '../../../src/core/pages/index.ts';
import { searchData } from '../../../src/core/search/index.ts';
import { filesBelow, loadShop } from '../../../src/node/files/index.ts';
import { readLocale } from '../../../src/node/site/locales.ts';
import { writeLargeLibrary } from '../../support/large-library.ts';

/** What a phone bears, bytes of HTML. */
const MOST = 150_000;
const BASE = '/garage/';

const scratch = mkdtempSync(join(tmpdir(), 'liftside-large-'));
const content = join(scratch, 'content');
const out = join(scratch, 'site');
let files: ReadonlySet<string>;
let steps = 0;
const read = (file: string) => readFileSync(join(out, file), 'utf8');

beforeAll(async () => {
  mkdirSync(content);
  steps = await writeLargeLibrary(content, 96, 2, 'en, es');
  // In a process of its own: the runner of tests puts a base path, and that it develops, into its environment.
  const { PATH, HOME } = process.env;
  const call = ['src/node/cli/liftside.mjs', 'build', '--content', content, '--to', out, '--base', BASE];
  await promisify(execFile)(process.execPath, call, { env: { PATH, HOME } });
  files = new Set(filesBelow(out));
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** Files of the site that a page leads to, and the places on them. */
function linksOf(file: string): { file: string; place: string }[] {
  return [...read(file).matchAll(/<a [^>]*?href="([^"]+)"/g)].flatMap(([, href = '']) => {
    const here = new URL(file, `https://x${BASE}`);
    const { host, pathname, hash } = new URL(href.replaceAll('&#38;', '&'), here);
    if (host !== 'x' || !pathname.startsWith(BASE)) return [];
    const path = decodeURI(pathname.slice(BASE.length));
    const place = decodeURIComponent(hash.slice(1));
    return [{ file: path === '' || path.endsWith('/') ? `${path}index.html` : path, place }];
  });
}

const recordsOf = (html: string) => [...html.matchAll(/<li data-record="([^"]+)"/g)].map(([, record = '']) => record);

/** Of each language what stands before its pages. */
const LANGUAGES = ['', 'es/'];

test('no page weighs more than a phone bears', () => {
  const heavy = [...files]
    // That of a lesson is as long as the lesson.
    .filter((file) => file.endsWith('.html') && !/(?:^|\/)lessons\/(?!of\/)/.test(file))
    .map((file) => ({ file, bytes: Buffer.byteLength(read(file)) }))
    .filter(({ bytes }) => bytes > MOST);
  expect(heavy).toEqual([]);
  for (const prefix of LANGUAGES) {
    const parts = [...files].filter((file) => new RegExp(`^${prefix}steps/tarn-42\\d-\\d+/index\\.html$`).test(file));
    expect(parts.length).toBeGreaterThan(10);
    // Neither so light that there are more of them than it takes.
    const bytes = parts.map((file) => Buffer.byteLength(read(file)));
    expect(Math.max(...bytes)).toBeGreaterThan(0.6 * MOST);
  }
});

test('every step is reached by links alone, on the third page at most', () => {
  for (const prefix of LANGUAGES) {
    const home = `${prefix}index.html`;
    const second = linksOf(home).map(({ file }) => file);
    const third = new Set(
      second
        .filter((file) => file === `${prefix}steps/index.html`)
        .flatMap((file) => linksOf(file))
        .map(({ file }) => file),
    );
    const reached = [...third].flatMap((file) => recordsOf(read(file)));
    expect(reached.length).toBe(steps);
    expect(new Set(reached).size).toBe(steps);
    const lessons = new Set(second.flatMap((file) => linksOf(file)).map(({ file }) => file));
    expect([...lessons].filter((file) => file.startsWith(`${prefix}lessons/`) && !file.includes('/of/')).length).toBe(
      96,
    );
  }
});

test('every link of the lists leads to a page, and to a place that is on it', () => {
  const lists = [...files].filter((file) => /^(?:es\/)?(?:steps\/(?!rows)|lessons\/of\/|index)/.test(file));
  const ids = new Map<string, Set<string>>();
  const placesOn = (file: string) => {
    const known = ids.get(file) ?? new Set([...read(file).matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id));
    ids.set(file, known);
    return known;
  };
  const broken = lists.flatMap((list) =>
    linksOf(list)
      .filter(({ file, place }) => !files.has(file) || (place !== '' && !placesOn(file).has(place)))
      .map((link) => ({ list, ...link })),
  );
  expect(broken).toEqual([]);
});

test('a search has a row for each record, the same as on its page', async () => {
  const { shop } = await loadShop(content);
  const locales = { '': 'en', 'es/': 'es' };
  for (const [prefix, tag] of Object.entries(locales)) {
    const { records } = searchData(inLanguage(shop, await readLocale(tag)));
    const { block } = JSON.parse(read(`${prefix}search.json`));
    const blocks = Array.from({ length: Math.ceil(records.length / block) }, (_, i) =>
      read(`${prefix}steps/rows/${i}/index.html`),
    );
    expect(files.has(`${prefix}steps/rows/${blocks.length}/index.html`)).toBe(false);
    expect(blocks.flatMap(recordsOf)).toEqual(records.map(({ id }) => id));
    const texts = blocks.flatMap((html) =>
      JSON.parse(/<script type="application\/json">(.*?)<\/script>/s.exec(html)?.[1] ?? ''),
    );
    expect(texts).toEqual(records.map(({ text }) => text));
    const rowsOf = (html: string) => html.match(/<li data-record=.*?<\/li>/gs) ?? [];
    const known = new Set(blocks.flatMap(rowsOf));
    const [part = ''] = [...files].filter((file) => file.startsWith(`${prefix}steps/tarn-421-`));
    const own = rowsOf(read(part));
    expect(own.length).toBeGreaterThan(20);
    expect(own.filter((row) => !known.has(row))).toEqual([]);
  }
});

test('the site map names the pages of lists, each says its own address, and each language leads to the others', () => {
  const { urlset } = new XMLParser({ isArray: (name) => name === 'url' }).parse(read('sitemap.xml'));
  const named = new Set(urlset.url.map(({ loc }: { loc: string }) => loc));
  const parts = [...files].filter((file) => /^(?:es\/)?(?:steps\/tarn|lessons\/of\/)/.test(file));
  expect(parts.length).toBeGreaterThan(20);
  for (const file of parts) {
    const path = file.replace(/index\.html$/, '');
    const own = `https://millrace.example${BASE}${path}`;
    expect(named.has(own), own).toBe(true);
    const html = read(file);
    expect(html).toContain(`<link rel="canonical" href="${own}"`);
    const other = path.startsWith('es/') ? path.slice(3) : `es/${path}`;
    expect(html).toContain(`href="https://millrace.example${BASE}${other}"`);
  }
});
