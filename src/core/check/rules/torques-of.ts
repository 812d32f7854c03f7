import { type Amount, type Quantity, stageKind } from '../../spec/index.ts';

/** The torques of a quantity: of a sequence its stages that are no angles. */
export function torquesOf(quantity: Quantity | undefined): readonly Amount[] {
  if (quantity?.kind === 'torque') return [quantity.amount];
  return quantity?.kind === 'torque-sequence' ? quantity.stages.filter((stage) => stageKind(stage) === 'torque') : [];
}
