import type { Correction, Lesson, Machine, Passage, Recording, Shop, ShopClass, Spec } from '../model/index.ts';
import { writtenQuantity } from '../spec/index.ts';
import { type Range, range, toProgramme } from '../time/index.ts';
import { type CorrectedRow, correctedRows } from './corrected-rows.ts';
import { lessonTimes } from './lesson-times.ts';
import { rowsOfLesson } from './rows-for.ts';

/** A correction with what it belongs to. */
export interface CorrectionShown {
  readonly correction: Correction;
  readonly lesson: Lesson;
  /** The step; the chapter where the words stand between its steps. */
  readonly passage: Passage;
  readonly machine: Machine;
  /** The rows whose values hold: first those the words are wrong for. */
  readonly rows: readonly [CorrectedRow, ...CorrectedRow[]];
  /** While the card is shown, in programme time; empty when that part of the recording was cut. */
  readonly at?: Range<'programme'>;
  /** Id of its own on the site and in the feed. */
  readonly id: string;
}

/** Every correction that can be shown, the newest first; those whose lesson, step or row is unknown are left out. */
export function correctionsShown(
  shop: Pick<Shop, 'corrections' | 'lessons' | 'machines' | 'recordings'>,
): readonly CorrectionShown[] {
  return shop.corrections
    .flatMap((correction): CorrectionShown[] => {
      const lesson = shop.lessons.find(({ id }) => id === correction.lesson);
      const machine = shop.machines.find(({ id }) => id === lesson?.machine);
      const passage = lesson?.chapters
        .flatMap((chapter) => [...chapter.steps, chapter])
        .find(({ id }) => id === correction.step);
      if (!lesson || !machine || !passage) return [];
      const [first, ...others] = correctedRows(
        machine,
        correction,
        rowsOfLesson(machine, lesson, new Set([correction.spec])),
      );
      if (!first) return [];
      const recording = shop.recordings.find(({ id }) => id === lesson.recording);
      const at = recording && whileShown(correction, lesson, recording);
      const id = `${lesson.id}-${passage.id}-${correction.spec}-${correction.at.replaceAll(/[^\d]+/g, '-')}`;
      return [{ correction, lesson, passage, machine, rows: [first, ...others], id, ...(at ? { at } : {}) }];
    })
    .toSorted((a, b) => (a.correction.on < b.correction.on ? 1 : a.correction.on > b.correction.on ? -1 : 0));
}

/** From its moment until the step, or the chapter, ends. */
function whileShown(correction: Correction, lesson: Lesson, recording: Recording): Range<'programme'> | undefined {
  const times = lessonTimes(lesson, recording)
    .chapters.flatMap(({ chapter, steps, ...own }) => [
      ...steps.map(({ step, at }) => ({ passage: step as Passage, at })),
      { passage: chapter, at: own.at },
    ])
    .find(({ passage }) => passage.id === correction.step);
  if (!times) return undefined;
  const start = toProgramme(recording.edit, correction.moment).at;
  const from = start < times.at.start ? times.at.start : start;
  return from < times.at.end ? range(from, times.at.end) : undefined;
}

/** A row that changed after a class was held, with the classes and lessons it touches. */
export interface ChangedAfterClass {
  readonly machine: Machine;
  readonly row: Spec;
  /** What held until then, in words. */
  readonly former: string;
  /** Last day of the former value. */
  readonly until: string;
  readonly bulletin?: string;
  readonly classes: readonly ShopClass[];
  readonly lessons: readonly Lesson[];
}

/**
 * Rows whose value changed after a class that taught them was held, the latest change first. What those classes took
 * home has the former value.
 *
 * @param today YYYY-MM-DD
 */
export function changedAfterClass(shop: Shop, today: string): readonly ChangedAfterClass[] {
  return shop.machines
    .flatMap((machine) => machine.specs.map((row) => ({ machine, row })))
    .flatMap(({ machine, row }) =>
      row.former.map(({ until, bulletin, quantity }) => {
        const lessons = shop.lessons.filter((lesson) => lesson.machine === machine.id && cites(lesson, row.id));
        const classes = shop.classes.filter(
          (each) => each.date <= until && each.date <= today && until < today && teaches(each, lessons),
        );
        const former = quantity ? writtenQuantity(quantity) : 'another value';
        return { machine, row, former, until, classes, lessons, ...(bulletin ? { bulletin } : {}) };
      }),
    )
    .filter(({ classes }) => classes.length > 0)
    .toSorted((a, b) => (a.until < b.until ? 1 : a.until > b.until ? -1 : 0));
}

function cites(lesson: Lesson, spec: string): boolean {
  return lesson.chapters.some((chapter) =>
    [chapter, ...chapter.steps].some((passage) => passage.cites.some((cite) => cite.spec === spec)),
  );
}

function teaches({ blocks }: ShopClass, lessons: readonly Lesson[]): boolean {
  const ids = new Set(lessons.map(({ id }) => id));
  return blocks.some(
    ({ about, treatments }) =>
      (about && ids.has(about.lesson)) || treatments.some(({ show }) => show && ids.has(show.lesson)),
  );
}
