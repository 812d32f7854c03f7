import type { Recording } from '../model/index.ts';
import { parseMoment, type Range, type Ticks, ticks } from '../time/index.ts';
import { type Labels, labelsOf, writeMoment } from './moments.ts';

type Moment = Ticks<'recording'>;

/** An entry of the edit list as written. */
export type EntryText = { readonly in: string; readonly out: string; readonly angle?: string };

/** One point of the edit list; `as` is how the file writes it, absent once it was moved. */
export interface EditPoint {
  readonly at: Moment;
  readonly as?: string;
}

/** One entry of the edit list, with the angle it shows. */
export interface Kept {
  readonly in: EditPoint;
  readonly out: EditPoint;
  readonly angle?: string | undefined;
}

/**
 * The entries of a recording's edit list as written, in order; without a list one entry, the whole recording.
 * What cannot be read, or ends before it starts, is left out: a diagnostic has told it.
 */
export function keptOf(recording: Recording): Kept[] {
  if (!recording.written.edit) return recording.length ? [whole(recording.length)] : [];
  const read = recording.written.edit
    .flatMap((entry): Kept[] => {
      const start = parseMoment(entry.in, recording);
      const end = parseMoment(entry.out, recording, 'end');
      if (!start.ok || !end.ok || end.value <= start.value) return [];
      const [from, to] = wholeFrames(start.value, end.value, recording);
      return [{ in: { at: from, as: entry.in }, out: { at: to, as: entry.out }, angle: entry.angle }];
    })
    .toSorted((a, b) => a.in.at - b.in.at);
  // Where one entry ends in the frame in which the next begins, the frame belongs to the next.
  return read.map((kept, i) => {
    const next = read[i + 1]?.in.at;
    return next !== undefined && next < kept.out.at && next > kept.in.at
      ? { ...kept, out: { ...kept.out, at: next } }
      : kept;
  });
}

/** In points down to their frame, out points up, so that nothing that was kept is lost; a hair beside a frame is on it. */
function wholeFrames(start: Moment, end: Moment, recording: Recording): readonly [Moment, Moment] {
  const { rate, grid: measured, length } = recording;
  if (!rate && !measured) return [start, end];
  const { grid } = labelsOf(recording);
  const down = grid.shown(start);
  const up = grid.ended(end);
  // The last frame may be cut short by the end of the recording.
  const held = length !== undefined && end <= length ? Math.min(up, length) : up;
  return [ticks(down), ticks(Math.max(held, down + 1))];
}

function whole(length: Moment): Kept {
  return { in: { at: ticks(0) }, out: { at: length } };
}

/** How entries are written: points that were not moved as they stand in the file. */
export function entryTexts(list: readonly Kept[], labels: Labels | undefined): EntryText[] {
  const like = list.flatMap((kept) => [kept.in.as, kept.out.as]).find((text) => text !== undefined) ?? '';
  return list.map((kept) => ({
    in: kept.in.as ?? writeMoment(kept.in.at, 'start', labels, like),
    out: kept.out.as ?? writeMoment(kept.out.at, 'end', labels, like),
    ...(kept.angle === undefined ? {} : { angle: kept.angle }),
  }));
}

/** Takes a range of the recording out. */
export function cutRange(list: readonly Kept[], { start, end }: Range<'recording'>): Kept[] {
  return list.flatMap((kept) => {
    if (end <= kept.in.at || kept.out.at <= start) return [kept];
    return [
      ...(kept.in.at < start ? [{ ...kept, out: { at: start } }] : []),
      ...(end < kept.out.at ? [{ ...kept, in: { at: end } }] : []),
    ];
  });
}

/** Shows a range by another camera; an entry that reaches beyond it is split there, pieces of one angle that meet join. */
export function withAngle(list: readonly Kept[], wanted: Range<'recording'>, angle: string | undefined): Kept[] {
  const { start, end } = wanted;
  const pieces = list.flatMap((kept) => {
    if (end <= kept.in.at || kept.out.at <= start) return [{ kept, fresh: false }];
    const from = kept.in.at < start ? { at: start } : kept.in;
    const to = end < kept.out.at ? { at: end } : kept.out;
    return [
      ...(from === kept.in ? [] : [{ kept: { ...kept, out: from }, fresh: true }]),
      { kept: { in: from, out: to, angle }, fresh: true },
      ...(to === kept.out ? [] : [{ kept: { ...kept, in: to }, fresh: true }]),
    ];
  });
  return joined(pieces);
}

/** Puts a range of the recording back; a piece that fills the gap between two entries of one angle makes them one. */
export function keepRange(list: readonly Kept[], wanted: Range<'recording'>): Kept[] {
  const gaps = gapsIn(list, wanted).map(({ start, end }) => ({
    kept: {
      in: { at: start },
      out: { at: end },
      angle: (list.find(({ out }) => out.at === start) ?? list.find((kept) => kept.in.at === end))?.angle,
    },
    fresh: true,
  }));
  const row = [...list.map((kept) => ({ kept, fresh: false })), ...gaps].toSorted(
    (a, b) => a.kept.in.at - b.kept.in.at,
  );
  return joined(row);
}

/** Makes entries one that meet in one angle, where one of the two is fresh; what a person wrote apart stays apart. */
function joined(row: readonly { readonly kept: Kept; readonly fresh: boolean }[]): Kept[] {
  const out: { kept: Kept; fresh: boolean }[] = [];
  for (const next of row) {
    const last = out.at(-1);
    const meets = last && last.kept.out.at === next.kept.in.at && last.kept.angle === next.kept.angle;
    if (meets && (last.fresh || next.fresh))
      out[out.length - 1] = { kept: { ...last.kept, out: next.kept.out }, fresh: true };
    else out.push(next);
  }
  return out.map(({ kept }) => kept);
}

/** The pieces of a range that are not kept. */
function gapsIn(list: readonly Kept[], wanted: Range<'recording'>): Range<'recording'>[] {
  const gaps: Range<'recording'>[] = [];
  let from = wanted.start;
  for (const kept of list) {
    if (kept.in.at > from && from < wanted.end)
      gaps.push({ start: from, end: kept.in.at < wanted.end ? kept.in.at : wanted.end });
    if (kept.out.at > from) from = kept.out.at;
  }
  if (from < wanted.end) gaps.push({ start: from, end: wanted.end });
  return gaps;
}

/** One end of one entry. */
export interface Edge {
  readonly entry: number;
  readonly point: 'in' | 'out';
  readonly at: Moment;
}

/** Every end of every entry, in order. */
export function edgesOf(list: readonly Kept[]): Edge[] {
  return list.flatMap((kept, entry) => [
    { entry, point: 'in' as const, at: kept.in.at },
    { entry, point: 'out' as const, at: kept.out.at },
  ]);
}

/** The edge nearest to a moment; the later one of two as near, because that is where the programme goes on. */
export function nearestEdge(list: readonly Kept[], to: Moment): Edge | undefined {
  return edgesOf(list).reduce<Edge | undefined>(
    (best, edge) => (!best || Math.abs(edge.at - to) <= Math.abs(best.at - to) ? edge : best),
    undefined,
  );
}

/** How far an edge can go: to its neighbours, and a frame at least from the other end of its own entry. */
export function roomOf(
  list: readonly Kept[],
  { entry, point }: Edge,
  length: Moment,
  { grid }: Labels,
): Range<'recording'> {
  const kept = list[entry];
  const lowest = point === 'in' ? (list[entry - 1]?.out.at ?? 0) : grid.step(kept?.in.at ?? 0, 1);
  const highest = point === 'in' ? lastFrame(kept?.out.at ?? length, grid) : (list[entry + 1]?.in.at ?? length);
  return { start: ticks(lowest), end: ticks(Math.max(lowest, highest)) };
}

/** The start of the last frame before an end. */
function lastFrame(end: Moment, grid: Labels['grid']): Moment {
  return grid.down(Math.max(0, end - 1));
}

/** Moves one end of one entry. */
export function withEdge(list: readonly Kept[], { entry, point }: Edge, at: Moment): Kept[] {
  return list.map((kept, i) => (i === entry ? { ...kept, [point]: { at } } : kept));
}

/** True where both lists keep the same frames in the same angles. */
export function sameFrames(a: readonly Kept[], b: readonly Kept[], { grid }: Labels): boolean {
  const near = (moment: Moment) => grid.nearest(moment);
  return (
    a.length === b.length &&
    a.every((kept, i) => {
      const other = b[i];
      return (
        other !== undefined &&
        near(kept.in.at) === near(other.in.at) &&
        near(kept.out.at) === near(other.out.at) &&
        kept.angle === other.angle
      );
    })
  );
}
