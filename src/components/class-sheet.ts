import { passagesOf } from '../core/fit/index.ts';
import type { Chapter, Lesson, Machine, Shop, ShopClass, Step } from '../core/model/index.ts';
import { lessonTimes } from '../core/programme/index.ts';
import { fromSeconds, printClockTime, toSeconds } from '../core/time/index.ts';

/** A chapter that a class is about, with the steps that it takes up. */
export interface TaughtChapter {
  readonly lesson: Lesson;
  readonly machine?: Machine;
  readonly chapter: Chapter;
  readonly steps: readonly Step[];
  /** Where it starts, s of programme; absent without a cue. */
  readonly at?: number;
}

/** The chapters a class shows or is about, each once, in the order of their lessons. */
export function taughtChapters({ lessons, recordings, machines }: Shop, { blocks }: ShopClass): TaughtChapter[] {
  const parts = blocks.flatMap(({ about, treatments }) => [about, ...treatments.map(({ show }) => show)]);
  const steps = new Set(parts.flatMap((part) => (part ? passagesOf(part, lessons) : [])));
  return lessons.flatMap((lesson) => {
    const recording = recordings.find(({ id }) => id === lesson.recording);
    const machine = machines.find(({ id }) => id === lesson.machine);
    const times = recording && lessonTimes(lesson, recording);
    return lesson.chapters.flatMap((chapter): TaughtChapter[] => {
      const taught = chapter.steps.filter((step) => steps.has(step));
      const span = times?.chapters.find((timed) => timed.chapter === chapter)?.at;
      if (taught.length === 0) return [];
      return [
        { lesson, ...(machine && { machine }), chapter, steps: taught, ...(span && { at: toSeconds(span.start) }) },
      ];
    });
  });
}

/**
 * The address of a chapter at its time, for a QR code: whole, with the site it is on.
 * Nothing while the shop's address is not known.
 */
export function chapterAddress(site: URL | undefined, path: string, at: number | undefined): string | undefined {
  if (!site) return undefined;
  const address = new URL(path, site);
  if (at !== undefined) address.hash = `t=${Math.floor(at)}`;
  return address.href;
}

/** A moment of the programme as a player shows it: m:ss, or h:mm:ss from an hour on. */
export function playTime(seconds: number): string {
  return printClockTime(fromSeconds(Math.floor(seconds))).replace(/^0:0?/, '');
}
