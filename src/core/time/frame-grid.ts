import { FRAME_RATES, type FrameRate } from './frame-rate.ts';
import { type Clock, type Range, TICKS_PER_SECOND, type Ticks, ticks } from './ticks.ts';

/** Thousandths, as times are written, cannot say where most pictures begin: within one of a start is on it. */
export const ROUNDING_TICKS = TICKS_PER_SECOND / 1000;

/** The moments where a picture begins: what cues and points snap to. */
export interface FrameGrid<C extends Clock> {
  /** The start of the picture shown at a moment; before the first picture, the first. */
  down(moment: number): Ticks<C>;
  /** The first start at or after a moment: where a range that includes it may end. */
  up(moment: number): Ticks<C>;
  /** The nearer of the two; half-way goes up. */
  nearest(moment: number): Ticks<C>;
  /** As `down`, for a moment as it is written: up to a millisecond before a picture counts as in it. */
  shown(moment: number): Ticks<C>;
  /** As `up`, for an end as it is written: up to a millisecond into a picture does not let it in. */
  ended(moment: number): Ticks<C>;
  /** The start of the picture so many pictures on from the one that `shown` gives; held at the first and the end. */
  step(moment: number, count: number): Ticks<C>;
}

/** One grid a rate, so that two readings of a recording are equal. */
const EVEN = new WeakMap<FrameRate, FrameGrid<'recording'>>();

/** The grid of a constant frame rate, from the start of the clock on. */
export function evenGrid(rate: FrameRate): FrameGrid<'recording'> {
  const known = EVEN.get(rate);
  if (known) return known;
  const frame = rate.ticksPerFrame;
  const made = grid<'recording'>(
    (moment) => ticks(Math.max(0, Math.floor(moment / frame) * frame)),
    (moment) => ticks(Math.max(0, Math.ceil(moment / frame) * frame)),
    (start, count) => ticks(Math.max(0, start + count * frame)),
  );
  EVEN.set(rate, made);
  return made;
}

/** The grid of a recording: as measured where its pictures are uneven, else of its rate, or of 25 a second where none is known. */
export function gridOf({ rate, grid }: { readonly rate?: FrameRate; readonly grid?: FrameGrid<'recording'> }) {
  return grid ?? evenGrid(rate ?? FRAME_RATES['25']);
}

/**
 * The grid of real presentation times, as a phone with a variable frame rate writes them.
 *
 *     pictures    |a  |b|c      |d |        each lasts until the next one begins
 *     moment             ^                  down: start of c · up: start of d
 *
 * @param times start of each picture, in order, ticks; no two the same
 * @param end where the last picture ends, ticks
 * @throws RangeError when there is no picture, or the times are not in order
 */
export function measuredGrid<C extends Clock>(times: readonly Ticks<C>[], end: Ticks<C>): FrameGrid<C> {
  const [first] = times;
  if (first === undefined) throw new RangeError('no presentation times: a grid needs at least one picture');
  const edges = [...times, end];
  const wrong = edges.findIndex((edge, i) => i > 0 && edge <= (edges[i - 1] ?? edge));
  if (wrong > 0) throw new RangeError(`presentation time ${wrong} does not come after the one before it`);
  const countPassed = (moment: number): number => {
    let low = 0;
    let high = edges.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((edges[middle] ?? end) <= moment) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return grid(
    (moment) => edges[countPassed(moment) - 1] ?? first,
    (moment) => {
      const at = countPassed(moment);
      const down = edges[at - 1];
      return down === moment ? down : (edges[at] ?? end);
    },
    (start, count) => edges[Math.min(Math.max(0, countPassed(start) - 1 + count), edges.length - 1)] ?? first,
  );
}

function grid<C extends Clock>(
  down: (moment: number) => Ticks<C>,
  up: (moment: number) => Ticks<C>,
  onFrom: (start: Ticks<C>, count: number) => Ticks<C>,
): FrameGrid<C> {
  const nearest = (moment: number) => (moment - down(moment) < up(moment) - moment ? down(moment) : up(moment));
  const shown = (moment: number) => down(moment + ROUNDING_TICKS);
  const ended = (moment: number) => up(moment - ROUNDING_TICKS);
  return { down, up, nearest, shown, ended, step: (moment, count) => onFrom(shown(moment), count) };
}

/** A camera file on the recording's clock, with the start of each of its pictures where they were measured. */
export interface FilmedSpan {
  readonly span: Range<'recording'>;
  /** Ticks from the file's first picture, in order; left out where pictures follow each other evenly. */
  readonly pictures?: readonly number[];
  /** Ticks from picture to picture where they do. */
  readonly frame: number;
}

/**
 * The grid of a recording of several camera files, of which some have an uneven frame rate.
 *
 *     files       |a  |b|c      |        |d    |e    |f    |
 *     grid        |   | |       |        |     |     |     |     a gap counts as a picture of its own
 *
 * @returns nothing where no file was measured: the grid of the rate is then the grid of the recording
 */
export function filmedGrid(files: readonly FilmedSpan[]): FrameGrid<'recording'> | undefined {
  const filmed = files.filter(({ span }) => span.end > span.start);
  const last = filmed.at(-1)?.span.end;
  if (last === undefined || filmed.every(({ pictures }) => pictures === undefined)) return undefined;
  const edges: Ticks<'recording'>[] = [];
  const add = (moment: number) => {
    if (moment > (edges.at(-1) ?? -1) && moment < last) edges.push(ticks(moment));
  };
  if ((filmed[0]?.span.start ?? 0) > 0) add(0);
  for (const { span, pictures, frame } of filmed) {
    if (pictures) for (const picture of pictures) if (span.start + picture < span.end) add(span.start + picture);
    if (!pictures) for (let at: number = span.start; at < span.end; at += frame) add(at);
    add(span.end);
  }
  return measuredGrid(edges, last);
}
