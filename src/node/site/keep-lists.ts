import { hash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { KEPT_PAGE, type KeepList, type KeptFile, keepListPath, keptWords, type Piece } from '../../core/keep/index.ts';
import { encodePath, type Lesson, type Shop } from '../../core/model/index.ts';
import { languagesOf } from '../../core/pages/index.ts';
import { filesBelow } from '../files/index.ts';
import { FilmSums } from './film-sums.ts';
import { FOOTAGE, OPENINGS } from './footage-paths.ts';
import type { KeptPages } from './kept-pages.ts';

/** Media types (RFC 9110, 8.3) of what a site holds; a copy answers with them. */
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.vtt': 'text/vtt; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.xml': 'application/xml; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.jpeg': 'image/jpeg',
  '.webp': 'image/webp',
  '.avif': 'image/avif',
  '.woff2': 'font/woff2',
  '.mp4': 'video/mp4',
  '.m4v': 'video/mp4',
  '.mov': 'video/quicktime',
  '.webm': 'video/webm',
};

/** What every page of the site may need, by path in it. */
const SHARED = /^(?:_astro\/.*|mark\.svg)$/;
/** Pages that a lesson is read with, besides its own and its machine's. */
const BESIDE = [KEPT_PAGE, 'corrections/', 'measure/', 'record/'];

export interface KeepListOptions {
  /** Absolute path of the built site. */
  readonly site: string;
  /** Path that it is served under. */
  readonly base: string;
  readonly shop: Shop;
  /** Day of the build, YYYY-MM-DD. */
  readonly made: string;
  /** Absolute path of the content folder, where sums of films are kept; left out, each film is read. */
  readonly content?: string;
  /** Knows of pages that were taken over what they name, and their sums; left out, each is read. */
  readonly kept?: KeptPages;
}

/**
 * For each lesson of a built site a list of what it takes to open it without a network, each piece with its sum, and
 * what it says.
 */
export async function writeKeepLists(options: KeepListOptions): Promise<void> {
  const { site, base, shop, made, content, kept } = options;
  const sums = await FilmSums.open(site, content);
  const files = filesBelow(site).toSorted();
  const there = new Set(files);
  const prefixes = [
    '',
    ...languagesOf(shop.info)
      .slice(1)
      .map((tag) => `${tag}/`),
  ];
  const shared = files.filter((file) => SHARED.test(file));
  const summed = new Map<string, KeptFile>();
  const sum = async (file: string) => {
    const known = summed.get(file) ?? keptFile(file, kept?.pieces(file) ?? (await sums.piecesOf(file)));
    summed.set(file, known);
    return known;
  };
  const named = new Map<string, ReadonlySet<string>>();
  const namedBy = (page: string) => {
    const known = named.get(page) ?? kept?.namedBy(page) ?? pathsNamed(readFileSync(join(site, page)), base);
    named.set(page, known);
    kept?.noteNamed(page, known);
    return known;
  };
  for (const lesson of shop.lessons.filter(({ draft }) => !draft)) {
    const pages = [`lessons/${lesson.id}/`, ...(lesson.machine ? [`specs/${lesson.machine}/`] : []), ...BESIDE]
      .flatMap((page) => prefixes.map((prefix) => `${prefix}${page}index.html`))
      .filter((page) => there.has(page));
    // Whatever file of the site a page names, by attribute or in its data, it may ask for. A kept film needs no openings,
    // and feeds, which say when they were made, are for readers of news: with them each build would be another edition.
    const paths = new Set(pages.flatMap((page) => [...namedBy(page)]));
    const asked = [...paths]
      .filter((path) => there.has(path) && !/\.(?:html|xml)$/.test(path) && !path.startsWith(`${FOOTAGE}/${OPENINGS}`))
      .toSorted();
    const wanted = [...new Set([...pages, ...shared, ...asked])].filter((file) => file !== keepListPath(lesson.id));
    const summedUp: KeptFile[] = [];
    for (const file of wanted) summedUp.push(await sum(file));
    const text = listText(shop, lesson, made, summedUp);
    const to = join(site, keepListPath(lesson.id));
    if (kept) kept.place(keepListPath(lesson.id), text, to);
    else writeFileSync(to, text);
  }
  await sums.close();
}

/** Paths on the site that a page names, by attribute or in its data. */
function pathsNamed(page: Uint8Array, given: string): ReadonlySet<string> {
  // A letter for each byte: what lies between two addresses need not be read as text, which takes ten times as long.
  const html = Buffer.from(page.buffer, page.byteOffset, page.length).toString('latin1');
  const base = Buffer.from(given).toString('latin1');
  const text = html.replaceAll(/&(?:amp|#38);/g, '&');
  const paths = new Set<string>();
  for (let at = text.indexOf(base); at !== -1; at = text.indexOf(base, at + base.length)) {
    if (at > 0 && !BEFORE_ADDRESS.test(text.charAt(at - 1))) continue;
    ADDRESS.lastIndex = at + base.length;
    const [whole = ''] = ADDRESS.exec(text) ?? [];
    // In a list, or as an argument, it ends before one of these, which a name may hold too.
    for (const address of new Set([whole, whole.split(/[,')]/)[0] ?? '']))
      try {
        paths.add(decodeURIComponent(Buffer.from(address, 'latin1').toString()));
      } catch {
        // No address.
      }
  }
  return paths;
}

const BEFORE_ADDRESS = /["'(,;\s]/;
const ADDRESS = /[^"<>\s\\#?]*/y;

function listText(shop: Shop, lesson: Lesson, made: string, files: readonly KeptFile[]): string {
  const edition = hash('sha256', JSON.stringify(files)).slice(0, 20);
  const list: KeepList = {
    ...{ format: 'kept lesson', version: 1, lesson: lesson.id, title: lesson.title, made, edition },
    ...keptWords(shop, lesson),
    files,
  };
  return JSON.stringify(list);
}

function keptFile(file: string, pieces: readonly Piece[]): KeptFile {
  const type = TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream';
  return { path: encodePath(file.replace(/(^|\/)index\.html$/, '$1')), type, pieces };
}
