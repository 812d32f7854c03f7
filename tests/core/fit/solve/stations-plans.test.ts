import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitClass } from '../../../../src/core/fit/index.ts';
import { readShop } from '../../../../src/core/read/index.ts';
import { testSolver } from '../../../support/plans.ts';

interface Way {
  readonly worth: number;
  readonly minutes: number;
  readonly count: number;
  readonly group: number;
  readonly visit: 'one' | 'every';
  readonly change: number;
}

const small = fc.integer({ min: 1, max: 4 });
const way: fc.Arbitrary<Way> = fc.record({
  worth: fc.integer({ min: 0, max: 9 }),
  minutes: fc.integer({ min: 1, max: 12 }),
  count: small,
  group: small,
  visit: fc.constantFrom('one', 'every'),
  change: fc.constantFrom(0, 1, 2),
});
const classes = fc.record({
  attendees: fc.integer({ min: 1, max: 12 }),
  slot: fc.integer({ min: 5, max: 59 }),
  blocks: fc.array(fc.record({ must: fc.boolean(), ways: fc.array(way, { minLength: 1, maxLength: 2 }) }), {
    minLength: 1,
    maxLength: 4,
  }),
});
type Written = typeof classes extends fc.Arbitrary<infer T> ? T : never;

function shopClassOf({ attendees, slot, blocks }: Written) {
  const text = `title: Try
date: 2026-12-05
starts: "10:00"
slot: "0:${String(slot).padStart(2, '0')}"
attendees: ${attendees}
blocks:
${blocks
  .map(
    ({ must, ways }, b) =>
      `  - id: b${b}\n    title: B\n    kind: hands-on\n    must: ${must}\n    treatments:\n${ways
        .map(
          ({ worth, minutes, ...stations }, t) =>
            `      - {id: t${t}, worth: ${worth}, stations: {minutes: ${minutes}, count: ${stations.count}, group: ${stations.group}, visit: ${stations.visit}, change: ${stations.change}}}\n`,
        )
        .join('')}`,
  )
  .join('')}`;
  const [shopClass] = readShop(new Map([['classes/try.yaml', text]]), () => ({ state: 'missing' })).shop.classes;
  if (!shopClass) throw new Error(text);
  return shopClass;
}

/** Minutes of a hands-on block: people are sent to stations turn by turn, each group to the station it was at least. */
function minutesByHand({ minutes, count, group, visit, change }: Way, attendees: number): number {
  const groups = Math.ceil(attendees / group);
  const left = Array.from({ length: groups }, () => new Set(visit === 'every' ? Array(count).keys() : [0]));
  let turns = 0;
  for (; left.some((own) => own.size > 0); turns++) {
    if (visit === 'one') {
      for (const own of left.filter(({ size }) => size > 0).slice(0, count)) own.clear();
    } else {
      // Round the room: in turn t, group g works at station (g + t) of as many places as there are groups or stations.
      const places = Math.max(groups, count);
      for (const [g, own] of left.entries()) own.delete((g + turns) % places);
    }
  }
  return turns * minutes + (turns - 1) * change;
}

/** The most worth that fits, by trying every way of giving and leaving out every block. */
function mostWorth({ attendees, slot, blocks }: Written): number | undefined {
  const walk = (index: number, left: number): number => {
    if (left < 0) return Number.NEGATIVE_INFINITY;
    const block = blocks[index];
    if (!block) return 0;
    const given = block.ways.map((one) => one.worth + walk(index + 1, left - minutesByHand(one, attendees)));
    return Math.max(...given, block.must ? Number.NEGATIVE_INFINITY : walk(index + 1, left));
  };
  const worth = walk(0, slot);
  return worth === Number.NEGATIVE_INFINITY ? undefined : worth;
}

test('of 1 000 small classes with stations, the plan is worth what trying everything finds', async () => {
  const solver = await testSolver();
  let turned = 0;
  fc.assert(
    fc.property(classes, (written) => {
      const fit = fitClass(shopClassOf(written), () => undefined, solver);
      const best = mostWorth(written);
      expect(fit.fits ? fit.proof?.worth : undefined).toBe(best);
      if (fit.turns.some(({ turns }) => turns > 1)) turned++;
      // What larger groups or more stations are said to win, they win.
      for (const { kind, savesSeconds } of fit.advice) if (kind === 'regroup') expect(savesSeconds).toBeGreaterThan(0);
    }),
    { numRuns: 1000, seed: 17 },
  );
  // Guards against a generator whose classes never need a second turn.
  expect(turned).toBeGreaterThan(300);
}, 120_000);
