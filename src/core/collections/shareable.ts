import type { Shop } from '../model/index.ts';
import { didYouMean } from '../read/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';

const TEXTS = /^(?:specs\/[^/]+\.yaml|lessons\/[^/]+\.mdx|recordings\/[^/]+\.yaml|kit\.yaml|words\.yaml)$/;
const BESIDE = /^(?:media|lessons)\/.+\.(?:vtt|srt|jpe?g|png|webp|avif|gif)$/i;

/** True for a text that shops share: spec tables, kit, words, lessons and what was recorded for them. */
export function isSharedText(path: string): boolean {
  return TEXTS.test(path);
}

/** True for a file that a collection may hold: such texts, and the captions and pictures that they name. */
export function isShareable(path: string): boolean {
  return isSharedText(path) || BESIDE.test(path);
}

/**
 * All files of a collection: those that were named, and what their lessons lean on: recordings without their camera
 * files, captions, pictures.
 *
 * @param named paths relative to the content folder
 * @param texts paths of the content texts that are there
 */
export function filesToShare(
  { lessons, recordings }: Shop,
  named: readonly string[],
  texts: Iterable<string>,
): Parsed<readonly string[]> {
  const there = [...texts].filter(isSharedText);
  for (const file of named) {
    if (!isSharedText(file))
      return fail(`${file} is nothing that shops share`, 'name spec tables, kit.yaml, words.yaml or lessons');
    if (!there.includes(file)) return fail(`there is no ${file}`, didYouMean(file, there));
  }
  const shown = lessons.filter(({ id }) => named.includes(`lessons/${id}.mdx`));
  const draft = shown.find((one) => one.draft);
  if (draft) return fail(`the lesson ${draft.id} is a draft`, 'take draft: out of it when it may be shown to others');
  const filmed = recordings.filter(({ id }) => shown.some(({ recording }) => recording === id));
  const along = [
    ...filmed.map(({ id }) => `recordings/${id}.yaml`),
    ...filmed.flatMap(({ captions }) => (captions?.facts.state === 'text' ? [captions.file] : [])),
    ...shown.flatMap(({ pictures }) =>
      pictures.filter(({ facts }) => facts.state === 'picture').map(({ file }) => file),
    ),
  ];
  const odd = along.find((file) => !isShareable(file));
  if (odd !== undefined)
    return fail(
      `${odd} cannot go along`,
      'captions end in .vtt or .srt, pictures in .jpg, .png, .webp, .avif or .gif; both lie in media/ or lessons/',
    );
  return ok([...new Set([...named, ...along])].toSorted());
}
