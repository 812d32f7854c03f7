import type { Locale } from '../locale/index.ts';
import type { Lesson, Recording, Shop, ShopInfo } from '../model/index.ts';
import { translatedLesson, translationFaults } from '../programme/index.ts';

/** The languages of a shop's site, the one at its root first. */
export function languagesOf({ languages, language }: Pick<ShopInfo, 'languages' | 'language'>): [string, ...string[]] {
  const [first = language ?? 'en', ...others] = languages ?? [];
  return [first, ...others];
}

/** Papers of whoever leads a class, and the page it is led by: made in the language at the root only. */
const MADE_ONCE = /^classes\/[^/]+\/(?:run-sheet|kit-list|present)\//;

/** True where the page at a path is the same for every language. */
export function madeOnce(path: string): boolean {
  return MADE_ONCE.test(path);
}

/**
 * A shop as pages in one of its languages show it: with the translations of its lessons and captions and what people call
 * things in it, where there are some. A translation that differs from its lesson in more than words is not shown.
 */
export function inLanguage(shop: Shop, locale: Locale): Shop {
  const lessons = shop.lessons.map((lesson) => {
    const own = shop.translations.find((each) => each.language === locale.tag && each.lesson.id === lesson.id);
    return own && translationFaults(lesson, own.lesson).length === 0 ? translatedLesson(lesson, own.lesson) : lesson;
  });
  const recordings = shop.recordings.map((recording): Recording => {
    const captions = recording.captionsIn?.get(locale.tag);
    return captions && captions.cues.length > 0 ? { ...recording, captions } : recording;
  });
  const words = shop.wordsIn?.get(locale.tag);
  return {
    ...{ ...shop, locale, lessons, recordings },
    // Lessons that are not translated are found by the names of their own language.
    ...(words && { words: { ...words, words: [...(words.words ?? []), ...(shop.words.words ?? [])] } }),
  };
}

/** The language that a lesson of a shop made for a language is written in. */
export function languageOfLesson({ info, translations }: Shop, { origin }: Lesson): string {
  return translations.find(({ lesson }) => lesson.origin === origin)?.language ?? languagesOf(info)[0];
}

/** The language of the captions of a recording of such a shop. */
export function languageOfCaptions({ info }: Shop, { captions, captionsIn = new Map() }: Recording): string {
  const [own] = [...captionsIn].find(([, each]) => each === captions) ?? [];
  return own ?? languagesOf(info)[0];
}

/** What stands before the path of a page in the language of a shop: nothing at the root, else `es/`. */
export function prefixOf({ info, locale }: Shop): string {
  return locale.tag === languagesOf(info)[0] ? '' : `${locale.tag}/`;
}
