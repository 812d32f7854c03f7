import { agrees, type Difference, difference, findQuantities, type Hear, type HeardQuantity } from '../heard/index.ts';
import type { Correction, Machine, Shop, Spec } from '../model/index.ts';
import { partsOf } from '../spec/index.ts';
import type { Compared, QuantityInWords } from './in-words.ts';
import { type PassageWords, wordsOfPassages } from './passage-words.ts';
import { rowsOfLesson, whoseRow } from './rows-for.ts';
import { type RowPart, rowsMeant } from './rows-meant.ts';
import { beforeWithdrawal } from './withdrawn.ts';
import { type YearsSaid, yearsSaid } from './years-said.ts';

/** A row that a value in speech disagrees with. */
export interface RowAgainst {
  readonly row: Spec;
  /** How far off the value is from it. */
  readonly difference: Difference;
  /** The machines it concerns, such as `2020–2024`; empty for all. */
  readonly whose: string;
  /** Last day of the former value that the words still say; there where a bulletin made them wrong. */
  readonly heldUntil?: string;
}

/** A quantity said or shown in a passage that disagrees with rows it stands for. */
export interface Disagreement extends QuantityInWords {
  /** Every row of that id that it disagrees with: first what a bulletin changed, then the nearest. */
  readonly rows: readonly [RowAgainst, ...RowAgainst[]];
  /** True where a wrong value here can hurt someone. */
  readonly critical: boolean;
}

/** Several rules ask the same of one shop, and listening to its recordings takes most of a check. */
const known = new WeakMap<Compared, readonly Disagreement[]>();

/**
 * Every quantity that is said or shown while a lesson is on and disagrees with a row it stands for; also where it
 * agrees with another row of the same id, since that one holds for other machines. Worked out once for a shop.
 */
export function disagreements(shop: Compared): readonly Disagreement[] {
  const found = known.get(shop) ?? listen(shop);
  known.set(shop, found);
  return found;
}

function listen(shop: Compared): readonly Disagreement[] {
  return shop.lessons.flatMap((lesson) => {
    const recording = shop.recordings.find(({ id }) => id === lesson.recording);
    const machine = shop.machines.find(({ id }) => id === lesson.machine);
    if (!recording || !machine) return [];
    // What was withdrawn is still what the words mean; it is told by itself, since no value can be held against it.
    const rows = rowsOfLesson(machine, lesson).map(beforeWithdrawal);
    return wordsOfPassages(lesson, recording)
      .flatMap((words) => inPassage(words, rows, machine, shop.hear).map((found) => ({ lesson, recording, ...found })))
      .toSorted((a, b) => a.at - b.at);
  });
}

function inPassage(
  { chapter, passage, how, text, parts }: PassageWords,
  rows: readonly Spec[],
  machine: Machine,
  hear: Hear = findQuantities,
): Omit<Disagreement, 'lesson' | 'recording'>[] {
  const cited = new Set(passage.cites.map(({ spec }) => spec));
  const all = hear(text);
  return all.flatMap((heard) => {
    const words = parts.findLast(({ start }) => start <= heard.start)?.words;
    const meant = rowsMeant(heard, sentenceAt(text, heard), cited, rows);
    const wrong = against(heard, text, all, meant, machine);
    return words && wrong ? [{ chapter, passage, how, heard, words, at: words.at.start, ...wrong }] : [];
  });
}

/** The sentence that a value stands in. */
function sentenceAt(text: string, { start, end }: HeardQuantity): string {
  const before = Math.max(...['. ', '? ', '! '].map((mark) => text.lastIndexOf(mark, start)));
  const after = text.slice(end).search(/[.?!](\s|$)/);
  return text.slice(Math.max(0, before), after === -1 ? undefined : end + after);
}

/**
 * Kinds of which a number that fits no row at all is wrong, whatever it was said of: a torque is always set. Lengths
 * and times are said of anything.
 */
const ALWAYS_SET = new Set(['torque', 'pressure']);

function against(
  heard: HeardQuantity,
  text: string,
  all: readonly HeardQuantity[],
  { byId, meant }: ReturnType<typeof rowsMeant>,
  machine: Machine,
): Pick<Disagreement, 'spec' | 'rows' | 'critical'> | undefined {
  const groups = [...byId.values()].map((own) => rowsOf(own, heard));
  if (!meant && !ALWAYS_SET.has(heard.kind)) return undefined;
  const partly = groups.filter(({ right }) => right.length > 0);
  if (!meant && partly.length > 0) return undefined;
  // A row that another value of the passage agrees with was told to those it concerns; and one that another value is
  // meant for and misses is told with that value. Not so a row for the very years that this value is said for.
  const years = partly.length > 0 ? yearsSaid(text, heard, all) : undefined;
  const others = all.filter((other) => other !== heard && other.kind === heard.kind);
  const uncovered = partly.map(({ right, wrong }) =>
    wrong.filter(
      ({ row, part }) =>
        isSaidFor(row, years) ||
        !others.some((other) => agrees(other, part) || ![...right, ...wrong].some((each) => agrees(other, each.part))),
    ),
  );
  if (partly.length > 0 && uncovered.some((wrong) => wrong.length === 0)) return undefined;
  const told = (partly.length > 0 ? uncovered : groups.map(({ wrong }) => wrong)).map((wrong) =>
    wrong.flatMap((each) => rowAgainst(heard, each, machine)).toSorted(changedFirst),
  );
  const [nearest] = told.toSorted((a, b) => relative(a[0]) - relative(b[0]));
  const [first, ...further] = nearest ?? [];
  if (!first) return undefined;
  const weighed =
    partly.length > 0
      ? [first, ...further].map(({ row }) => row)
      : groups.flatMap(({ wrong }) => wrong.map(({ row }) => row));
  const critical = weighed.some(({ written }) => written.critical === true);
  return { spec: first.row.id, rows: [first, ...further], critical };
}

/** True where a value is said for all the years of a row. */
function isSaidFor({ years }: Spec, said: YearsSaid | undefined): boolean {
  return said !== undefined && years.from >= said.from && (years.to ?? Infinity) <= said.to;
}

/** The rows of one id that a value agrees with, by some part of theirs, and those it does not. */
function rowsOf(own: readonly RowPart[], heard: HeardQuantity): { right: RowPart[]; wrong: RowPart[] } {
  const right = own.filter(({ part }) => agrees(heard, part));
  const agreed = new Set(right.map(({ row }) => row));
  return { right, wrong: own.filter(({ row }) => !agreed.has(row)) };
}

function rowAgainst(heard: HeardQuantity, { row, part }: RowPart, machine: Machine): RowAgainst[] {
  const off = difference(heard, part);
  if (!off || row.written.withdrawn) return [];
  const held = row.former.find(({ quantity }) => quantity && partsOf(quantity).some((old) => agrees(heard, old)));
  return [
    {
      row,
      difference: off,
      whose: whoseRow(
        machine,
        row,
        machine.specs.filter(({ id }) => id === row.id),
      ),
      ...(held ? { heldUntil: held.until } : {}),
    },
  ];
}

/** What the words said rightly until a bulletin, the latest first; then by how far off. */
function changedFirst(a: RowAgainst, b: RowAgainst): number {
  const [x, y] = [a.heldUntil ?? '', b.heldUntil ?? ''];
  return x === y ? relative(a) - relative(b) : x < y ? 1 : -1;
}

function relative(against: RowAgainst | undefined): number {
  if (!against) return Infinity;
  const { off, part } = against.difference;
  return Math.abs(off) / (part.amount.nominal ?? part.amount.max ?? part.amount.min ?? 1);
}

/** The correction that covers a disagreement: of the same step and rows, shown when the words are or before. */
export function correctionOf(
  shop: Pick<Shop, 'corrections'>,
  { lesson, passage, spec, words }: Disagreement,
): Correction | undefined {
  return shop.corrections.find(
    (each) =>
      each.lesson === lesson.id && each.step === passage.id && each.spec === spec && each.moment <= words.at.end,
  );
}
