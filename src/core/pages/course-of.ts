import { classStart, type Shop, type ShopClass } from '../model/index.ts';
import { listWords } from '../read/index.ts';
import { classDate } from './class-date.ts';

/** A class of a course, as the others speak of it. */
export interface CoursePart {
  readonly id: string;
  readonly title: string;
  /** The date in words of the shop's language. */
  readonly day: string;
  readonly here: boolean;
}

/** One subject over several Saturdays, as one of them sees it. */
export interface Course {
  readonly title: string;
  /** Counted from 1, in the order of their days. */
  readonly part: number;
  readonly parts: readonly CoursePart[];
}

/** What a class is part of and builds on; nothing of a class that stands alone. */
export interface ClassInCourse {
  readonly course?: Course;
  readonly presupposes: readonly CoursePart[];
  /** The same in one line, for papers and calendars. */
  readonly words: string;
}

/** Where a class stands among the others. Two classes are of one course when they name it alike. */
export function classInCourse({ classes, info }: Shop, shopClass: ShopClass): ClassInCourse | undefined {
  const partOf = (each: ShopClass): CoursePart => ({
    id: each.id,
    title: each.title,
    day: classDate(each, info.language).day,
    here: each.id === shopClass.id,
  });
  const { course: title } = shopClass;
  const parts = (title === undefined ? [] : classes.filter(({ course }) => course === title))
    .toSorted((a, b) => classStart(a).localeCompare(classStart(b)))
    .map(partOf);
  const presupposes = (shopClass.presupposes ?? [])
    .flatMap((id) => classes.filter((each) => each.id === id))
    .map(partOf);
  if (title === undefined && presupposes.length === 0) return undefined;
  const part = parts.findIndex(({ here }) => here) + 1;
  const course = title === undefined ? undefined : { title, part, parts };
  const words = [
    ...(course ? [`Part ${part} of ${parts.length} of "${course.title}".`] : []),
    ...(presupposes.length > 0
      ? [`It builds on ${listWords(presupposes.map((each) => `"${each.title}" (${each.day})`))}.`]
      : []),
  ].join(' ');
  return { ...(course && { course }), presupposes, words };
}
