/** Three-point estimate of a time, s: least, likely, most, in that order of size. */
export interface Estimate {
  readonly least: number;
  readonly likely: number;
  readonly most: number;
}

/** A time that is what it is, such as the runtime of a programme. */
export function certain(seconds: number): Estimate {
  return { least: seconds, likely: seconds, most: seconds };
}

/** Minutes as the content writes them: one number, or least, likely, most. */
export function fromMinutes(written: number | readonly [number, number, number]): Estimate {
  if (typeof written === 'number') return certain(written * 60);
  const [least, likely, most] = written;
  return { least: least * 60, likely: likely * 60, most: most * 60 };
}

/** The estimate stretched, as when a station is run several times over at one pace. */
export function times(estimate: Estimate, factor: number): Estimate {
  return { least: estimate.least * factor, likely: estimate.likely * factor, most: estimate.most * factor };
}

export function plus(a: Estimate, b: Estimate): Estimate {
  return { least: a.least + b.least, likely: a.likely + b.likely, most: a.most + b.most };
}

/**
 * Mean of the beta distribution that a three-point estimate stands for, s.
 * Source: Malcolm, Roseboom, Clark and Fazar, Operations Research 7(5), 1959: (a + 4m + b) / 6.
 */
export function mean({ least, likely, most }: Estimate): number {
  return (least + 4 * likely + most) / 6;
}

/** The two shape numbers of the beta distribution over [least, most] with weight 4 on the likely value. */
export function shape({ least, likely, most }: Estimate): { readonly alpha: number; readonly beta: number } {
  const width = most - least;
  return { alpha: 1 + (4 * (likely - least)) / width, beta: 1 + (4 * (most - likely)) / width };
}

/** Variance of that beta distribution, s²: (mean - a)(b - mean) / 7. Zero where the time is certain. */
export function variance(estimate: Estimate): number {
  const centre = mean(estimate);
  return ((centre - estimate.least) * (estimate.most - centre)) / 7;
}
