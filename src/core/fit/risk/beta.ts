import { type Estimate, shape } from '../plan/estimate.ts';

/** Cells of the table of a beta distribution; its error in probability is about 1e-6. */
const CELLS = 2048;

/** Distribution of a time, made from its three points. */
export interface TimeDistribution {
  /** Probability that it takes no longer than this, s. */
  cdf(seconds: number): number;
  /** The time that it does not exceed with this probability, s. */
  quantile(probability: number): number;
}

/**
 * The beta distribution over [least, most] with weight 4 on the likely value, as a table.
 * A certain time is a step.
 */
export function distributionOf(estimate: Estimate): TimeDistribution {
  const { least, most } = estimate;
  const width = most - least;
  if (width <= 0) return { cdf: (s) => (s >= least ? 1 : 0), quantile: () => least };
  const sums = cumulative(estimate);
  return {
    cdf(seconds) {
      const x = ((seconds - least) / width) * CELLS;
      if (x <= 0) return 0;
      if (x >= CELLS) return 1;
      const cell = Math.floor(x);
      const low = sums[cell] ?? 0;
      return low + (x - cell) * ((sums[cell + 1] ?? 1) - low);
    },
    quantile(probability) {
      let low = 0;
      let high = CELLS;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if ((sums[middle] ?? 0) <= probability) low = middle;
        else high = middle;
      }
      const from = sums[low] ?? 0;
      const step = (sums[high] ?? 1) - from;
      return least + (width * (low + (step > 0 ? (probability - from) / step : 0))) / CELLS;
    },
  };
}

/** Probabilities up to each cell's edge, by Simpson's rule in every cell. */
function cumulative(estimate: Estimate): Float64Array {
  const { alpha, beta } = shape(estimate);
  const density = (x: number) => x ** (alpha - 1) * (1 - x) ** (beta - 1);
  const sums = new Float64Array(CELLS + 1);
  for (let cell = 0; cell < CELLS; cell++) {
    const left = cell / CELLS;
    const right = (cell + 1) / CELLS;
    const area = (density(left) + 4 * density((left + right) / 2) + density(right)) / (6 * CELLS);
    sums[cell + 1] = (sums[cell] ?? 0) + area;
  }
  const total = sums[CELLS] ?? 1;
  return sums.map((sum) => sum / total);
}
