import type { Lesson, Passage, Recording } from '../../model/index.ts';
import { slug } from '../../read/index.ts';
import { gridOf, TICKS_PER_SECOND, type Ticks } from '../../time/index.ts';
import type { ImportedMark } from '../imported.ts';
import type { MarkedHeading, PaperMarks } from './paper-marks.ts';
import { type PaperWord, paperTime } from './paper-words.ts';
import type { PlacedWords } from './place-words.ts';

const ROUNDING = TICKS_PER_SECOND / 1000;

interface Known {
  readonly kind: ImportedMark['kind'];
  readonly one: Passage;
}

/**
 * Chapters and steps of a paper edit. One that stands at its own time is as before; one without a time, or that was
 * moved to other words, begins with the word that follows.
 *
 * @returns nothing where all are as they were printed
 */
export function headingMarks(
  { headings, notes }: PaperMarks,
  placed: PlacedWords,
  spoken: readonly PaperWord[],
  recording: Recording,
  lessons: readonly Lesson[],
): ImportedMark[] | undefined {
  const known = lessons.flatMap(({ chapters }) =>
    chapters.flatMap((chapter): Known[] => [
      { kind: 'chapter', one: chapter },
      ...chapter.steps.map((one) => ({ kind: 'step' as const, one })),
    ]),
  );
  const marks: ImportedMark[] = [];
  let changed = false;
  for (const heading of headings) {
    const at = momentOf(heading, placed, spoken);
    const said = `${heading.kind} "${heading.title}"`;
    if (at === undefined) {
      notes.add(`line ${heading.line}: no words of the recording follow the ${said}`);
      continue;
    }
    const time = paperTime(at, recording);
    const here = ({ one }: Known) => one.cue !== undefined && paperTime(one.cue.at, recording) === time;
    const named = known.filter(({ one }) => slug(one.title) === slug(heading.title));
    const same = named.filter(({ kind }) => kind === heading.kind);
    const other = known.find((each) => each.kind === heading.kind && here(each));
    const stays = same.find(here) ?? (same.length === 0 && heading.at !== undefined ? other : undefined);
    if (stays?.one.cue) {
      if (!same.includes(stays))
        notes.add(
          `line ${heading.line}: the ${heading.kind} is called "${stays.one.title}" in the lesson, and stays so`,
        );
      marks.push({ kind: stays.kind, title: stays.one.title, id: stays.one.id, at: stays.one.cue.at });
    } else if (named.length > same.length && same.length === 0)
      notes.add(
        `line ${heading.line}: "${heading.title}" is a ${named[0]?.kind} already: give the ${heading.kind} another title`,
      );
    else {
      const grid = gridOf(recording);
      const precision = grid.step(at, 1) - grid.shown(at);
      marks.push({ kind: heading.kind, title: heading.title, at: grid.shown(at), precision });
      changed = true;
    }
  }
  if (!changed) return undefined;
  return withChapter(
    marks.toSorted((a, b) => a.at - b.at),
    recording,
    lessons,
  );
}

/** Its own time where that lies between the words about it, else that of the word that follows. */
function momentOf(
  { at, before }: MarkedHeading,
  { first }: PlacedWords,
  spoken: readonly PaperWord[],
): Ticks<'recording'> | undefined {
  const next = spoken[first.subarray(before).find((one) => one >= 0) ?? -1]?.at.start;
  const last = spoken[first.subarray(0, before).findLast((one) => one >= 0) ?? -1]?.at.start;
  const between =
    at !== undefined && (last ?? 0) <= at + ROUNDING && at <= (next ?? Number.POSITIVE_INFINITY) + ROUNDING;
  return between ? at : next;
}

/** A step belongs to a chapter: where there is none yet, one opens with it. */
function withChapter(marks: readonly ImportedMark[], recording: Recording, lessons: readonly Lesson[]): ImportedMark[] {
  const [first] = marks;
  const title = lessons[0]?.title ?? recording.title;
  const chaptered = lessons.some(({ chapters }) => chapters.length > 0);
  return first && first.kind === 'step' && !chaptered
    ? [{ kind: 'chapter', title, at: first.at }, ...marks]
    : [...marks];
}
