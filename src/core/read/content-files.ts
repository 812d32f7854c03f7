import { didYouMean, nearest } from './nearest.ts';

/** Where each kind of content file lives, relative to the content folder. */
export const CONTENT_FILES = {
  shop: 'shop.yaml',
  kit: 'kit.yaml',
  words: 'words.yaml',
  wordsIn: /^words\.([A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8})*)\.yaml$/,
  collections: 'collections.yaml',
  recording: /^recordings\/([^/]+)\.yaml$/,
  lesson: /^lessons\/([^/.]+)\.mdx$/,
  translation: /^lessons\/([^/.]+)\.([A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8})*)\.mdx$/,
  machine: /^specs\/([^/]+)\.yaml$/,
  shopClass: /^classes\/([^/.]+)\.yaml$/,
  corrections: /^corrections\/([^/]+)\.yaml$/,
  questions: /^questions\/([^/]+)\.yaml$/,
  actual: /^classes\/([^/.]+)\.actual\.yaml$/,
} as const;

/** Looks like something somebody wanted read, but is not where or what it would have to be. */
export const ASTRAY =
  /^(?:recordings|lessons|specs|classes|corrections|questions)\/(?!readme\.md$)([^/]+)\.(?:ya?ml|mdx?|json)$|^[^/]+\.ya?ml$/i;

/** True for a file of some kind of content. */
export function isContent(file: string): boolean {
  return Object.values(CONTENT_FILES).some((kind) => isOf(kind, file));
}

function isOf(kind: string | RegExp, file: string): boolean {
  return typeof kind === 'string' ? kind === file : kind.test(file);
}

/** The id that a content file has by its name; nothing where there is only one of its kind. */
export function idOf(file: string): string | undefined {
  for (const kind of Object.values(CONTENT_FILES)) {
    const id = typeof kind === 'string' ? undefined : kind.exec(file)?.[1];
    if (id !== undefined) return id;
  }
  return undefined;
}

/** Content files that stand at the top. */
const TOP = [CONTENT_FILES.shop, CONTENT_FILES.kit, CONTENT_FILES.words, CONTENT_FILES.collections];

/** Which of the files at the top a mistyped name stands for. */
export function whatItIs(file: string): string | undefined {
  return nearest(file, TOP)[0];
}

export function whereItBelongs(file: string): string {
  const folder = file.split('/')[0] ?? '';
  if (!file.includes('/'))
    return didYouMean(file, TOP, 'at the top stand shop.yaml, kit.yaml, words.yaml and collections.yaml');
  return folder === 'lessons' ? 'a lesson ends in .mdx' : `what stands in ${folder}/ ends in .yaml`;
}
