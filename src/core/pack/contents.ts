import type { CaptionFile, Lesson, Recording, Shop, ShopClass } from '../model/index.ts';
import { CONTENT_FILES, didYouMean } from '../read/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';

/** What goes into a package, by ids. */
export interface Contents {
  readonly kind: 'lesson' | 'class';
  readonly id: string;
  readonly title: string;
  readonly lessons: readonly Lesson[];
  readonly recordings: readonly Recording[];
  readonly shopClass?: ShopClass;
  /** Content texts, by path relative to the content folder, in order. */
  readonly texts: readonly string[];
  /** Captions and pictures that they name. */
  readonly media: readonly string[];
  /** Camera files and further cameras of the recordings. */
  readonly cameraFiles: readonly string[];
}

/**
 * What a lesson or a class needs to be whole: its lessons and their translations, their recordings, machines and
 * corrections, and what all of them lean on. What a class took, which is about people, stays in the shop.
 *
 * @param texts paths of the content texts that are there
 */
export function packageContents(shop: Shop, texts: Iterable<string>, id: string): Parsed<Contents> {
  const shopClass = shop.classes.find((one) => one.id === id);
  const lesson = shop.lessons.find((one) => one.id === id);
  if (lesson && shopClass)
    return fail(
      `"${id}" is a lesson and a class too`,
      'give one of them another id, so that it is known which is meant',
    );
  if (!lesson && !shopClass)
    return fail(
      `no lesson or class "${id}"`,
      didYouMean(
        id,
        [...shop.lessons, ...shop.classes].map((one) => one.id),
      ),
    );
  const named = shopClass ? lessonsOfClass(shopClass) : [id];
  const lessons = shop.lessons.filter((one) => named.includes(one.id));
  const draft = lessons.find((one) => one.draft);
  if (draft) return fail(`the lesson ${draft.id} is a draft`, 'take draft: out of it when it may be shown to others');
  const recordings = shop.recordings.filter((one) => lessons.some(({ recording }) => recording === one.id));
  const translations = shop.translations.map((each) => each.lesson).filter(({ id }) => named.includes(id));
  const machines = new Set(lessons.map(({ machine }) => machine));
  const wanted = new Set([
    ...['shop.yaml', 'kit.yaml', 'words.yaml'],
    ...lessons.flatMap((one) => [`lessons/${one.id}.mdx`, `corrections/${one.id}.yaml`]),
    ...recordings.map((one) => `recordings/${one.id}.yaml`),
    ...[...machines].map((machine) => `specs/${machine}.yaml`),
    ...(shopClass ? [`classes/${shopClass.id}.yaml`] : []),
  ]);
  const media = new Set([
    ...recordings.flatMap((one) => captionsOf(one).map(({ file }) => file)),
    ...[...lessons, ...translations]
      .flatMap(({ pictures }) => pictures.filter(({ facts }) => facts.state === 'picture'))
      .map((p) => p.file),
  ]);
  const cameraFiles = new Set(recordings.flatMap(({ files, angles }) => [...files, ...angles].map(({ file }) => file)));
  const one = shopClass ?? lesson;
  return ok({
    kind: shopClass ? 'class' : 'lesson',
    id,
    title: one?.title ?? id,
    lessons,
    recordings,
    ...(shopClass ? { shopClass } : {}),
    texts: [...texts]
      .filter((file) => wanted.has(file) || CONTENT_FILES.wordsIn.test(file) || named.includes(idTranslated(file)))
      .toSorted(),
    media: [...media].toSorted(),
    cameraFiles: [...cameraFiles].toSorted(),
  });
}

/** The id of the lesson that a file translates; empty for any other file. */
function idTranslated(file: string): string {
  return CONTENT_FILES.translation.exec(file)?.[1] ?? '';
}

/** The captions of a recording, in every language that it has them in. */
export function captionsOf({ captions, captionsIn }: Recording): CaptionFile[] {
  return [...(captions ? [captions] : []), ...(captionsIn?.values() ?? [])];
}

/** Every lesson that a class shows a part of or is about. */
function lessonsOfClass({ blocks }: ShopClass): string[] {
  return blocks.flatMap(({ about, treatments = [] }) =>
    [about, ...treatments.map(({ show }) => show)].flatMap((part) => (part ? [part.lesson] : [])),
  );
}

/**
 * The last day that the texts name: pages of a package are made as on that day, so that the same content makes the same
 * pages whenever it is packed.
 *
 * @returns YYYY-MM-DD; the first day of 2000 where no day is named
 */
export function lastDayNamed(texts: Iterable<string>): string {
  let last = '2000-01-01';
  for (const text of texts)
    for (const [day] of text.matchAll(/\b20\d\d-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])\b/g))
      if (day > last && !Number.isNaN(Date.parse(day))) last = day;
  return last;
}
