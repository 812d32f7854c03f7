import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { expect } from '@playwright/test';
import { pagesInFolder, placeStills } from '../../src/node/pack/pages.ts';
import { buildSite } from '../../src/node/site/index.ts';
import { CONTENT } from './serve-demo.ts';
import { copyDemo, discard } from './start-room.ts';

const HOME = resolve(import.meta.dirname, '../..');

const MEDIA = ['chain-1.mp4', 'chain-2.mp4', 'front-brake.mp4'];

/** Places in a page that lead to nothing in the package. */
function deadEnds(from: string, html: string, has: (path: string) => boolean): string[] {
  // In text and in islands of JSON there may be anything.
  const places = [
    ...html.replace(/(<script[^>]*>)[^<]*/g, '$1').matchAll(/ (?:href|src|action|data-records)="([^"]*)"/g),
  ];
  return places.flatMap(([, place = '']) => {
    if (/^(?:#|data:|mailto:|https:\/\/millrace\.example\/)/.test(place)) return [];
    const to = new URL(place.replaceAll('&amp;', '&'), `file:///package/${from}`);
    return has(decodeURIComponent(to.pathname.slice('/package/'.length))) ? [] : [`${from}: ${place}`];
  });
}

/**
 * The demo's site as it is built for a package.
 *
 * @returns absolute path of the folder
 */
export async function siteForPackage(): Promise<string> {
  const out = await mkdtemp(join(tmpdir(), 'liftside-package-site-'));
  const content = await copyDemo(CONTENT);
  try {
    const wishes = { content, out, home: HOME, env: process.env, now: () => new Date() };
    const { stills } = await buildSite({ ...wishes, part: true, footage: 'camera files' });
    await placeStills(stills, out);
  } finally {
    await discard(content);
  }
  return out;
}

/**
 * The pages of such a site as a package has them, with its footage; the site itself goes.
 *
 * @param site absolute path
 * @returns absolute path of the folder
 */
export async function pagesAsPacked(site: string, keep: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'liftside-folder-'));
  const footage = new Map(MEDIA.map((file) => [`media/${file}`, `source/media/${file}`]));
  const pages = await pagesInFolder({ site, footage, keep, languages: ['es'] });
  const there = new Set([...pages.keys(), ...footage.values(), 'READ ME FIRST.html']);
  const html = [...pages].filter(([path]) => path.endsWith('.html'));
  // The sheets of the class on its day too.
  expect(html.map(([path]) => path)).toContain('pages/classes/chain-saturday/run-sheet/index.html');
  expect(html.flatMap(([path, text]) => deadEnds(path, String(text), (to) => there.has(to)))).toEqual([]);
  for (const [path, bytes] of pages) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), bytes);
  }
  await rm(site, { recursive: true });
  await mkdir(join(folder, 'source'));
  await symlink(join(CONTENT, 'media'), join(folder, 'source/media'));
  return folder;
}
