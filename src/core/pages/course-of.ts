import { type Locale, wording } from '../locale/index.ts';
import { classStart, type Shop, type ShopClass } from '../model/index.ts';
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
export function classInCourse({ classes, locale }: Shop, shopClass: ShopClass): ClassInCourse | undefined {
  const { t } = wording(locale);
  const partOf = (each: ShopClass): CoursePart => ({
    id: each.id,
    title: each.title,
    day: classDate(each, locale).day,
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
    ...(course
      ? [t('Part {part} of {parts} of "{course}".', { part, parts: parts.length, course: course.title })]
      : []),
    ...(presupposes.length > 0
      ? [
          t('It builds on {classes}.', {
            classes: listInWords(
              presupposes.map((each) => `"${each.title}" (${each.day})`),
              locale,
            ),
          }),
        ]
      : []),
  ].join(' ');
  return { ...(course && { course }), presupposes, words };
}

/** `a`, `a and b`, `a, b and c`, as the language lists things. */
function listInWords(things: readonly string[], { tag }: Locale): string {
  return new Intl.ListFormat(tag === 'en' ? 'en-GB' : tag, { type: 'conjunction' }).format(things);
}
