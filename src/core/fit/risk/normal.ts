/** From here on the continued fraction is the quicker of the two; both hold on either side. */
const FAR = 3;
const TERMS = 60;

/**
 * Standard normal distribution function; relative error below 1e-12.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (NBS, 1964, public domain): 26.2.11, a series
 * about the middle, and 26.2.14, a continued fraction for the tails.
 */
export function normalCdf(z: number): number {
  const x = Math.abs(z);
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  if (x < FAR) {
    let term = z;
    let sum = z;
    for (let odd = 3; Math.abs(term) > 1e-17; odd += 2) {
      term *= (z * z) / odd;
      sum += term;
    }
    return 0.5 + density * sum;
  }
  let fraction = 0;
  for (let k = TERMS; k > 0; k--) fraction = k / (x + fraction);
  const tail = density / (x + fraction);
  return z > 0 ? 1 - tail : tail;
}
