import type { NumberRead } from '../number-read.ts';
import type { Said } from '../said.ts';
import type { Token } from '../tokens.ts';
import type { UnitHeard } from '../unit-spoken.ts';

/** A number with its unit, among the words it was said with. */
export interface InContext {
  readonly pieces: readonly Token[];
  readonly number: NumberRead;
  readonly unit: UnitHeard;
  /** First token after the quantity. */
  readonly to: number;
  readonly said: Said;
}

/** A rule of speech by which a number with a unit sets nothing. */
export interface Trap {
  /** The rule, whatever the sentence. */
  readonly rule: string;
  readonly holds: (quantity: InContext) => boolean;
}
