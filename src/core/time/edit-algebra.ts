import { type EditEntry, type EditList, joins, OPEN_END, toRecording } from './edit-list.ts';
import { intersect, later, type Range, type Ticks } from './ticks.ts';

type Moment = Ticks<'recording'>;

/** An entry with other points: its camera stays, and so does the text of a point that was not moved. */
export function withPoints(entry: EditEntry, start: Moment, end: Moment): EditEntry {
  if (start === entry.start && end === entry.end) return entry;
  return {
    start,
    end,
    angle: entry.angle,
    inText: start === entry.start ? entry.inText : undefined,
    outText: end === entry.end ? entry.outText : undefined,
  };
}

/** What both lists keep, as the first says it. */
export function common(a: EditList, b: EditList): EditList {
  const shared: EditEntry[] = [];
  let i = 0;
  let j = 0;
  for (;;) {
    const one = a[i];
    const other = b[j];
    if (!one || !other) return shared;
    const both = intersect(one, other);
    if (both) shared.push(withPoints(one, both.start, both.end));
    if (one.end < other.end) i++;
    else j++;
  }
}

/** What stays within a range of the recording, such as a chapter. */
export function within(edit: EditList, part: Range<'recording'>): EditList {
  return common(edit, [part]);
}

/** What the first list keeps and the second does not: taking ranges out. */
export function without(a: EditList, b: EditList): EditList {
  const left: EditEntry[] = [];
  let j = 0;
  for (const kept of a) {
    let from = kept.start;
    while ((b[j]?.end ?? OPEN_END) <= from) j++;
    for (let k = j; from < kept.end; k++) {
      const other = b[k];
      if (!other || other.start >= kept.end) {
        left.push(withPoints(kept, from, kept.end));
        break;
      }
      // Nothing taken out is no cut.
      if (other.end <= other.start) continue;
      if (other.start > from) left.push(withPoints(kept, from, other.start));
      from = later(from, other.end);
    }
  }
  return left;
}

/**
 * Puts a range of the recording back. A piece that fills a gap is shown by the camera of the entry it follows or, after
 * a cut, of the entry it leads to, and becomes one with what it meets.
 */
export function putBack(edit: EditList, wanted: Range<'recording'>): EditList {
  const pieces = without([wanted], edit).map(({ start, end }): EditEntry => {
    const neighbour = edit.find((kept) => kept.end === start) ?? edit.find((kept) => kept.start === end);
    return { start, end, angle: neighbour?.angle };
  });
  return joinMeeting([...edit, ...pieces], edit);
}

/** Shows what is kept of a range by another camera; an entry that reaches beyond the range is split there. */
export function showBy(edit: EditList, wanted: Range<'recording'>, angle: string | undefined): EditList {
  const shown = within(edit, wanted).map((entry) => ({ ...entry, angle }));
  return joinMeeting([...without(edit, [wanted]), ...shown], edit);
}

/** Entries that do not overlap: what two share belongs to the one that begins later. */
export function withoutOverlaps(entries: EditList): EditList {
  return entries.map((entry, i) => {
    const next = entries[i + 1];
    return next && entry.start < next.start && next.start < entry.end ? { ...entry, end: next.start } : entry;
  });
}

/** Makes entries one that meet in one camera, where one of the two is new; what was apart before stays apart. */
function joinMeeting(entries: EditList, before: EditList): EditList {
  const old = new Set(before);
  const row: EditEntry[] = [];
  for (const next of entries.toSorted((a, b) => a.start - b.start)) {
    const last = row.at(-1);
    const meets = last && last.end === next.start && last.angle === next.angle;
    if (meets && !(old.has(last) && old.has(next)))
      row[row.length - 1] = { ...last, end: next.end, outText: next.outText };
    else row.push(next);
  }
  return row;
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
