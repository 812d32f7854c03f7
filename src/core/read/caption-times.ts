import { fail, ok, type Parsed, TICKS_PER_SECOND, type Ticks, ticks } from '../time/index.ts';

const TICKS_PER_MS = TICKS_PER_SECOND / 1000;
/** Past this a time no longer fits a whole number of ticks. */
const MOST_HOURS = 3500;

const WEBVTT = /^(?:(\d+):)?([0-5]\d):([0-5]\d)\.(\d{3})(?!\d)/;
const LOOSE = /^(?:(\d{1,6}):)?(\d{1,3}):(\d{1,2})(?:[.,:](\d{1,3}))?(?!\d)/;

/** A time at the start of a text, as a caption file writes it. */
export interface CaptionTime {
  readonly at: Ticks<'recording'>;
  /** Written as WebVTT has it; otherwise browsers cannot read it. */
  readonly strict: boolean;
  /** Characters it took. */
  readonly length: number;
}

/**
 * The time that a text begins with: as WebVTT reads it, or else as people write it (comma or no fraction, one digit).
 *
 * Source: W3C WebVTT, "collect a WebVTT timestamp"; SubRip has no standard, its comma is common practice.
 */
export function captionTime(text: string): Parsed<CaptionTime> {
  const strict = WEBVTT.exec(text);
  const match = strict ?? LOOSE.exec(text);
  if (!match) return fail(`"${clip(text)}" is not a time`, 'a time reads 00:01:02.500, or 00:01:02,500 in SRT');
  const [written, hours = '0', minutes = '0', seconds = '0', fraction = '0'] = match;
  if (Number(minutes) > 59 || Number(seconds) > 59)
    return fail(`"${written}" has a minute or second past 59`, 'minutes and seconds go from 00 to 59');
  if (hours.length > 6 || Number(hours) > MOST_HOURS)
    return fail(`"${clip(written)}" lies more than ${MOST_HOURS} hours in`, 'count from the start of the recording');
  const ms = ((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000 + Number(fraction.padEnd(3, '0'));
  return ok({ at: ticks(ms * TICKS_PER_MS), strict: strict !== null, length: written.length });
}

/** Both times of a caption and what stands behind them. */
export interface TimeLine {
  readonly start: CaptionTime;
  readonly end: CaptionTime;
  readonly settings: string;
}

/** A line `start --> end settings`. */
export function timeLine(text: string): Parsed<TimeLine> {
  const arrow = text.indexOf('-->');
  const left = trimSpace(text.slice(0, arrow));
  const right = trimSpace(text.slice(arrow + 3));
  const start = captionTime(left);
  if (!start.ok) return start;
  if (start.value.length !== left.length)
    return fail(`"${clip(left)}" is not a time`, 'only the start time stands before the arrow');
  const end = captionTime(right);
  if (!end.ok) return end;
  return ok({ start: start.value, end: end.value, settings: trimSpace(right.slice(end.value.length)) });
}

/** Without the blanks of WebVTT at both ends: space, tab, form feed. */
function trimSpace(text: string): string {
  let from = 0;
  let to = text.length;
  while (from < to && ' \t\f'.includes(text.charAt(from))) from++;
  while (to > from && ' \t\f'.includes(text.charAt(to - 1))) to--;
  return text.slice(from, to);
}

/** Short enough for a message. */
export function clip(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}
