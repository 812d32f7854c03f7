import type { Numbers } from './number.ts';
import type { Token } from './tokens.ts';

/** A text in its pieces, with the numbers that are read from them. */
export interface Talk {
  readonly text: string;
  readonly pieces: readonly Token[];
  readonly numbers: Numbers;
}
