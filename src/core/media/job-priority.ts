import type { Shop, ShopClass } from '../model/index.ts';

/** For what no class waits. Numbers grow with the date; the queue takes none above 2 097 151. */
const NO_CLASS = 2_000_000;
const DAY = 24 * 3600_000;

/**
 * How urgent work on a recording is: the lower, the sooner, so that what is shown in the class held soonest comes first.
 *
 * @param today YYYY-MM-DD; classes before it wait for nothing
 * @returns days from 2020-01-01 to the first class that shows a lesson of the recording
 */
export function jobPriority(
  { classes, lessons }: Pick<Shop, 'classes' | 'lessons'>,
  recording: string,
  today: string,
): number {
  const own = new Set(lessons.filter((lesson) => lesson.recording === recording).map(({ id }) => id));
  const dates = classes
    .filter(({ date, blocks }) => date >= today && blocks.some((block) => shows(block, own)))
    .map(({ date }) => Math.round((Date.parse(date) - Date.parse('2020-01-01')) / DAY));
  return Math.min(NO_CLASS, ...dates.map((days) => Math.max(1, days)));
}

function shows({ about, treatments }: ShopClass['blocks'][number], lessons: ReadonlySet<string>): boolean {
  return [about, ...treatments.map(({ show }) => show)].some((part) => part !== undefined && lessons.has(part.lesson));
}
