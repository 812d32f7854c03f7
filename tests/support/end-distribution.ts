import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { shape } from '../../src/core/fit/plan/estimate.ts';
import type { Layout } from '../../src/core/fit/plan/layout.ts';
import type { Choice, Plan } from '../../src/core/fit/plan/plan.ts';
import { type Activity, networkOf } from '../../src/core/fit/risk/network.ts';
import { SAME_PERSON, sharedPeople } from '../../src/core/fit/risk/simulate.ts';
import { later, notBefore, point, type Spread, sum } from './spread.ts';

/** When the class ends, worked out instead of drawn: the second opinion on what `simulate` draws. */
export interface EndDistribution {
  /** s */
  readonly mean: number;
  /** s² */
  readonly variance: number;
  /** Chance that it ends after this moment. */
  chanceAfter(moment: number): number;
}

/** Nodes of the quadrature over a person's pace, by the number of people; more people than that are taken as independent. */
const NODES = [1, 15, 9, 5] as const;

/**
 * Distribution of the end of a class.
 *
 * Given the pace of those who present several blocks, the blocks are independent: one after the other their times add
 * up (convolution on a grid), side by side the later one counts, a fixed time holds. The paces are then integrated out
 * (Gauss-Hermite quadrature over a Gaussian copula).
 */
export function endDistribution(
  plan: Plan,
  layout: Layout,
  choice: Choice,
  correlation = SAME_PERSON,
): EndDistribution {
  const { network, blocks } = networkOf(plan, layout, choice);
  const people = [...sharedPeople(network)].slice(0, NODES.length - 1);
  const width = network.reduce((total, { estimate }) => total + estimate.most - estimate.least, 0);
  const step = Math.max(1, Math.ceil(width / 1200));
  const nodes = gaussHermite(NODES[people.length as 0 | 1 | 2 | 3] ?? 1);
  const pieces = new Map(network.map((activity) => [activity, conditional(activity, step, correlation)]));
  const groups = layout.groups.map(({ lanes }, group) =>
    lanes.map((lane) =>
      lane.flatMap((block) => {
        const index = choice[block]?.group === group ? blocks.indexOf(block) : -1;
        return network[index] ?? [];
      }),
    ),
  );

  const mixed = new Map<number, number>();
  const walk = (paces: readonly { z: number; weight: number }[]): void => {
    if (paces.length < people.length) {
      for (const node of nodes) walk([...paces, node]);
      return;
    }
    const pace = new Map(people.map((person, i) => [person, paces[i]?.z ?? 0]));
    const weight = paces.reduce((product, node) => product * node.weight, 1);
    let now = point(0, step);
    for (const lanes of groups) {
      const given = lanes.filter((lane) => lane.length > 0);
      if (given.length === 0) continue;
      now = notBefore(now, Math.max(...given.map(([first]) => first?.notBefore ?? 0)));
      const lengths = given.map((lane) =>
        lane
          .map((activity) => pieces.get(activity)?.(pace.get(activity.person ?? '')) ?? point(0, step))
          .reduce(sum, point(0, step)),
      );
      now = sum(now, lengths.reduce(later));
    }
    now.chance.forEach((p, i) => {
      const at = now.from + i * step;
      mixed.set(at, (mixed.get(at) ?? 0) + p * weight);
    });
  };
  walk([]);
  return summary(
    [...mixed].toSorted(([a], [b]) => a - b),
    step,
  );
}

/** The times of an activity, given the pace of whoever gives it. */
function conditional({ estimate }: Activity, step: number, correlation: number): (z: number | undefined) => Spread {
  if (estimate.most <= estimate.least) return () => point(estimate.least, step);
  const { alpha, beta } = shape(estimate);
  const width = estimate.most - estimate.least;
  const cells = Math.ceil((estimate.most - estimate.least) / step) + 1;
  const edges = Array.from({ length: cells }, (_, i) => betaCdf(((i + 0.5) * step) / width, alpha, beta));
  const known = new Map<number | undefined, Spread>();
  const scores = edges.map((p) =>
    p <= 0 ? Number.NEGATIVE_INFINITY : p >= 1 ? Number.POSITIVE_INFINITY : normalQuantile(p, 0, 1),
  );
  return (z) => {
    const before = known.get(z);
    if (before) return before;
    const sums =
      z === undefined
        ? edges
        : scores.map((score) => normalCdf((score - Math.sqrt(correlation) * z) / Math.sqrt(1 - correlation), 0, 1));
    const chance = Float64Array.from(sums, (p, i) => p - (sums[i - 1] ?? 0));
    const spread = { from: estimate.least, step, chance };
    known.set(z, spread);
    return spread;
  };
}

function summary(points: readonly (readonly [at: number, p: number])[], step: number): EndDistribution {
  const mean = points.reduce((total, [at, p]) => total + at * p, 0);
  const uncertain = points.length > 1;
  return {
    mean,
    variance: points.reduce((total, [at, p]) => total + (at - mean) ** 2 * p, 0),
    chanceAfter: (moment) =>
      // A cell stands for the times half a step round it.
      Math.min(
        1,
        points.reduce((total, [at, p]) => {
          const share = uncertain ? (at + step / 2 - moment) / step : Number(at > moment + 1e-6);
          return total + p * Math.min(1, Math.max(0, share));
        }, 0),
      ),
  };
}

/** Nodes and weights that integrate against the standard normal density; Newton's method on the Hermite polynomials. */
function gaussHermite(count: number): { z: number; weight: number }[] {
  // Probabilists' polynomials: He(n+1) = z He(n) - n He(n-1); roots lie between those of the one before.
  const value = (n: number, z: number) => {
    let [before, now] = [0, 1];
    for (let k = 0; k < n; k++) [before, now] = [now, z * now - k * before];
    return { now, before };
  };
  let roots: number[] = [];
  for (let n = 1; n <= count; n++) {
    const reach = 2 * Math.sqrt(n) + 1;
    const fences = [-reach, ...roots, reach];
    roots = Array.from({ length: n }, (_, i) => {
      let [low, high] = [fences[i] ?? -reach, fences[i + 1] ?? reach];
      const sign = Math.sign(value(n, low).now);
      for (let round = 0; round < 80; round++) {
        const middle = (low + high) / 2;
        if (Math.sign(value(n, middle).now) === sign) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    });
  }
  const factorial = Array.from({ length: count }, (_, i) => i + 1).reduce((product, k) => product * k, 1);
  return roots.map((z) => ({ z, weight: factorial / (count * value(count, z).before) ** 2 }));
}
