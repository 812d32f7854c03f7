import { expect, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { makeDaySheet } from '../../../src/core/day/index.ts';
import { fitClass, partLookup } from '../../../src/core/fit/index.ts';
import type { Shop, ShopClass } from '../../../src/core/model/index.ts';
import { testSolver } from '../../support/plans.ts';
import { smallShop } from '../../support/shop.ts';

const solver = await testSolver();
const LESSON = `---
title: Chain
recording: chain
machine: tarn-420
---
## Rear wheel
<Cue at="0:00:20" />

### Crack the nut
<Cue at="0:00:30" until="0:02:00" />

<Uses tool="breaker-bar" /> Crack it on the wheels. <KeyPoint why="it cannot slip">Bar level</KeyPoint> <KeyPoint>Feet apart</KeyPoint>

<Warning>The bike can fall.</Warning>

### Tighten the nut
<Cue at="0:06:10" />

<Uses tool="torque-wrench" /> <Uses part="cotter-pin" /> <Uses protective="gloves" /> Tighten to <Spec of="axle-nut" />.

<Discuss minutes="3">Who has seen one shear?</Discuss>
<Discuss minutes="2">And why?</Discuss>
`;
const CLASS = `title: Chain, Saturday
date: 2026-12-05
starts: "10:00"
slot: "2:00"
buffer: 10
attendees: 8
capacity: 12
blocks:
  - id: welcome
    title: Welcome
    kind: welcome
    must: true
    presenter: instructor
    note: Keys on the board.
    treatments:
      - {id: talk, minutes: [3, 5, 8], worth: 10}
  - id: wheel
    title: Rear wheel
    kind: screen
    treatments:
      - {id: whole, show: {lesson: chain, chapter: rear-wheel}, worth: 60}
      - {id: step, show: {lesson: chain, from: tighten-the-nut, to: tighten-the-nut, speed: 1.5}, worth: 20}
  - id: hands
    title: At the vice
    kind: hands-on
    bay: bay 2
    about: {lesson: chain, chapter: rear-wheel}
    treatments:
      - {id: stations, worth: 80, stations: {count: 2, group: 4, minutes: [6, 8, 11], meanwhile: sort bolts}}
`;
/** A row of the same value for other years, and one that nobody has measured. */
const OLDER = `  - id: axle-nut
    title: Rear axle nut
    kind: torque
    years: 2015-2018
    nominal: 80
    unit: N·m
    source: {document: manual, page: 40}
    checkedBy: lead mechanic
    checkedOn: 2026-10-03
`;
const files = { 'lessons/chain.mdx': LESSON, 'classes/saturday.yaml': CLASS };
/** Fitted once: what is changed below changes nothing that takes time. */
const known = smallShop(files);
const fit = fitClass(known.shopClass, partLookup(known.shop), solver);
const made = (shop: Shop, changed: Partial<ShopClass> = {}, film: 'uncut' | 'none' = 'uncut') =>
  makeDaySheet(
    shop,
    { ...fit, shopClass: { ...fit.shopClass, ...changed } },
    () => film,
    (path) => `/${path}`,
    1_000_000,
  );
const sheet = made(known.shop);
const block = (id: string, of = sheet) => of.blocks.find((each) => each.id === id);
const places = (clips: readonly { number: string; start: number; end: number }[] = []) =>
  clips.map(({ number, start, end }) => [number, start, end]);

// The shop keeps 0:00:10 to 0:05:00 and 0:06:00 to 0:09:00 of its recording, so the cue at 0:06:10 comes at 300 s.
const CRACK = ['1.1', 20, 110] as const;
const TIGHTEN = ['1.2', 300, 470] as const;

test('the class is as written, with the length of each part that it shows or is about', () => {
  expect(sheet.shopClass).toMatchObject({
    ...{ id: 'saturday', title: 'Chain, Saturday', date: '2026-12-05', starts: '10:00', slot: '2:00' },
    ...{ buffer: 10, attendees: 8, capacity: 12 },
  });
  expect(sheet.startsAt).toBe(1_000_000);
  expect(sheet.choice.map((pick) => pick?.treatment)).toEqual([0, 0, 0]);
  // The first is named twice, and stands once: 460 s of film and five minutes of talk.
  expect(sheet.parts.map(({ length }) => [length.lesson.id, length.programmeSeconds, length.pauseSeconds])).toEqual([
    ['chain', 460, 300],
    ['chain', 170, 300],
  ]);
  const { buffer: _, attendees: __, capacity: ___, ...rest } = fit.shopClass;
  const plain = makeDaySheet(
    known.shop,
    { ...fit, shopClass: rest },
    () => 'uncut',
    (path) => path,
    0,
  ).shopClass;
  for (const key of ['buffer', 'attendees', 'capacity', 'limits']) expect(plain).not.toHaveProperty(key);
});

test('a block says who leads it, where, and what those do who wait; else nothing', () => {
  expect(block('welcome')).toMatchObject({ who: 'instructor', bay: '', note: 'Keys on the board.', meanwhile: '' });
  expect(block('hands')).toMatchObject({ who: '', bay: 'bay 2', note: '', meanwhile: 'sort bolts' });
});

test('a part on screen is its steps in order, with what stands before the first; one way, one stretch', () => {
  const { clips } = block('wheel') ?? {};
  expect(places(clips?.whole)).toEqual([['1', 10, 20], CRACK, TIGHTEN]);
  expect(places(clips?.step)).toEqual([TIGHTEN]);
  expect([block('hands')?.clips, block('welcome')?.clips]).toEqual([{ stations: [] }, { talk: [] }]);
  expect(places(sheet.steps)).toEqual([['1', 10, 20], CRACK, TIGHTEN]);
  expect(Object.keys(sheet.films)).toEqual(['chain']);
  expect(made(known.shop, {}, 'none').films).toEqual({});
});

test('a clip tells its warnings, key points with their reasons, values, and the talk behind it', () => {
  const [opening, crack, tighten] = sheet.steps;
  expect(opening).toEqual({
    ...{ lesson: 'chain', id: 'rear-wheel', number: '1', title: 'Rear wheel', chapter: 'Rear wheel' },
    ...{ start: 10, end: 20, signals: [], values: [], keyPoints: [] },
  });
  expect(crack).toMatchObject({
    ...{ id: 'crack-the-nut', title: 'Crack the nut', chapter: 'Rear wheel' },
    signals: [{ word: 'warning', text: 'The bike can fall.' }],
    keyPoints: [{ text: 'Bar level', why: 'it cannot slip' }, { text: 'Feet apart' }],
  });
  expect(tighten?.talk).toEqual({ minutes: 5, text: 'Who has seen one shear? And why?' });
  expect(crack?.talk).toBeUndefined();
  expect(tighten?.values).toMatchObject([
    { title: 'Rear axle nut', primary: '98 ± 5 N·m', critical: false, years: { from: 2019, to: 2025 } },
  ]);
});

test('a cited value stands there for other years too, marked so; one without a source or a value does not', () => {
  const table = SOUND_SHOP['specs/tarn-420.yaml'] ?? '';
  const own = table
    .replace('years: 2019-2025', 'years: 2015-2025')
    .replace('kind: torque', 'kind: torque\n    years: 2019-2025');
  const values = (rows: string) => {
    const { shop } = smallShop({
      ...files,
      'specs/tarn-420.yaml': own + rows,
      'lessons/chain.mdx': LESSON.replace('machine: tarn-420', 'machine: tarn-420\nyears: 2019-2025'),
    });
    const cited = made(shop).steps.at(-1)?.values ?? [];
    return cited.map(({ primary, years, otherYears }) => [
      primary.replace(/[\u00A0\u202F]/g, ' '),
      years.from,
      otherYears,
    ]);
  };
  expect(values('')).toEqual([['98 ± 5 N·m', 2019, undefined]]);
  expect(values(OLDER)).toEqual([
    ['98 ± 5 N·m', 2019, undefined],
    ['80 N·m', 2015, true],
  ]);
  expect(values(OLDER.replace(/ {4}source.*\n/, ''))).toEqual([['98 ± 5 N·m', 2019, undefined]]);
});

test('kit is counted by block and way; what comes back is counted over the class', () => {
  expect(block('wheel')?.kit).toEqual({ whole: [], step: [] });
  // Two stations, eight people; a part is used up by each of two groups.
  expect(block('hands')?.kit.stations).toEqual([
    { key: 'tool breaker-bar', title: 'Breaker bar', count: 2, returns: true },
    { key: 'tool torque-wrench', title: 'Torque wrench, large', count: 2, returns: true },
    { key: 'part cotter-pin', title: 'Cotter pin', count: 2, returns: false },
    { key: 'protective gloves', title: 'Gloves', count: 8, returns: true },
  ]);
  expect(sheet.kit).toEqual([
    { key: 'tool torque-wrench', title: 'Torque wrench, large', count: 2, returns: true },
    { key: 'tool breaker-bar', title: 'Breaker bar', count: 2, returns: true },
    { key: 'protective gloves', title: 'Gloves', count: 8, returns: true },
  ]);
});
