import { TICKS_PER_SECOND, type Ticks, ticks } from '../time/index.ts';

/** What stretch of the recording is seen: its first moment and how many ticks a line (a CSS pixel) holds. */
export interface Scale {
  readonly top: number;
  readonly ticksPerLine: number;
}

/** Closest: a frame at 60 frames a second has at least 24 lines. */
const CLOSEST = TICKS_PER_SECOND / 60 / 24;

export function wholeScale(length: number, lines: number): Scale {
  return { top: 0, ticksPerLine: Math.max(CLOSEST, length / Math.max(1, lines)) };
}

/** Line of a moment. */
export function lineOf({ top, ticksPerLine }: Scale, moment: number): number {
  return (moment - top) / ticksPerLine;
}

/** Moment of a line, within the recording. */
export function momentAt({ top, ticksPerLine }: Scale, line: number, length: number): Ticks<'recording'> {
  return ticks(Math.round(Math.min(Math.max(0, top + line * ticksPerLine), length)));
}

function clampScale(scale: Scale, length: number, lines: number): Scale {
  const most = Math.max(CLOSEST, length / Math.max(1, lines));
  const ticksPerLine = Math.min(Math.max(scale.ticksPerLine, CLOSEST), most);
  const last = Math.max(0, length - lines * ticksPerLine);
  return { ticksPerLine, top: Math.min(Math.max(0, scale.top), last) };
}

/** By so many lines. */
export function scroll(scale: Scale, by: number, length: number, lines: number): Scale {
  return clampScale({ ...scale, top: scale.top + by * scale.ticksPerLine }, length, lines);
}

/** Closer (factor above 1) or farther, with one line staying where it is. */
export function zoom(scale: Scale, factor: number, line: number, length: number, lines: number): Scale {
  const at = scale.top + line * scale.ticksPerLine;
  const next = clampScale({ ...scale, ticksPerLine: scale.ticksPerLine / factor }, length, lines);
  return clampScale({ ...next, top: at - line * next.ticksPerLine }, length, lines);
}

/** With a moment in view: unmoved where it is, otherwise with the moment at a quarter of the height. */
export function showing(scale: Scale, moment: number, length: number, lines: number): Scale {
  const line = lineOf(scale, moment);
  if (line >= 0 && line < lines) return scale;
  return clampScale({ ...scale, top: moment - (lines / 4) * scale.ticksPerLine }, length, lines);
}

/** A range of the recording over most of the height. */
export function framing(start: number, end: number, length: number, lines: number): Scale {
  const ticksPerLine = (end - start) / (lines * 0.8);
  return clampScale({ ticksPerLine, top: start - lines * 0.1 * ticksPerLine }, length, lines);
}

const STEPS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600];

/** Seconds between two written times, so that they stand at least so many lines apart. */
export function rulerStep({ ticksPerLine }: Scale, apart: number): number {
  const least = (apart * ticksPerLine) / TICKS_PER_SECOND;
  return STEPS.find((step) => step >= least) ?? 7200;
}
