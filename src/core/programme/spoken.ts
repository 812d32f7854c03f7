import type { Caption, Chapter, Correction, Lesson, Machine, Recording, Shop, Spec, Step } from '../model/index.ts';
import { agrees, type Difference, difference, type Heard, hear, isComparable, partsOf } from '../spec/index.ts';
import { contains, type Range, rangeToProgramme, type Ticks } from '../time/index.ts';
import { lessonTimes } from './lesson-times.ts';
import { rowsCited } from './rows-for.ts';

/** A quantity spoken within a step that no row the step cites agrees with. */
export interface Disagreement {
  readonly lesson: Lesson;
  readonly chapter: Chapter;
  readonly step: Step;
  readonly recording: Recording;
  readonly heard: Heard;
  readonly caption: Caption;
  /** Recording time of the caption. */
  readonly at: Ticks<'recording'>;
  /** The row nearest to what was said, and how far off it is. */
  readonly row: Spec;
  readonly difference: Difference;
  /** True where a row it could stand for is marked so. */
  readonly critical: boolean;
}

/** A step's words as one text, each caption with where it starts in it. */
interface Words {
  readonly text: string;
  readonly captions: readonly { readonly caption: Caption; readonly start: number }[];
}

/**
 * Every spoken quantity, within the step it is spoken in, that disagrees with every row of its kind that the step
 * cites. Captions that were cut are not heard.
 */
export function disagreements(shop: Shop): readonly Disagreement[] {
  return shop.lessons.flatMap((lesson) => {
    const recording = shop.recordings.find(({ id }) => id === lesson.recording);
    const machine = shop.machines.find(({ id }) => id === lesson.machine);
    return recording?.captions && machine ? ofLesson(lesson, recording, machine) : [];
  });
}

function ofLesson(lesson: Lesson, recording: Recording, machine: Machine): Disagreement[] {
  return lessonTimes(lesson, recording).chapters.flatMap(({ chapter, steps }) =>
    steps.flatMap(({ step, recording: within }) => {
      const rows = rowsCited(lesson, machine, step);
      if (rows.length === 0) return [];
      const words = wordsWithin(recording, within);
      return hear(words.text).flatMap((heard) => {
        const found = disagreement(heard, rows);
        const caption = words.captions.findLast(({ start }) => start <= heard.start)?.caption;
        if (!found || !caption) return [];
        return [{ lesson, chapter, step, recording, heard, caption, at: caption.at.start, ...found }];
      });
    }),
  );
}

function wordsWithin({ captions, edit }: Recording, within: Range<'recording'>): Words {
  const heard: { caption: Caption; start: number }[] = [];
  let text = '';
  for (const caption of captions?.cues ?? []) {
    if (!contains(within, caption.at.start) || rangeToProgramme(edit, caption.at).length === 0) continue;
    heard.push({ caption, start: text.length });
    text += `${caption.text} `;
  }
  return { text, captions: heard };
}

function disagreement(
  heard: Heard,
  rows: readonly Spec[],
): { row: Spec; difference: Difference; critical: boolean } | undefined {
  const comparable = rows.flatMap((row) =>
    (row.quantity ? partsOf(row.quantity) : [])
      .filter((part) => isComparable(heard, part))
      .map((part) => ({ row, part })),
  );
  if (comparable.length === 0 || comparable.some(({ part }) => agrees(heard, part))) return undefined;
  const measured = comparable.flatMap(({ row, part }) => {
    const off = difference(heard, part);
    return off ? [{ row, difference: off }] : [];
  });
  const relative = ({ difference: { off, part } }: (typeof measured)[number]) =>
    Math.abs(off) / (part.amount.nominal ?? part.amount.max ?? part.amount.min ?? 1);
  const [nearest] = measured.toSorted((a, b) => relative(a) - relative(b));
  return nearest && { ...nearest, critical: comparable.some(({ row }) => row.written.critical === true) };
}

/** The correction that covers a disagreement: of the same step and row, shown when the words are spoken or before. */
export function correctionOf(shop: Shop, { lesson, step, row, at, caption }: Disagreement): Correction | undefined {
  return shop.corrections.find(
    (each) =>
      each.lesson === lesson.id &&
      each.step === step.id &&
      each.spec === row.id &&
      each.moment <= at + (caption.at.end - caption.at.start),
  );
}
