import type { Amount } from './kinds.ts';

/** What a reading says: inside the limits, close to one, past one. */
export type Verdict = 'in' | 'near' | 'out';

/** Near is the last tenth of the way to a limit; of a limit that stands alone, a tenth of its own size. */
const NEAR = 0.1;

/**
 * A reading against the limits of a spec, by the spec's own tolerance.
 *
 * @param reading in the unit of the amount
 * @returns nothing for an amount without limits: what is only aimed at is neither kept nor missed
 */
export function judgeReading(reading: number, { min, max }: Amount): Verdict | undefined {
  if (min === undefined && max === undefined) return undefined;
  if ((min !== undefined && reading < min) || (max !== undefined && reading > max)) return 'out';
  const margin = (min !== undefined && max !== undefined ? max - min : Math.abs(min ?? max ?? 0)) * NEAR;
  const near = (min !== undefined && reading - min < margin) || (max !== undefined && max - reading < margin);
  return near ? 'near' : 'in';
}
