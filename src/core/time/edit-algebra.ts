import { type EditList, editList, joins, OPEN_END, runtime, toProgramme, toRecording } from './edit-list.ts';
import type { FrameGrid } from './frame-grid.ts';
import { intersect, type Range, range, type Ticks, ticks } from './ticks.ts';

const START = ticks<'recording'>(0);

/** What stays after a range of the recording was put (back) in; what is kept already stays as it is. */
export function insert(edit: EditList, wanted: Range<'recording'>): EditList {
  return editList([...edit, wanted]);
}

/** What stays after a range of the recording was taken out. */
export function remove(edit: EditList, unwanted: Range<'recording'>): EditList {
  return without(edit, editList([unwanted]));
}

/** What stays within a range of the recording, such as a chapter. */
export function within(edit: EditList, part: Range<'recording'>): EditList {
  return edit.flatMap((kept) => intersect(kept, part) ?? []);
}

/** What both lists keep. */
export function common(a: EditList, b: EditList): EditList {
  const shared: Range<'recording'>[] = [];
  let i = 0;
  let j = 0;
  for (;;) {
    const one = a[i];
    const other = b[j];
    if (!one || !other) return shared;
    const both = intersect(one, other);
    if (both) shared.push(both);
    if (one.end < other.end) i++;
    else j++;
  }
}

/** What the first list keeps and the second does not. */
export function without(a: EditList, b: EditList): EditList {
  const left: Range<'recording'>[] = [];
  let j = 0;
  for (const kept of a) {
    let from = kept.start;
    while ((b[j]?.end ?? OPEN_END) <= from) j++;
    for (let k = j; from < kept.end; k++) {
      const other = b[k];
      if (!other || other.start >= kept.end) {
        left.push(range(from, kept.end));
        break;
      }
      if (other.start > from) left.push(range(from, other.start));
      from = most(from, other.end);
    }
  }
  return left;
}

/** What is kept before a moment of the recording, and what is kept from it on. */
export function split(edit: EditList, at: Ticks<'recording'>): readonly [EditList, EditList] {
  return [within(edit, { start: START, end: at }), within(edit, { start: at, end: OPEN_END })];
}

/** A kept range with new points, and by how much everything after it moves in the programme. */
export interface Trimmed {
  readonly edit: EditList;
  /** Ticks; positive when what follows comes later. */
  readonly ripple: number;
}

/**
 * Moves the in or out point of one kept range; what follows in the programme moves along.
 *
 * A point stops at the neighbouring ranges and at the start of the recording; moved past its own other point the
 * range is gone.
 *
 *     before     |--a--|xxxx|---b---|xx|--c--|
 *     out of b                     <~~
 *     after      |--a--|xxxx|--b--|xxxx|--c--|     c comes earlier by the way of the out point
 *
 * @param index of the kept range
 * @param to recording ticks
 * @throws RangeError when the list has no such range
 */
export function trim(edit: EditList, index: number, point: 'in' | 'out', to: Ticks<'recording'>): Trimmed {
  const kept = edit[index];
  if (!kept) throw new RangeError(`the edit list has no range ${index}`);
  const lowest = edit[index - 1]?.end ?? START;
  const highest = edit[index + 1]?.start ?? OPEN_END;
  const held = most(lowest, least(to, highest));
  const start = point === 'in' ? held : kept.start;
  const end = point === 'out' ? held : kept.end;
  const changed = editList(edit.toSpliced(index, 1, ...(start < end ? [range(start, end)] : [])));
  return { edit: changed, ripple: runtime(changed) - runtime(edit) };
}

/**
 * Lengthens (or shortens, by a negative length) the programme at one of its moments, as if the tape were pulled
 * there: the out point of the range that plays then moves, and everything after it ripples.
 *
 * @param at programme ticks; a join belongs to the range that ends there
 * @param by ticks
 */
export function ripple(edit: EditList, at: Ticks<'programme'>, by: number): Trimmed {
  const last = toRecording(edit, at, 'before');
  const index = edit.findIndex((kept) => kept.start <= last && last <= kept.end);
  const kept = edit[index];
  if (!kept) return { edit, ripple: 0 };
  return trim(edit, index, 'out', ticks(Math.max(kept.start, kept.end + by)));
}

/** Every range moved along the recording, as when a camera file comes in before the others. */
export function shift(edit: EditList, by: number): EditList {
  return edit.flatMap(({ start, end }) =>
    end + by > 0 ? [range(ticks<'recording'>(Math.max(0, start + by)), ticks<'recording'>(end + by))] : [],
  );
}

/** On whole frames: in points down, out points up, so that nothing that was kept is lost. */
export function snapEdit(edit: EditList, grid: FrameGrid<'recording'>): EditList {
  return editList(edit.map(({ start, end }) => range(grid.down(start), grid.up(end))));
}

/** A programme join with the recording on both sides of it. */
export interface Join {
  readonly at: Ticks<'programme'>;
  readonly cut: Range<'recording'>;
}

/** Every place where the programme jumps over a cut, in order. */
export function jumps(edit: EditList): Join[] {
  return joins(edit).map((at) => ({
    at,
    cut: { start: toRecording(edit, at, 'before'), end: toRecording(edit, at, 'after') },
  }));
}

/** True where any of a recording range stays. */
export function isKept(edit: EditList, wanted: Range<'recording'>): boolean {
  const { cut } = toProgramme(edit, wanted.start);
  return cut === undefined || cut.end < wanted.end;
}

function least(a: Ticks<'recording'>, b: Ticks<'recording'>): Ticks<'recording'> {
  return a < b ? a : b;
}

function most(a: Ticks<'recording'>, b: Ticks<'recording'>): Ticks<'recording'> {
  return a > b ? a : b;
}
