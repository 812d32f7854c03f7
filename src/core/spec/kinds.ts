/** What a simple quantity measures. Torque and energy, length and distance are told apart by kind, not by dimension. */
export const SIMPLE_KINDS = [
  'torque',
  'force',
  'pressure',
  'length',
  'volume',
  'mass',
  'temperature',
  'temperature-difference',
  'angle',
  'voltage',
  'speed',
  'time',
  'distance',
] as const;
export type SimpleKind = (typeof SIMPLE_KINDS)[number];

/** `torque-sequence` is torque, or torque then angle, in stages; `interval` is distance and time, whichever comes first. */
export const KINDS = [...SIMPLE_KINDS, 'torque-sequence', 'interval'] as const;
export type Kind = (typeof KINDS)[number];

/**
 * A number with its tolerance, in one unit. At least one of the three is there.
 * `min` and `max` are the limits that count; `nominal` is what to aim at.
 */
export interface Amount {
  readonly nominal?: number;
  readonly min?: number;
  readonly max?: number;
  /** A unit's symbol as the unit table prints it, such as `N·m`. */
  readonly unit: string;
}

/** A typed quantity: what a row of the spec table says. */
export type Quantity =
  | {
      readonly kind: SimpleKind;
      readonly amount: Amount;
      /** The force at which a deflection holds. */
      readonly under?: Amount;
    }
  | { readonly kind: 'torque-sequence'; readonly stages: readonly Amount[] }
  | { readonly kind: 'interval'; readonly distance?: Amount; readonly time?: Amount };
