import { type Range, range, type Ticks, ticks } from './ticks.ts';

/** The ranges of a recording that stay in the programme: in order, apart, none empty. */
export type EditList = readonly Range<'recording'>[];

/** Where a moment of the recording lies in the programme. */
export interface Placed {
  readonly at: Ticks<'programme'>;
  /** The removed range the moment fell in; absent when it was kept. */
  readonly cut?: Range<'recording'>;
}

/**
 * An edit list from any ranges: sorted, touching and overlapping ones joined, empty ones left out.
 */
export function editList(ranges: readonly Range<'recording'>[]): EditList {
  const sorted = ranges.filter((r) => r.end > r.start).toSorted((a, b) => a.start - b.start);
  const joined: Range<'recording'>[] = [];
  for (const next of sorted) {
    const last = joined.at(-1);
    if (last && next.start <= last.end) joined[joined.length - 1] = range(last.start, later(last.end, next.end));
    else joined.push(next);
  }
  return joined;
}

function later(a: Ticks<'recording'>, b: Ticks<'recording'>): Ticks<'recording'> {
  return a > b ? a : b;
}

/** Length of the programme, ticks. */
export function runtime(edit: EditList): number {
  return edit.reduce((sum, kept) => sum + (kept.end - kept.start), 0);
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
 * Where a moment of the recording lies in the programme.
 *
 *     recording   |--keep--|xxcutxx|--keep--|
 *                      a       b        c
 *     programme   |--keep--|--keep--|
 *                      a   b     c            b comes back with `cut`
 *
 * @param moment recording ticks; past the last range it counts as cut
 * @returns programme ticks, and the removed range it fell in; never throws
 */
export function toProgramme(edit: EditList, moment: Ticks<'recording'>): Placed {
  let before = 0;
  let from = ticks<'recording'>(0);
  for (const kept of edit) {
    if (moment < kept.start) return { at: ticks(before), cut: range(from, kept.start) };
    if (moment < kept.end) return { at: ticks(before + (moment - kept.start)) };
    before += kept.end - kept.start;
    from = kept.end;
  }
  const open = ticks<'recording'>(Number.MAX_SAFE_INTEGER);
  return { at: ticks(before), cut: range(from, open) };
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
  let left: number = moment;
  for (const kept of edit) {
    const length = kept.end - kept.start;
    if (leaning === 'after' ? left < length : left <= length) return ticks(kept.start + Math.max(0, left));
    left -= length;
  }
  return edit.at(-1)?.end ?? ticks(0);
}

/**
 * The pieces of a recording range that stay, in programme time, in order; touching pieces are not joined,
 * so that each is one continuous run of the recording.
 */
export function rangeToProgramme(edit: EditList, wanted: Range<'recording'>): Range<'programme'>[] {
  const pieces: Range<'programme'>[] = [];
  let before = 0;
  for (const kept of edit) {
    const start = Math.max(kept.start, wanted.start);
    const end = Math.min(kept.end, wanted.end);
    if (start < end) pieces.push(range(ticks(before + start - kept.start), ticks(before + end - kept.start)));
    before += kept.end - kept.start;
  }
  return pieces;
}
