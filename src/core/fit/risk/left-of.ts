import { type Estimate, mean } from '../plan/estimate.ts';
import { quantilesOf } from './beta.ts';

/** A block that has gone on for longer than 19 of 20 do is taken as being outside its estimate. */
const OUTSIDE_FROM = 0.95;
/** How long such a block goes on, as a share of its estimate, and at least, s. A judgement, no source. */
const OUTSIDE_SHARE = 0.1;
const OUTSIDE_LEAST = 60;
/** Points at which the mean of what is left is taken. */
const POINTS = 64;

/**
 * What is left of a block that has gone on for a while: the time not exceeded with a probability, s.
 *
 * Within its estimate it is the distribution of those blocks that last at least so long, P(T ≤ e + x | T > e). Past it
 * the estimate says nothing more, and the block may end at any moment (exponential, without memory).
 *
 * @param elapsed s, 0 or more
 */
export function leftOf(estimate: Estimate, elapsed: number): (probability: number) => number {
  const whole = quantilesOf(estimate);
  if (elapsed <= estimate.least) return (probability) => whole(probability) - elapsed;
  if (elapsed >= whole(OUTSIDE_FROM)) {
    const more = Math.max(OUTSIDE_LEAST, OUTSIDE_SHARE * mean(estimate));
    return (probability) => -more * Math.log(Math.max(1e-9, 1 - probability));
  }
  const gone = probabilityOf(whole, elapsed);
  return (probability) => Math.max(0, whole(gone + probability * (1 - gone)) - elapsed);
}

/** Mean of what is left of a block, s: the middle of so many equally likely cases. */
export function meanLeft(estimate: Estimate, elapsed: number): number {
  const left = leftOf(estimate, elapsed);
  let sum = 0;
  for (let point = 0; point < POINTS; point++) sum += left((point + 0.5) / POINTS);
  return sum / POINTS;
}

/** The probability that a time is not exceeded, by halving. */
function probabilityOf(quantiles: (probability: number) => number, seconds: number): number {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (quantiles(middle) <= seconds) low = middle;
    else high = middle;
  }
  return low;
}
