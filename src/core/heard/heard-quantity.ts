import type { SimpleKind, Unit } from '../spec/index.ts';

/** A quantity heard in a text. */
export interface HeardQuantity {
  /** Offsets in the text, half-open. */
  readonly start: number;
  readonly end: number;
  /** The words themselves. */
  readonly text: string;
  readonly kind: SimpleKind;
  /** In `unit`, as spoken; equal for one value; absent on an open side. */
  readonly min?: number;
  readonly max?: number;
  /** Said beside a tolerance. */
  readonly nominal?: number;
  readonly unit: string;
  /** The units it may stand for: two where a pint is US or imperial. */
  readonly readings: readonly Unit[];
}
