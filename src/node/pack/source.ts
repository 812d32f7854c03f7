import type { FileFacts, Shop } from '../../core/model/index.ts';
import { type Contents, captionsOf, PACKAGE_FOLDERS } from '../../core/pack/index.ts';
import { readShop } from '../../core/read/index.ts';
import { fileInside, type LoadedShop } from '../files/index.ts';
import { entryOf, fileEntry, type PackEntry } from './entry.ts';

const { source: SOURCE } = PACKAGE_FOLDERS;

/** The content that a package is made from, read as whoever unpacks it would read it, and its files. */
export async function sourceOf(
  loaded: LoadedShop,
  contents: Contents,
  cameraFiles: boolean,
): Promise<{ readonly part: LoadedShop; readonly source: readonly PackEntry[] }> {
  const { content } = loaded;
  const texts = new Map(contents.texts.map((file) => [file, loaded.texts.get(file) ?? '']));
  // Pages say from whom a shared value is; whom this shop trusts stays its own affair, and does not travel.
  const shared = [...loaded.texts].filter(([file]) => file.startsWith('collections'));
  const read = readShop(new Map([...texts, ...shared]), factsIn(loaded.shop));
  const part: LoadedShop = { content, texts, notes: [], sums: new Map(), ...read };
  const source = await Promise.all([
    ...[...texts].map(([file, text]) => entryOf(`${SOURCE}/${file}`, text)),
    ...[...contents.media, ...(cameraFiles ? contents.cameraFiles : [])].map((file) =>
      fileEntry(`${SOURCE}/${file}`, fileInside(content, file)),
    ),
  ]);
  return { part, source };
}

/** What is known of the files that the content names, as the shop has read them. */
export function factsIn({ recordings, lessons, translations }: Shop): (file: string) => FileFacts {
  const known = new Map<string, FileFacts>([
    ...[...lessons, ...translations.map(({ lesson }) => lesson)].flatMap(({ pictures }) =>
      pictures.map(({ file, facts }) => [file, facts] as const),
    ),
    ...recordings.flatMap((recording) =>
      [...recording.files, ...recording.angles, ...captionsOf(recording)].map(
        ({ file, facts }) => [file, facts] as const,
      ),
    ),
  ]);
  return (file) => known.get(file) ?? { state: 'missing' };
}
