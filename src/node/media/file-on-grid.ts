import type { Copyable, Examined } from './examine.ts';

/** A camera file with its place on the recording's frame grid; of an angle, the stretch where it keeps that place. */
export interface FileOnGrid {
  readonly file: Examined;
  readonly copyable: Copyable;
  /** Frame of the recording that its first frame falls on; negative when an angle began earlier. */
  readonly first: number;
  /** Frames of the recording that it shows. */
  readonly from: number;
  readonly count: number;
  /** Frames from the grid to the first picture, less than one. */
  readonly lead: number;
  /** How much its clock runs fast, parts per million, where that is not in `first` already. */
  readonly drift: number;
  /** Id of the angle; left out for the recording's own camera. */
  readonly angle?: string;
}
