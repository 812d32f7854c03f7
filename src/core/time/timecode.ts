import { twoDigits } from './clock-time.ts';
import { FRAME_RATES, type FrameRate } from './frame-rate.ts';
import { fail, ok, type Parsed } from './parsed.ts';
import { type Ticks, ticks } from './ticks.ts';

const WRITTEN = /^(\d{2}):(\d{2}):(\d{2})([:;])(\d{2})$/;

/** Labels in 24 hours at a rate; timecode starts again at zero after the last. */
export function framesPerDay(rate: FrameRate): number {
  return rate.nominal * 86_400 - rate.dropped * (1440 - 144);
}

/**
 * The number of a labelled frame counted from 00:00:00:00.
 *
 * @param text `hh:mm:ss:ff`, or `hh:mm:ss;ff` at a drop-frame rate
 * @returns frames, 0 … framesPerDay − 1; an illegal label comes back with the nearest legal ones
 * Source: SMPTE ST 12-1 drop-frame compensation, in the form of W3C TTML2 `ttp:dropMode`.
 */
export function parseTimecode(text: string, rate: FrameRate): Parsed<number> {
  const match = WRITTEN.exec(text);
  if (!match)
    return fail(
      `"${text}" is not a timecode`,
      'a timecode reads hh:mm:ss:ff, with ; before the frames when drop-frame',
    );
  const [hours = 0, minutes = 0, seconds = 0, frames = 0] = [match[1], match[2], match[3], match[5]].map(Number);
  const separator = match[4];
  if (separator === ';' && rate.dropped === 0)
    return fail(`"${text}" is written as drop-frame, but ${rate.name} counts no drop-frame`, dropHelp(text, rate));
  if (hours > 23)
    return fail(
      `"${text}" has hour ${hours}; a day has hours 00 to 23`,
      `timecode starts again after 24 hours; ${nearestLabels(23, 59, 59, rate.nominal, rate)}`,
    );
  if (minutes > 59 || seconds > 59)
    return fail(
      `"${text}": ${minutes > 59 ? 'minutes' : 'seconds'} go from 0 to 59`,
      `minutes and seconds go from 00 to 59; ${nearestLabels(hours, Math.min(minutes, 59), 59, rate.nominal, rate)}`,
    );
  if (frames >= rate.nominal)
    return fail(
      `"${text}" has frame ${frames}; at ${rate.name} frames go from 00 to ${rate.nominal - 1}`,
      nearestLabels(hours, minutes, seconds, rate.nominal, rate),
    );
  if (isDropped(minutes, seconds, frames, rate))
    return fail(
      `"${text}" is a label that drop-frame leaves out`,
      nearestLabels(hours, minutes, seconds, frames, rate),
    );
  return ok(frameOf(hours, minutes, seconds, frames, rate));
}

/** True for the labels that drop-frame counting skips: the first of each minute but every tenth. */
function isDropped(minutes: number, seconds: number, frames: number, rate: FrameRate): boolean {
  return frames < rate.dropped && seconds === 0 && minutes % 10 !== 0;
}

function frameOf(hours: number, minutes: number, seconds: number, frames: number, rate: FrameRate): number {
  const labels = ((hours * 60 + minutes) * 60 + seconds) * rate.nominal + frames;
  return labels - rate.dropped * (hours * 54 + minutes - Math.floor(minutes / 10));
}

function nearestLabels(hours: number, minutes: number, seconds: number, frames: number, rate: FrameRate): string {
  const next = isDropped(minutes, seconds, frames, rate)
    ? frameOf(hours, minutes, seconds, rate.dropped, rate)
    : frameOf(hours, minutes, seconds, rate.nominal - 1, rate) + 1;
  return `the nearest labels are ${printTimecode(next - 1, rate)} and ${printTimecode(next, rate)}`;
}

function dropHelp(text: string, rate: FrameRate): string {
  const drop = Object.values(FRAME_RATES).find(
    (r) => r.dropped > 0 && r.numerator === rate.numerator && r.denominator === rate.denominator,
  );
  const colons = text.replace(';', ':');
  return drop
    ? `write ${colons}, or give the rate as ${drop.name}`
    : `write ${colons}; only 29.97 and 59.94 have a drop-frame count`;
}

/**
 * The label of a frame.
 *
 * @param frame whole frames from 00:00:00:00; wraps at 24 hours, either way
 * Source: SMPTE ST 12-1; in a ten-minute block only the first minute keeps all its labels.
 */
export function printTimecode(frame: number, rate: FrameRate): string {
  const day = framesPerDay(rate);
  const kept = ((frame % day) + day) % day;
  const perTen = rate.nominal * 600 - rate.dropped * 9;
  const perMinute = rate.nominal * 60 - rate.dropped;
  const tens = Math.floor(kept / perTen);
  const inTen = kept % perTen;
  const minutes = inTen < rate.nominal * 60 ? 0 : 1 + Math.floor((inTen - rate.nominal * 60) / perMinute);
  const label = kept + rate.dropped * (9 * tens + minutes);
  const seconds = Math.floor(label / rate.nominal);
  return `${twoDigits(Math.floor(seconds / 3600))}:${twoDigits(Math.floor(seconds / 60) % 60)}:${twoDigits(seconds % 60)}${rate.dropped > 0 ? ';' : ':'}${twoDigits(label % rate.nominal)}`;
}

/**
 * Frames from one label to another, going forward; past midnight where the count starts again.
 *
 * @returns 0 … framesPerDay − 1
 */
export function framesBetween(from: number, to: number, rate: FrameRate): number {
  const day = framesPerDay(rate);
  return (((to - from) % day) + day) % day;
}

/** The label shown at a moment, where frame 0 of the clock bears the label number `startFrame`. */
export function timecodeAt(moment: number, rate: FrameRate, startFrame = 0): string {
  return printTimecode(startFrame + frameAt(moment, rate), rate);
}

/** The first tick of a frame counted from the start of its clock. */
export function frameStart<C extends 'recording' | 'programme'>(frame: number, rate: FrameRate): Ticks<C> {
  return ticks<C>(frame * rate.ticksPerFrame);
}

/** The frame that a moment lies in, counted from the start of its clock. */
export function frameAt(moment: number, rate: FrameRate): number {
  return Math.floor(moment / rate.ticksPerFrame);
}
