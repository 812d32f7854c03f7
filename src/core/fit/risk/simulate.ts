import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { quantilesOf } from './beta.ts';
import { leftOf } from './left-of.ts';
import type { Network } from './network.ts';
import { normalCdf } from './normal.ts';
import { at } from './quantile.ts';

/**
 * Correlation between the pace of two blocks given by the same person (Gaussian copula).
 * A judgement, no source: what classes really took tells it better.
 */
export const SAME_PERSON = 0.5;

/** What happened in every draw. */
export interface Draws {
  /** Seconds each activity took: `took[activity][draw]`. */
  readonly took: readonly Float64Array[];
  /** When each activity started, s: `starts[activity][draw]`. */
  readonly starts: readonly Float64Array[];
  /** When everything had ended, s. */
  readonly end: Float64Array;
}

/**
 * Plays a network through many times. The same seed gives the same draws.
 *
 * @param draws how many times
 * @param correlation of two activities of one person, 0 … 1
 */
export function simulate(network: Network, draws: number, seed: number, correlation = SAME_PERSON): Draws {
  const random = xoroshiro128plus(seed);
  const uniform = () => uniformFloat64(random);
  const people = sharedPeople(network);
  const activities = network.map(({ estimate, elapsed, ...activity }) => ({
    ...activity,
    secondsAt: elapsed === undefined ? quantilesOf(estimate) : leftOf(estimate, elapsed),
    took: new Float64Array(draws),
    starts: new Float64Array(draws),
  }));
  const end = new Float64Array(draws);
  const own = Math.sqrt(1 - correlation);
  const common = Math.sqrt(correlation);
  const ends = new Float64Array(network.length);
  for (let draw = 0; draw < draws; draw++) {
    const pace = new Map<string | undefined, number>();
    for (const person of people) pace.set(person, standardNormal(uniform));
    let last = 0;
    activities.forEach(({ after, notBefore, person, secondsAt, took, starts }, index) => {
      const shared = pace.get(person);
      const rank = shared === undefined ? uniform() : normalCdf(common * shared + own * standardNormal(uniform));
      const seconds = secondsAt(rank);
      let start = notBefore;
      for (const before of after) start = Math.max(start, at(ends, before));
      ends[index] = start + seconds;
      last = Math.max(last, start + seconds);
      took[draw] = seconds;
      starts[draw] = start;
    });
    end[draw] = last;
  }
  return { took: activities.map(({ took }) => took), starts: activities.map(({ starts }) => starts), end };
}

/** Those with more than one activity whose time is uncertain. */
export function sharedPeople(network: Network): ReadonlySet<string> {
  const seen = new Set<string>();
  const shared = new Set<string>();
  for (const { person, estimate } of network) {
    if (person === undefined || estimate.most <= estimate.least) continue;
    if (seen.has(person)) shared.add(person);
    seen.add(person);
  }
  return shared;
}

/** Box and Muller's transform of two uniform numbers. */
function standardNormal(uniform: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
