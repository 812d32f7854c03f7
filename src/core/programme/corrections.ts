import type { Correction, Lesson, Machine, Recording, Shop, ShopClass, Spec, Step } from '../model/index.ts';
import { writtenQuantity } from '../spec/index.ts';
import { type Range, range, toProgramme } from '../time/index.ts';
import { lessonTimes } from './lesson-times.ts';
import { rowsCited } from './rows-for.ts';

/** A correction with what it belongs to. */
export interface CorrectionShown {
  readonly correction: Correction;
  readonly lesson: Lesson;
  readonly step: Step;
  readonly machine: Machine;
  /** The rows whose values hold; several where they differ by model year. */
  readonly rows: readonly Spec[];
  /** While the card is shown, in programme time; empty when that part of the recording was cut. */
  readonly at?: Range<'programme'>;
  /** Id of its own on the site and in the feed. */
  readonly id: string;
}

/** Every correction that can be shown, the newest first; those whose lesson, step or row is unknown are left out. */
export function correctionsShown(shop: Shop): readonly CorrectionShown[] {
  return shop.corrections
    .flatMap((correction): CorrectionShown[] => {
      const lesson = shop.lessons.find(({ id }) => id === correction.lesson);
      const machine = shop.machines.find(({ id }) => id === lesson?.machine);
      const step = lesson?.chapters.flatMap(({ steps }) => steps).find(({ id }) => id === correction.step);
      if (!lesson || !machine || !step) return [];
      const cited = rowsCited(lesson, machine, step).filter(({ id }) => id === correction.spec);
      const rows = cited.length > 0 ? cited : machine.specs.filter(({ id }) => id === correction.spec);
      if (rows.length === 0) return [];
      const recording = shop.recordings.find(({ id }) => id === lesson.recording);
      const at = recording && whileShown(correction, lesson, recording);
      const id = `${lesson.id}-${step.id}-${correction.spec}-${correction.at.replaceAll(/[^\d]+/g, '-')}`;
      return [{ correction, lesson, step, machine, rows, id, ...(at ? { at } : {}) }];
    })
    .toSorted((a, b) => (a.correction.on < b.correction.on ? 1 : a.correction.on > b.correction.on ? -1 : 0));
}

/** From its moment until the step ends. */
function whileShown(correction: Correction, lesson: Lesson, recording: Recording): Range<'programme'> | undefined {
  const times = lessonTimes(lesson, recording)
    .chapters.flatMap(({ steps }) => steps)
    .find(({ step }) => step.id === correction.step);
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
