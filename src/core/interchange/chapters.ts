import type { LessonTimes } from '../programme/index.ts';
import type { Range } from '../time/index.ts';

/** A step as a player lists it. */
export interface ShownStep {
  readonly id: string;
  readonly title: string;
  readonly at: Range<'programme'>;
}

/** A chapter as a player lists it. */
export interface ShownChapter extends ShownStep {
  readonly steps: readonly ShownStep[];
}

/** The chapters that have a part in the programme, and a note of those that have none. */
export function shownChapters({ chapters }: LessonTimes): { chapters: ShownChapter[]; notes: string[] } {
  const isShown = ({ at }: { at: Range<'programme'> }) => at.end > at.start;
  const gone = [
    ...chapters.filter((one) => !isShown(one)).map(({ chapter }) => chapter.title),
    ...chapters
      .filter(isShown)
      .flatMap(({ steps }) => steps.filter((one) => !isShown(one)).map(({ step }) => step.title)),
  ];
  return {
    chapters: chapters.filter(isShown).map(({ chapter, at, steps }) => ({
      id: chapter.id,
      title: chapter.title,
      at,
      steps: steps.filter(isShown).map(({ step, at: place }) => ({ id: step.id, title: step.title, at: place })),
    })),
    notes: gone.length > 0 ? [`cut out whole, so left out: ${gone.map((title) => `"${title}"`).join(', ')}`] : [],
  };
}
