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
  'current',
  'resistance',
  'charge',
  'power',
  'speed',
  'turning-speed',
  'flow',
  'ratio',
  'hardness',
  'count',
  'time',
  'distance',
] as const;
export type SimpleKind = (typeof SIMPLE_KINDS)[number];

/** What is named, not measured: a thread by its standard's designation, an oil by its grade. */
export const DESIGNATION_KINDS = ['thread', 'viscosity-grade'] as const;
export type DesignationKind = (typeof DESIGNATION_KINDS)[number];

/** Kinds whose units are scales of their own: 60 HRC is no number of HRB, teeth are no links, and parts of a hundred are no mix of so many to one. */
const APART: ReadonlySet<Kind> = new Set<Kind>(['hardness', 'count', 'ratio']);

/** True where a value in one unit says something of a value in another. */
export function unitsCompare(kind: SimpleKind, one: string, other: string): boolean {
  return one === other || !APART.has(kind);
}

/** `torque-sequence` is torque, or torque then angle, in stages; `interval` is distance and time, whichever comes first. */
export const KINDS = [...SIMPLE_KINDS, ...DESIGNATION_KINDS, 'torque-sequence', 'interval'] as const;
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
  | { readonly kind: DesignationKind; readonly designation: string }
  | { readonly kind: 'torque-sequence'; readonly stages: readonly Amount[] }
  | { readonly kind: 'interval'; readonly distance?: Amount; readonly time?: Amount };
