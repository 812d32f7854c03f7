import type { PlayPlanJson } from '../../core/programme/index.ts';

/** A chapter or step as the page carries it: programme seconds. What was cut out has no length. */
export interface TimedPart {
  readonly id: string;
  readonly title: string;
  readonly start: number;
  readonly end: number;
}

/** What a lesson page hands to its player, as JSON in the page. */
export interface LessonData {
  readonly title: string;
  readonly plan: PlayPlanJson;
  readonly chapters: readonly TimedPart[];
  readonly steps: readonly TimedPart[];
  readonly captions?: { readonly url: string; readonly language: string };
}

/** The part on screen at a moment; in a gap between parts, the last one that has begun. */
export function partAt(parts: readonly TimedPart[], seconds: number): TimedPart | undefined {
  // Half a millisecond: a player's own rounding must not put the moment before the part that begins there.
  return parts.findLast(({ start, end }) => start <= seconds + 0.0005 && end > start);
}

/** The part so many places after (or before) the one on screen; only parts that are on screen count. */
export function neighbour(parts: readonly TimedPart[], seconds: number, places: number): TimedPart | undefined {
  const shown = parts.filter(({ start, end }) => end > start);
  const here = partAt(shown, seconds);
  return shown[(here ? shown.indexOf(here) : -1) + places];
}
