import type { Recording } from '../model/index.ts';
import { type EditList, type Range, TICKS_PER_SECOND, type Ticks, ticks, withPoints } from '../time/index.ts';
import type { Plain } from '../write/index.ts';
import { type Labels, writeMoment } from './moments.ts';

type Moment = Ticks<'recording'>;

const MILLISECOND = TICKS_PER_SECOND / 1000;

/** How entries are written: points that were not moved as they stand in the file. */
export function entryTexts(list: EditList, { rate }: Pick<Recording, 'rate'>, labels: Labels): Plain[] {
  const used = rate && labels;
  const like = list.flatMap(({ inText, outText }) => [inText, outText]).find((text) => text !== undefined);
  return list.map(({ start, end, angle, inText, outText }) => ({
    in: inText ?? writeMoment(start, 'start', used, like),
    out: outText ?? writeMoment(end, 'end', used, like),
    ...(angle !== undefined && { angle }),
  }));
}

/**
 * Without what no text can say: a rest of the last frame, of which no whole thousandth of a second is left before the
 * recording ends.
 */
export function writable(list: EditList): EditList {
  return list.filter(({ start, end }) => Math.floor(end / MILLISECOND) > Math.ceil(start / MILLISECOND));
}

/** One end of one entry. */
export interface Edge {
  readonly entry: number;
  readonly point: 'in' | 'out';
  readonly at: Moment;
}

/** Every end of every entry, in order. */
export function edgesOf(list: EditList): Edge[] {
  return list.flatMap(({ start, end }, entry) => [
    { entry, point: 'in' as const, at: start },
    { entry, point: 'out' as const, at: end },
  ]);
}

/** The edge nearest to a moment; the later one of two as near, because that is where the programme goes on. */
export function nearestEdge(list: EditList, to: Moment): Edge | undefined {
  return edgesOf(list).reduce<Edge | undefined>(
    (best, edge) => (!best || Math.abs(edge.at - to) <= Math.abs(best.at - to) ? edge : best),
    undefined,
  );
}

/** How far an edge can go: to its neighbours, and a frame at least from the other end of its own entry. */
export function roomOf(list: EditList, { entry, point }: Edge, length: Moment, { grid }: Labels): Range<'recording'> {
  const kept = list[entry];
  const lowest = point === 'in' ? (list[entry - 1]?.end ?? 0) : grid.step(kept?.start ?? 0, 1);
  const highest = point === 'in' ? lastFrame(kept?.end ?? length, grid) : (list[entry + 1]?.start ?? length);
  return { start: ticks(lowest), end: ticks(Math.max(lowest, highest)) };
}

/** The start of the last frame before an end. */
function lastFrame(end: Moment, grid: Labels['grid']): Moment {
  return grid.down(Math.max(0, end - 1));
}

/** Moves one end of one entry. */
export function withEdge(list: EditList, { entry, point }: Edge, at: Moment): EditList {
  return list.map((kept, i) => {
    if (i !== entry) return kept;
    return point === 'in' ? withPoints(kept, at, kept.end) : withPoints(kept, kept.start, at);
  });
}

/** True where both lists keep the same frames in the same angles. */
export function sameFrames(a: EditList, b: EditList, { grid }: Labels): boolean {
  const near = (moment: Moment) => grid.nearest(moment);
  return (
    a.length === b.length &&
    a.every((kept, i) => {
      const other = b[i];
      return (
        other !== undefined &&
        near(kept.start) === near(other.start) &&
        near(kept.end) === near(other.end) &&
        kept.angle === other.angle
      );
    })
  );
}
