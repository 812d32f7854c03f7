import { must } from './must.ts';
import { intersect, later, type Range, range, type Ticks, ticks } from './ticks.ts';

/** A range of a recording that stays. As a file writes it, it may name a camera and carry its points' texts. */
export interface EditEntry extends Range<'recording'> {
  /** The further camera that it is shown by; the recording's own camera files without. */
  readonly angle?: string | undefined;
  /** How the file writes the points; absent once a point was moved. */
  readonly inText?: string | undefined;
  readonly outText?: string | undefined;
}

/**
 * What stays of a recording in the programme: in order, not overlapping, none empty. Never changed in place.
 * Entries as written may meet; `editList` makes those one that meet.
 */
export type EditList = readonly EditEntry[];

/** Where a moment of the recording lies in the programme. */
export interface ProgrammeMoment {
  readonly at: Ticks<'programme'>;
  /** The removed range the moment fell in; absent when it was kept. */
  readonly cut?: Range<'recording'>;
}

/** The end of what is cut after the last kept range: the recording may go on, the list does not know how far. */
export const OPEN_END: Ticks<'recording'> = ticks(Number.MAX_SAFE_INTEGER);

/** An edit list from any ranges: sorted, touching and overlapping ones joined, empty ones left out; ranges alone. */
export function editList(ranges: readonly Range<'recording'>[]): EditList {
  const sorted = ranges.filter((r) => r.end > r.start).toSorted((a, b) => a.start - b.start);
  const joined: Range<'recording'>[] = [];
  for (const next of sorted) {
    const last = joined.at(-1);
    if (last && next.start <= last.end) joined[joined.length - 1] = range(last.start, later(last.end, next.end));
    else joined.push(range(next.start, next.end));
  }
  return joined;
}

/** What looking moments up needs of a list, in arrays that are quick to search. */
interface Lookup {
  /** Recording time where each kept range starts. */
  readonly starts: Float64Array;
  /** Programme time before each kept range, and the whole at the end. */
  readonly before: Float64Array;
}

const BEFORE = 'the programme time before a range';

/** Remembered for as long as the list lives. */
const lookups = new WeakMap<EditList, Lookup>();

function lookup(edit: EditList): Lookup {
  const known = lookups.get(edit);
  if (known) return known;
  const made: Lookup = { starts: new Float64Array(edit.length), before: new Float64Array(edit.length + 1) };
  edit.forEach((kept, i) => {
    made.starts[i] = kept.start;
    made.before[i + 1] = must(made.before[i], BEFORE) + (kept.end - kept.start);
  });
  lookups.set(edit, made);
  return made;
}

/** How many of the ordered numbers are at most `value`. */
function countUpTo(ordered: Float64Array, value: number): number {
  let low = 0;
  let high = ordered.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (must(ordered[middle], 'a number of the row') <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Length of the programme, ticks. */
export function runtime(edit: EditList): number {
  return must(lookup(edit).before[edit.length], 'the end of the programme');
}

/** What was cut from a recording of this length: before, between and after the kept ranges. */
export function invert(edit: EditList, length: Ticks<'recording'>): EditList {
  const cuts: Range<'recording'>[] = [];
  let from = ticks<'recording'>(0);
  for (const kept of edit) {
    if (kept.start > from) cuts.push(range(from, kept.start));
    from = later(from, kept.end);
  }
  if (length > from) cuts.push(range(from, length));
  return cuts;
}

/**
 * Where a moment of the recording lies in the programme; looked up in steps that double, so that a long list
 * costs little more than a short one.
 *
 *     recording   |--keep--|xxcutxx|--keep--|
 *                      a       b        c
 *     programme   |--keep--|--keep--|
 *                      a   b     c            b comes back with `cut`
 *
 * @param moment recording ticks; past the last range it counts as cut
 * @returns programme ticks, and the removed range it fell in; never throws
 */
export function toProgramme(edit: EditList, moment: Ticks<'recording'>): ProgrammeMoment {
  const { starts, before } = lookup(edit);
  const begun = countUpTo(starts, moment);
  const last = edit[begun - 1];
  if (last && moment < last.end) return { at: ticks(must(before[begun - 1], BEFORE) + (moment - last.start)) };
  const from = last?.end ?? ticks<'recording'>(0);
  return { at: ticks(must(before[begun], BEFORE)), cut: { start: from, end: edit[begun]?.start ?? OPEN_END } };
}

/**
 * Where a moment of the programme comes from.
 *
 * @param moment programme ticks; before the start and past the end it stays at that edge
 * @param leaning at a join, `after` is the frame that comes (a start), `before` the one that went (an end)
 * @returns recording ticks; 0 where the programme is empty
 */
export function toRecording(
  edit: EditList,
  moment: Ticks<'programme'>,
  leaning: 'before' | 'after',
): Ticks<'recording'> {
  const { before } = lookup(edit);
  // The first entry is the programme's start, which no range ends at.
  const past = Math.max(0, countUpTo(before, leaning === 'after' ? moment : moment - 1) - 1);
  const kept = edit[past];
  if (!kept) return edit.at(-1)?.end ?? ticks(0);
  return ticks(kept.start + Math.max(0, moment - must(before[past], BEFORE)));
}

/**
 * The pieces of a recording range that stay, in programme time, in order; touching pieces are not joined,
 * so that each is one continuous run of the recording.
 */
export function rangeToProgramme(edit: EditList, wanted: Range<'recording'>): Range<'programme'>[] {
  const { starts, before } = lookup(edit);
  const pieces: Range<'programme'>[] = [];
  for (let i = Math.max(0, countUpTo(starts, wanted.start) - 1); ; i++) {
    const kept = edit[i];
    if (!kept || kept.start >= wanted.end) return pieces;
    const stays = intersect(kept, wanted);
    const offset = must(before[i], BEFORE) - kept.start;
    if (stays) pieces.push(range(ticks(offset + stays.start), ticks(offset + stays.end)));
  }
}

/** The runs of the recording that a range of the programme is made of, in order, cut at every join. */
export function rangeToRecording(edit: EditList, wanted: Range<'programme'>): Range<'recording'>[] {
  const { before } = lookup(edit);
  const pieces: Range<'recording'>[] = [];
  for (let i = Math.max(0, countUpTo(before, wanted.start) - 1); ; i++) {
    const kept = edit[i];
    const offset = must(before[i], BEFORE);
    if (!kept || offset >= wanted.end) return pieces;
    const start = Math.max(kept.start, kept.start + wanted.start - offset);
    const end = Math.min(kept.end, kept.start + wanted.end - offset);
    if (start < end) pieces.push(range(ticks(start), ticks(end)));
  }
}

/** The moments of the programme where one kept range ends and the next begins. */
export function joins(edit: EditList): Ticks<'programme'>[] {
  return Array.from(lookup(edit).before.slice(1, -1), (at) => ticks<'programme'>(at));
}
