import type { Lesson, Shop } from '../model/index.ts';
import { type ClassHead, classHead } from './class-page.ts';
import { languageOfLesson } from './languages.ts';
import { type AddressOf, lessonParts } from './lesson-parts.ts';
import { type SiteFrame, siteFrame } from './site-frame.ts';

/** A lesson as the front page names it. */
export interface LessonOnFront {
  readonly id: string;
  readonly title: string;
  /** That it is written in, BCP 47. */
  readonly language: string;
  readonly summary?: string;
  /** Title of the machine. */
  readonly machine?: string;
  /** programme ticks */
  readonly length: number;
  readonly steps: number;
  readonly chapters: readonly { readonly id: string; readonly title: string }[];
}

/** Everything the front page says, in plain values. */
export interface FrontPage {
  readonly frame: SiteFrame;
  readonly about?: string;
  readonly lessons: readonly LessonOnFront[];
  /** Classes from today on, the next one first. */
  readonly coming: readonly ClassHead[];
  /** Classes that were held, the latest first. */
  readonly past: readonly ClassHead[];
}

/**
 * The front page.
 *
 * @param today YYYY-MM-DD
 * @param divided its lessons stand on pages of their own
 */
export function frontPage(shop: Shop, today: string, addressOf: AddressOf, divided = false): FrontPage {
  const classes = shop.classes
    .toSorted((a, b) => (a.date < b.date ? -1 : 1))
    .map((shopClass) => classHead(shop, shopClass));
  return {
    frame: siteFrame(shop),
    ...(shop.info.about ? { about: shop.info.about } : {}),
    lessons: divided
      ? []
      : shop.lessons.filter(({ draft }) => !draft).map((lesson) => lessonOnFront(shop, lesson, addressOf)),
    coming: classes.filter(({ date }) => date >= today),
    past: classes.filter(({ date }) => date < today).toReversed(),
  };
}

/** A lesson as the front page names it, or a page of lessons that it leads to. */
export function lessonOnFront(shop: Shop, lesson: Lesson, addressOf: AddressOf): LessonOnFront {
  const recording = shop.recordings.find(({ id }) => id === lesson.recording);
  const machine = shop.machines.find(({ id }) => id === lesson.machine);
  const { length, chapters } = lessonParts(lesson, recording, 'uncut', addressOf);
  return {
    id: lesson.id,
    title: lesson.title,
    language: languageOfLesson(shop, lesson),
    ...(lesson.summary ? { summary: lesson.summary } : {}),
    ...(machine ? { machine: machine.title } : {}),
    length,
    steps: chapters.reduce((sum, { steps }) => sum + steps.length, 0),
    chapters: chapters.map(({ part: { id, title } }) => ({ id, title })),
  };
}
