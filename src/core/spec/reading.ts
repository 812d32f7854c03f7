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

/** A stretch of a drawn scale in which readings get one verdict; 0 is its left end, 1 its right. */
export interface ScaleZone {
  readonly verdict: Verdict;
  readonly from: number;
  readonly to: number;
}

/** The limits of a spec drawn as a scale, and where a reading stands on it. */
export interface ReadingScale {
  readonly zones: readonly ScaleZone[];
  /** The limits themselves, in the unit of the amount. */
  readonly limits: readonly { readonly value: number; readonly at: number }[];
  /** Where the reading stands, kept on the scale; `beyond` where it lies past one end of it. */
  readonly reading?: { readonly at: number; readonly beyond: boolean };
}

/**
 * What to draw of a reading and its limits. Around two limits there is room for half of what lies between them on both
 * sides; a limit that stands alone has a fifth of its own size past it and twice as much before it. The zones end where
 * `judgeReading` changes its mind.
 *
 * @returns nothing for an amount without limits
 */
export function readingScale({ min, max }: Amount, reading?: number): ReadingScale | undefined {
  const alone = Math.abs(min ?? max ?? 0) || 1;
  const [low, high] =
    min !== undefined && max !== undefined
      ? [min - (max - min || alone) / 2, max + (max - min || alone) / 2]
      : min !== undefined
        ? [min - alone / 5, min + (2 * alone) / 5]
        : max !== undefined
          ? [max - (2 * alone) / 5, max + alone / 5]
          : [0, 0];
  if (low === high) return undefined;
  const at = (value: number) => Math.min(1, Math.max(0, (value - low) / (high - low)));
  const margin = (min !== undefined && max !== undefined ? max - min : Math.abs(min ?? max ?? 0)) * NEAR;
  const zone = (verdict: Verdict, from: number, to: number): ScaleZone[] =>
    at(from) < at(to) ? [{ verdict, from: at(from), to: at(to) }] : [];
  return {
    zones: [
      ...(min === undefined ? [] : [...zone('out', low, min), ...zone('near', min, min + margin)]),
      ...zone('in', min === undefined ? low : min + margin, max === undefined ? high : max - margin),
      ...(max === undefined ? [] : [...zone('near', max - margin, max), ...zone('out', max, high)]),
    ],
    limits: [min, max].flatMap((value) => (value === undefined ? [] : [{ value, at: at(value) }])),
    ...(reading === undefined ? {} : { reading: { at: at(reading), beyond: reading < low || reading > high } }),
  };
}
