import { type ClassFit, givenAs, passagesOf } from '../fit/index.ts';
import type { Chapter, Lesson, Machine, Shop, Step } from '../model/index.ts';
import { lessonTimes } from '../programme/index.ts';
import { toSeconds } from '../time/index.ts';

/** A chapter that a class is about, with the steps that it takes up. */
export interface TaughtChapter {
  readonly lesson: Lesson;
  readonly machine?: Machine;
  readonly chapter: Chapter;
  readonly steps: readonly Step[];
  /** Where it starts, s of programme; absent without a cue. */
  readonly at?: number;
}

/**
 * The chapters a class teaches, each once, in the order in which the plan comes to them: only the steps of the blocks
 * it gives, in the way it gives them.
 */
export function taughtChapters(
  { lessons, recordings, machines }: Shop,
  { shopClass, plan, choice, timetable }: ClassFit,
): TaughtChapter[] {
  const given = plan.blocks
    .map((_, index) => ({ index, at: timetable.blocks[index]?.start ?? 0, as: givenAs(plan, choice, index) }))
    .filter(({ as }) => as !== undefined)
    .toSorted((a, b) => a.at - b.at || a.index - b.index);
  const parts = given.flatMap(({ index, as }) => {
    const written = shopClass.blocks[index];
    const way = written?.treatments.find(({ id }) => id === as?.id);
    return way?.show ?? written?.about ?? [];
  });
  const passages = parts.flatMap((part) => passagesOf(part, lessons));
  const steps = new Set(passages);
  const order = (chapter: Chapter) =>
    Math.min(
      ...[chapter, ...chapter.steps].map((passage) => passages.indexOf(passage)).filter((place) => place !== -1),
    );
  const chapters = lessons.flatMap((lesson) => {
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
  return chapters.toSorted((a, b) => order(a.chapter) - order(b.chapter));
}
