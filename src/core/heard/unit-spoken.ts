import type { SimpleKind, Unit } from '../spec/index.ts';

/** A unit heard after a number. */
export interface UnitHeard {
  /** As spoken, in the unit table's symbol where it says which unit; `qt` where it does not say whose. */
  readonly symbol: string;
  readonly kind: SimpleKind;
  /** The units it may stand for; more than one where speech leaves it open. */
  readonly readings: readonly Unit[];
  /** First token not taken. */
  readonly to: number;
  /** `inches`, `millimetres`: not said before a noun, so no size of a tool. */
  readonly plural: boolean;
  /** What the number has to be multiplied by, for `thousandths of a millimetre`. */
  readonly times?: number;
}

/** A unit whose words leave no other open. */
export function unitHeard(unit: Unit, to: number, plural: boolean): UnitHeard {
  return { symbol: unit.symbol, kind: unit.kind, readings: [unit], to, plural };
}
