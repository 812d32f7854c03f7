import type { SeekSheet } from '../media/index.ts';
import type { PlayPlanJson } from '../programme/index.ts';

/** A chapter or step as the page carries it: programme seconds. What was cut out has no length. */
export interface TimedPart {
  readonly id: string;
  readonly title: string;
  readonly start: number;
  readonly end: number;
  /** Address of a picture of it. */
  readonly still?: string;
}

/** What a lesson page hands to its player, as JSON in the page. */
export interface LessonData {
  readonly id: string;
  /** Of the programme, seconds. */
  readonly length: number;
  readonly title: string;
  readonly plan: PlayPlanJson;
  readonly chapters: readonly TimedPart[];
  readonly steps: readonly TimedPart[];
  /** While the card of a correction lies over the picture. */
  readonly corrections?: readonly TimedPart[];
  /** Small pictures of the whole programme. */
  readonly seek?: SeekSheet & { readonly url: string };
  readonly captions?: { readonly url: string; readonly language: string };
}
