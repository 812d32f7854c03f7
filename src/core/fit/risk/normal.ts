/**
 * Standard normal distribution function; relative error of the tail below 1.2e-7.
 * Source: Chebyshev fit of the complementary error function, Press et al., Numerical Recipes, section 6.2.
 */
export function normalCdf(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.5 * x);
  const fit = FIT.reduceRight((sum, factor) => sum * t + factor, 0);
  const tail = (t * Math.exp(-x * x + fit)) / 2;
  return z > 0 ? 1 - tail : tail;
}

const FIT = [
  -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223,
  0.17087277,
];

/** The z that a standard normal does not exceed with this probability; by bisection, to 1e-9. */
export function normalQuantile(probability: number): number {
  let low = -9;
  let high = 9;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (normalCdf(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
