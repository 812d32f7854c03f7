import type { Amount, Quantity, SimpleKind } from './kinds.ts';
import { stageKind } from './show-quantity.ts';

/** A part of a quantity that a spoken value can be held against. */
export interface Part {
  readonly kind: SimpleKind;
  readonly amount: Amount;
}

/** The amounts a quantity is made of: stages of a sequence, the two sides of an interval, the force of a deflection. */
export function partsOf(quantity: Quantity): readonly Part[] {
  switch (quantity.kind) {
    case 'torque-sequence':
      return quantity.stages.map((amount) => ({ kind: stageKind(amount), amount }));
    case 'interval':
      return [
        ...(quantity.distance ? [{ kind: 'distance' as const, amount: quantity.distance }] : []),
        ...(quantity.time ? [{ kind: 'time' as const, amount: quantity.time }] : []),
      ];
    case 'thread':
    case 'viscosity-grade':
      return [];
    default:
      return [
        { kind: quantity.kind, amount: quantity.amount },
        ...(quantity.under ? [{ kind: 'force' as const, amount: quantity.under }] : []),
      ];
  }
}
