import type { Said } from '../said.ts';
import type { Token } from '../tokens.ts';
import type { UnitHeard } from '../unit-spoken.ts';

/** A quantity among its words. */
export interface Amount {
  readonly pieces: readonly Token[];
  /** Its first token. */
  readonly from: number;
  /** The token behind its unit, and the one behind its tolerance, if it has one. */
  readonly valueTo: number;
  readonly to: number;
  readonly unit: UnitHeard;
  readonly said: Said;
  /** A single number without a tolerance. */
  readonly exact: boolean;
}
