import { expect, test } from 'vitest';
import { partLookup, toPlan, trimTargets } from '../../../../src/core/fit/index.ts';
import { readShop } from '../../../../src/core/read/index.ts';
import { TICKS_PER_SECOND } from '../../../../src/core/time/index.ts';

// A made-up lesson: chapter one keeps 100 s of programme, chapter two 200 s; one minute of discussion in chapter one.
const texts = new Map([
  [
    'recordings/chain.yaml',
    'title: Chain\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:00", out: "0:01:40"}\n  - {in: "0:05:00", out: "0:08:20"}\n',
  ],
  [
    'lessons/chain.mdx',
    '---\ntitle: Chain\nrecording: chain\nmachine: tarn\n---\n## One\n<Cue at="0:00:00" />\n\n### A\n<Cue at="0:00:00" />\n\n### B\n<Cue at="0:01:00" />\n\n<Discuss minutes="1">Which one?</Discuss>\n\n## Two\n<Cue at="0:05:00" />\n\n### C\n<Cue at="0:05:00" />\n\n### D\n<Cue at="0:06:40" />\n',
  ],
  [
    'classes/saturday.yaml',
    `title: Chain
date: 2026-12-05
starts: "23:00"
slot: "2:00"
attendees: 17
blocks:
  - {id: all, title: All, kind: screen, treatments: [{id: w, worth: 1, show: {lesson: chain}}]}
  - {id: one, title: One, kind: screen, treatments: [{id: w, worth: 1, show: {lesson: chain, chapter: one, speed: 2}}]}
  - {id: two, title: Two, kind: screen, treatments: [{id: w, worth: 1, show: {lesson: chain, from: c, to: c}}]}
  - {id: end, title: End, kind: screen, treatments: [{id: w, worth: 1, show: {lesson: chain, from: b, to: c}}]}
  - {id: hands, title: Hands, kind: hands-on, treatments: [{id: w, worth: 1, stations: {count: 2, group: 3, minutes: [1, 2, 3], change: 1}}]}
  - {id: every, title: Every, kind: hands-on, treatments: [{id: w, worth: 1, stations: {count: 2, group: 3, minutes: 2, visit: every}}]}
  - {id: food, title: Food, kind: food, at: "00:30", treatments: [{id: w, worth: 1, minutes: 5}]}
  - {id: lost, title: Lost, kind: screen, treatments: [{id: w, worth: 1, show: {lesson: nowhere}}]}
`,
  ],
]);
const read = readShop(texts, () => ({
  state: 'media',
  media: { duration: 600 * TICKS_PER_SECOND, framesPerSecond: 30 },
}));
const shopClass = read.shop.classes[0]!;
const { plan, unknown } = toPlan(shopClass, partLookup(read.shop));
const time = (id: string) => {
  const [treatment] = plan.blocks.find((b) => b.id === id)!.treatments;
  return [treatment!.seconds, treatment!.screenSeconds, treatment!.rotations];
};

test.each([
  ['all', [300 + 60, 300, 0]],
  ['one', [50 + 60, 50, 0]],
  ['two', [100, 100, 0]],
  ['end', [40 + 60 + 100, 140, 0]],
  // 17 attendees, six at a time: three rounds of two minutes and two changes of one.
  ['hands', [3 * 120 + 2 * 60, 0, 3]],
  // Everybody at both stations: six rounds.
  ['every', [6 * 120, 0, 6]],
])('%s takes its time from programme, discussion and speed, or from stations', (id, expected) => {
  expect(time(id)).toEqual(expected);
});

test('a fixed time past midnight is counted from the start; a part nobody knows is told', () => {
  expect(plan.blocks.find(({ id }) => id === 'food')?.window).toEqual({ earliest: 5400, latest: 5400 });
  expect(unknown).toEqual([{ block: 'lost', treatment: 'w', lesson: 'nowhere' }]);
});

test('trim targets: in proportion to length, felt times only, and enough to fit', () => {
  const shown = (id: string, seconds: number) => ({
    ...plan.blocks[0]!,
    id,
    must: true,
    treatments: [
      {
        ...plan.blocks[0]!.treatments[0]!,
        seconds,
        shown: [{ lesson: 'chain', chapter: id, title: id, programmeSeconds: seconds, speed: 1 }],
      },
    ],
  });
  const tight = { ...plan, slotSeconds: 540, bufferSeconds: 60, blocks: [shown('a', 400), shown('b', 200)] };
  const { overSeconds, targets, enough } = trimTargets(tight);
  expect([overSeconds, enough]).toEqual([120, true]);
  expect(targets.map(({ chapter, shareSeconds, aloneSeconds }) => [chapter, shareSeconds, aloneSeconds])).toEqual([
    ['a', 80, 120],
    ['b', 40, 120],
  ]);
  // Food at 300 s: only what comes before it can win it time.
  const food = { ...plan.blocks.find(({ id }) => id === 'food')!, must: true, window: { earliest: 300, latest: 300 } };
  const early = trimTargets({ ...tight, slotSeconds: 900, blocks: [shown('a', 400), food, shown('b', 200)] });
  expect(early.targets.map(({ shareSeconds, aloneSeconds }) => [shareSeconds, aloneSeconds])).toEqual([
    [100, 100],
    [0, undefined],
  ]);
  expect(trimTargets({ ...tight, slotSeconds: 30 }).enough).toBe(false);
});
