import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { must } from '../../time/index.ts';
import { quantilesOf } from './beta.ts';
import { leftOf } from './left-of.ts';
import type { Network } from './network.ts';
import { normalCdf } from './normal.ts';

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
  const quantiles = network.map(({ estimate, elapsed }) =>
    elapsed === undefined ? quantilesOf(estimate) : leftOf(estimate, elapsed),
  );
  const took = network.map(() => new Float64Array(draws));
  const starts = network.map(() => new Float64Array(draws));
  const end = new Float64Array(draws);
  const own = Math.sqrt(1 - correlation);
  const common = Math.sqrt(correlation);
  const ends = new Float64Array(network.length);
  for (let draw = 0; draw < draws; draw++) {
    const pace = new Map([...people].map((person) => [person, standardNormal(uniform)]));
    let last = 0;
    network.forEach(({ after, notBefore, person }, index) => {
      const shared = person === undefined ? undefined : pace.get(person);
      const rank = shared === undefined ? uniform() : normalCdf(common * shared + own * standardNormal(uniform));
      const seconds = must(quantiles[index], 'the times of an activity')(rank);
      let start = notBefore;
      for (const before of after) start = Math.max(start, must(ends[before], 'the end of an activity'));
      ends[index] = start + seconds;
      last = Math.max(last, start + seconds);
      (took[index] as Float64Array)[draw] = seconds;
      (starts[index] as Float64Array)[draw] = start;
    });
    end[draw] = last;
  }
  return { took, starts, end };
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
