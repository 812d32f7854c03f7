import {
  agrees,
  type Difference,
  difference,
  findQuantities,
  type HeardQuantity,
  isComparable,
} from '../heard/index.ts';
import type { Chapter, Correction, Lesson, Machine, Recording, Shop, Spec, Step, Utterance } from '../model/index.ts';
import { partsOf } from '../spec/index.ts';
import { contains, type Range, rangeToProgramme, type Ticks, toProgramme } from '../time/index.ts';
import { lessonTimes } from './lesson-times.ts';
import { rowsCited } from './rows-for.ts';

/** A quantity said or shown within a step that no row the step cites agrees with. */
export interface Disagreement {
  readonly lesson: Lesson;
  readonly chapter: Chapter;
  readonly step: Step;
  readonly recording: Recording;
  readonly heard: HeardQuantity;
  readonly how: 'said' | 'shown';
  /** The caption, or what was written down of the picture. */
  readonly words: Utterance;
  /** When they begin. */
  readonly at: Ticks<'recording'>;
  /** The row nearest to what was said, and how far off it is. */
  readonly row: Spec;
  readonly difference: Difference;
  /** True where a row it could stand for is marked so. */
  readonly critical: boolean;
}

/** A step's words as one text, each part with where it starts in it. */
interface Words {
  readonly how: Disagreement['how'];
  readonly text: string;
  readonly parts: readonly { readonly words: Utterance; readonly start: number }[];
}

/**
 * Every quantity that is said or shown and disagrees with every row of its kind that its step cites. What was cut is
 * neither heard nor seen.
 */
export function disagreements(shop: Shop): readonly Disagreement[] {
  return shop.lessons.flatMap((lesson) => {
    const recording = shop.recordings.find(({ id }) => id === lesson.recording);
    const machine = shop.machines.find(({ id }) => id === lesson.machine);
    return recording && machine ? ofLesson(lesson, recording, machine) : [];
  });
}

function ofLesson(lesson: Lesson, recording: Recording, machine: Machine): Disagreement[] {
  return lessonTimes(lesson, recording).chapters.flatMap(({ chapter, steps }) =>
    steps.flatMap(({ step, recording: within }) => {
      const rows = rowsCited(lesson, machine, step);
      if (rows.length === 0) return [];
      const found = wordsWithin(recording, within).flatMap(({ how, text, parts }) =>
        findQuantities(text).flatMap((heard) => {
          const wrong = disagreement(heard, rows);
          const words = parts.findLast(({ start }) => start <= heard.start)?.words;
          if (!wrong || !words) return [];
          return [{ lesson, chapter, step, recording, heard, how, words, at: words.at.start, ...wrong }];
        }),
      );
      return found.toSorted((a, b) => a.at - b.at);
    }),
  );
}

/** What is said within a step as one text, since words of a value may stand in two captions; each thing shown alone. */
function wordsWithin({ captions, shows, edit }: Recording, within: Range<'recording'>): Words[] {
  const stays = ({ at }: Utterance) =>
    contains(within, at.start) &&
    (at.end > at.start ? rangeToProgramme(edit, at).length > 0 : !toProgramme(edit, at.start).cut);
  const parts: { words: Utterance; start: number }[] = [];
  let text = '';
  for (const words of captions?.cues.filter(stays) ?? []) {
    parts.push({ words, start: text.length });
    text += `${words.text} `;
  }
  return [
    { how: 'said', text, parts },
    ...shows.filter(stays).map((words): Words => ({ how: 'shown', text: words.text, parts: [{ words, start: 0 }] })),
  ];
}

function disagreement(
  heard: HeardQuantity,
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

/** The correction that covers a disagreement: of the same step and row, shown when the words are or before. */
export function correctionOf(shop: Shop, { lesson, step, row, words }: Disagreement): Correction | undefined {
  return shop.corrections.find(
    (each) => each.lesson === lesson.id && each.step === step.id && each.spec === row.id && each.moment <= words.at.end,
  );
}
