import type { Clock, Range } from '../time/index.ts';

/** A file made for another program, and what it could not carry. */
export interface Exported {
  readonly text: string;
  /** One line each, small letter, no full stop; empty when everything went along. */
  readonly notes: readonly string[];
}

/** A caption on either clock, as a writer wants it. */
export interface TimedCaption {
  readonly id?: string;
  readonly at: Range<Clock>;
  readonly markup: string;
  readonly settings: string;
}
