import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { manifestText } from '../../../src/core/pack/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { writeZip } from '../../../src/node/pack/index.ts';
import { contents, MAIN } from './run.ts';

const SPECS = 'specs/tarn-420.yaml';
const FILM = 'media/chain.mp4';
const CAPTIONS = 'media/more/chain.vtt';
/** Long enough that a copy of it is written in parts. */
const LENGTH = 200_000;

const package_: Readonly<Record<string, string>> = {
  ...SOUND_SHOP,
  'recordings/chain.yaml': (SOUND_SHOP['recordings/chain.yaml'] ?? '').replace('media/chain.vtt', CAPTIONS),
  [FILM]: 'new '.repeat(LENGTH / 4),
  [CAPTIONS]: 'WEBVTT\n',
};
/** A shop that has another value, another film, and no kit, lessons or captions yet. */
const shop: Readonly<Record<string, string>> = {
  'shop.yaml': SOUND_SHOP['shop.yaml'] ?? '',
  [SPECS]: (SOUND_SHOP[SPECS] ?? '').replace(/nominal: \d+/, 'nominal: 77'),
  [FILM]: 'old '.repeat(LENGTH / 4),
};
/** The same shop as {@link contents} reads it: bytes as Latin-1. */
const before = Object.fromEntries(
  Object.entries(shop).map(([file, text]) => [file, Buffer.from(text).toString('latin1')]),
);
/** What is a text of the content, is saved with all others or not at all. */
const isText = (file: string) => !file.startsWith('media/');

/** A package, and a shop whose content differs from it. */
export async function packageAndShop(folder: string): Promise<void> {
  const entry = (path: string, text: string) => ({
    ...{ path, bytes: Buffer.byteLength(text), from: { bytes: Buffer.from(text) } },
  });
  const manifest = manifestText({
    ...{ format: 'liftside-package', version: 1, kind: 'lesson', id: 'chain', title: 'Chain', shop: 'Millrace' },
    ...{ language: 'en', invented: true, opens: 'pages/index.html', lessons: ['chain'], films: [] },
  });
  const entries = [
    entry('package.json', manifest),
    ...Object.entries(package_).map(([path, text]) => entry(`source/${path}`, text)),
  ];
  await writeZip(entries, {
    ...{ to: join(folder, 'chain.zip'), content: '/nowhere', wrote: () => {} },
    signal: new AbortController().signal,
  });
  for (const [file, text] of Object.entries(shop)) {
    await mkdir(join(folder, 'content', file, '..'), { recursive: true });
    await writeFile(join(folder, 'content', file), text);
  }
}

/** Unpacks it, taking the package's where the shop differs, as a person does. */
export function unpacker(folder: string): string[] {
  return [MAIN, 'unpack', join(folder, 'chain.zip'), '--take', 'all', '--content', join(folder, 'content')];
}

/**
 * What a shop is after an unpacking that was killed: texts all as before, or all as after; every other file whole, as
 * before or as after.
 *
 * @param after contents of the content folder after an undisturbed unpacking
 * @throws where neither is so
 */
export async function unpacked(folder: string, after: Readonly<Record<string, string>>): Promise<'old' | 'new'> {
  // Any next look at the content ends what was begun.
  await loadShop(join(folder, 'content'));
  const now = own(await contents(join(folder, 'content')));
  for (const [file, text] of Object.entries(now))
    if (!isText(file) && ![before[file], after[file]].includes(text)) throw new Error(`torn: ${file}`);
  const said = (wanted: Readonly<Record<string, string>>) =>
    JSON.stringify(
      Object.entries(wanted)
        .filter(([file]) => isText(file))
        .toSorted(),
    );
  if (said(now) === said(before)) return 'old';
  if (said(now) === said(after)) return 'new';
  throw new Error(`texts of both: ${Object.keys(now).join(', ')}`);
}

/** Files of a content folder that are somebody's own; what a killed writer has left beside them has a dot before it. */
export function own(files: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(files).filter(([file]) => !file.split('/').some((part) => part.startsWith('.'))),
  );
}

/** What stands beside files of the content with a dot before its name: what killed writers have left. */
export function leftIn(files: Readonly<Record<string, string>>): readonly string[] {
  return Object.keys(files).filter((file) => !file.startsWith('.liftside') && own({ [file]: '' })[file] === undefined);
}
