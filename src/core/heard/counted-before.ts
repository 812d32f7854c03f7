import { unitOf } from '../spec/index.ts';
import type { Bare } from './bare.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** Behind these a number counts teeth or links. */
const COUNTED = /\b(?:count(?:ed|ing|s)?\b[^.;?!]*?|how many (?:\w+ )?)\b(teeth|links)\b|\b(teeth|links)[,:] $/;
/** Fewer are counted off, not counted up. */
export const FEWEST = 5;

/** `count the teeth, you should get thirty-four`: what is counted is said before its number. */
export function countedBefore(bare: Bare): UnitHeard | undefined {
  const { low, said, to } = bare;
  const counted = COUNTED.exec(`${said.earlier} ${said.before}`);
  const symbol = counted?.[1] ?? counted?.[2];
  if (symbol === undefined || !Number.isInteger(low.value) || low.value < FEWEST) return undefined;
  return unitHeard(unitOf('count', symbol), to, true);
}
