import type { NumberRead } from './number-read.ts';
import type { Tolerance } from './tolerance.ts';
import type { UnitHeard } from './unit-spoken.ts';

/** Numbers and units round one place in a sentence. */
export interface Phrase {
  readonly low: NumberRead;
  readonly high?: NumberRead;
  readonly unit: UnitHeard;
  readonly to: number;
  /** Said before the unit: `38 ± 3 N·m`. */
  readonly tolerance?: Tolerance;
}
