import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  actualText,
  blocksAhead,
  type DayAct,
  dayAfter,
  dayBefore,
  dayStep,
  questionsText,
  valuesInRoom,
  yearsKnown,
} from '../../../src/core/day/index.ts';
import { BEGIN, clip, events, NEXT, sheetOf, talk } from './support.ts';

const one = (id: string, minutes: number, more = {}) => talk(id, [{ id: 'full', worth: 10, minutes }], more);
const SHEET = sheetOf(
  [
    one('welcome', 5),
    talk('look', [{ id: 'film', worth: 10, show: { lesson: 'chain' } } as never], { kind: 'screen' }),
    talk('try', [
      { id: 'long', worth: 30, minutes: 20 },
      { id: 'short', worth: 20, minutes: 10 },
    ]),
    one('helper', 5, { beside: 'try' }),
    one('end', 5),
  ],
  {},
  { clips: { look: [clip(1, 100, 130), clip(2, 130, 190, 2), clip(3, 190, 200)] } },
);

test('each press of next ends one block and begins the one that the plan has behind it', () => {
  const state = dayAfter(SHEET, events([1, BEGIN], [6, NEXT], [12, NEXT], [30, NEXT], [36, NEXT]));
  expect(state.phase).toBe('over');
  expect(state.times).toEqual({
    welcome: { start: 60, end: 360 },
    look: { start: 360, end: 720 },
    try: { start: 720, end: 1800 },
    // It runs beside another, so it begins and ends with it.
    helper: { start: 720, end: 1800 },
    end: { start: 1800, end: 2160 },
  });
});

test('next pressed too early is taken back: the block before goes on as if nothing had been pressed', () => {
  const before = dayAfter(SHEET, events([0, BEGIN], [5, NEXT]));
  const after = [...events([0, BEGIN], [5, NEXT], [6, NEXT], [7, { kind: 'back' }])].reduce(
    (state, event) => dayStep(SHEET, state, event),
    dayBefore(SHEET),
  );
  expect(after.times).toEqual(before.times);
  expect(after.now).toBe('look');
});

test('a block taken out of turn leaves those it passed for later', () => {
  const state = dayAfter(SHEET, events([0, BEGIN], [5, { kind: 'jump', block: 'end' }]));
  expect(state.now).toBe('end');
  expect(blocksAhead(state)).toEqual(['look', 'try', 'helper']);
});

test('a change of the plan is undone whole, and what has begun stays as it was given', () => {
  const change: DayAct = {
    kind: 'change',
    changes: [
      { block: 'try', treatment: 'short' },
      { block: 'look', treatment: null },
    ],
    text: 'x',
  };
  const changed = dayAfter(SHEET, events([0, BEGIN], [1, change]));
  expect(changed.given).toEqual({ welcome: 'full', try: 'short', helper: 'full', end: 'full' });
  const undone = dayStep(SHEET, changed, { id: 'u', at: 90, kind: 'undo' });
  expect(undone.given).toEqual(dayBefore(SHEET).given);
  const begun = dayAfter(SHEET, events([0, BEGIN], [1, change], [5, NEXT], [6, { kind: 'undo' }]));
  expect([begun.now, begun.given.try, begun.given.look]).toEqual(['try', 'short', 'film']);
});

test('the end of the class and a break’s hour come back with undo too', () => {
  const later: DayAct = { kind: 'change', changes: [], slotSeconds: 4000, freed: ['end'], text: 'later' };
  const state = dayAfter(SHEET, events([0, BEGIN], [1, later]));
  expect([state.slotSeconds, state.freed]).toEqual([4000, ['end']]);
  const back = dayStep(SHEET, state, { id: 'u', at: 90, kind: 'undo' });
  expect([back.slotSeconds, back.freed]).toEqual([3600, []]);
});

test('a lesson runs from clip to clip, stops where the class talks, and goes on when told', () => {
  const shown = (...acts: readonly (readonly [number, DayAct])[]) => {
    const { clip: at, playing, talking } = dayAfter(SHEET, events([0, BEGIN], [5, NEXT], ...acts)).screen;
    return [at, playing, talking];
  };
  const over = { kind: 'clip-over' } as const;
  expect(shown()).toEqual([0, true, false]);
  expect(shown([5.5, over])).toEqual([1, true, false]);
  expect(shown([5.5, over], [6.5, over])).toEqual([1, false, true]);
  // Word of the end that comes twice changes nothing.
  expect(shown([5.5, over], [6.5, over], [6.5, over])).toEqual([1, false, true]);
  expect(shown([5.5, over], [6.5, over], [8, { kind: 'play' }])).toEqual([2, true, false]);
  expect(shown([5.5, over], [6.5, over], [8, { kind: 'play' }], [9, over])).toEqual([undefined, false, false]);
});

test('any step is shown by its number; one of another block stands still, over what the plan shows', () => {
  const state = dayAfter(SHEET, events([0, BEGIN], [1, { kind: 'show', lesson: 'chain', step: 'step-3' }]));
  expect(state.screen).toMatchObject({ step: { lesson: 'chain', id: 'step-3' }, playing: false });
  expect(dayAfter(SHEET, events([0, BEGIN], [1, { kind: 'show', lesson: 'chain', step: 'none' }])).screen.step).toBe(
    undefined,
  );
  const back = dayAfter(SHEET, events([0, BEGIN], [5, NEXT], [6, { kind: 'show', lesson: 'chain', step: 'step-2' }]));
  expect([back.screen.clip, back.screen.step]).toEqual([1, undefined]);
});

test('what was written down says how long each block took, and to whom it was given', () => {
  const state = dayAfter(SHEET, events([2, BEGIN], [3, { kind: 'attendance', count: 9 }], [8.5, NEXT], [15, NEXT]));
  expect(actualText(SHEET, state, '2027-03-06')).toBe(`# Written on the day of the class, as it happened.
date: 2027-03-06
attendees: 9
blocks:
  - id: welcome
    treatment: full
    minutes: 6.5
    starts: "10:02"
    ends: "10:08"
  - id: look
    treatment: film
    minutes: 6.5
    starts: "10:08"
    ends: "10:15"
`);
});

test('a question is kept with its step and its block, once', () => {
  const asked = { kind: 'question', words: 'Why not grease?', lesson: 'chain', step: 'step-2' } as const;
  const rows = events([0, BEGIN], [5, NEXT], [6, asked]);
  const state = dayAfter(SHEET, [...rows, ...rows.slice(2)]);
  expect(questionsText(SHEET, state, '2027-03-06')).toContain(`questions:
  - asked: "10:06"
    words: Why not grease?
    block: look
    lesson: chain
    step: step-2
`);
  expect(state.questions).toHaveLength(1);
});

test('values of another model year are shown until the lesson’s own are asked for, from block to block', () => {
  const value = (primary: string, from: number, to: number) => ({
    ...{ title: 'Slack', whose: '', primary, secondary: '', critical: false, years: { from, to } },
  });
  const values = [value('25 mm', 2021, 2025), { ...value('30 mm', 2019, 2020), otherYears: true as const }];
  const read = (year?: number) => valuesInRoom({ values }, year).map(({ primary }) => primary);
  expect([read(), read(2020), read(2021), read(2018)]).toEqual([['25 mm'], ['30 mm'], ['25 mm'], []]);
  expect(yearsKnown([{ values }, { values: [] }])).toEqual({ from: 2019, to: 2025 });
  const asked = dayAfter(SHEET, events([0, BEGIN], [1, { kind: 'year', year: 2020 }], [5, NEXT]));
  expect(asked.screen).toMatchObject({ year: 2020, clip: 0 });
  expect('year' in dayStep(SHEET, asked, { id: 'y', at: 400, kind: 'year' }).screen).toBe(false);
});

const acts: fc.Arbitrary<DayAct> = fc.oneof(
  fc.constantFrom<DayAct>(
    BEGIN,
    NEXT,
    NEXT,
    NEXT,
    { kind: 'back' },
    { kind: 'undo' },
    { kind: 'clip-over' },
    { kind: 'play' },
    { kind: 'pause' },
    { kind: 'slower' },
    { kind: 'again' },
    { kind: 'over' },
  ),
  fc.record({ kind: fc.constant('jump' as const), block: fc.constantFrom('welcome', 'look', 'try', 'end', 'nothing') }),
  fc.record({
    kind: fc.constant('change' as const),
    text: fc.constant('x'),
    changes: fc.array(
      fc.record({
        block: fc.constantFrom('welcome', 'look', 'try', 'end', 'nothing'),
        treatment: fc.constantFrom('full', 'long', 'short', 'film', null),
      }),
      { maxLength: 3 },
    ),
  }),
);

test('whatever is pressed in whatever order: one block at a time, time runs on, and every block stays known', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(acts, fc.integer({ min: -60, max: 900 })), { maxLength: 40 }), (rows) => {
      let state = dayBefore(SHEET);
      let last = Number.NEGATIVE_INFINITY;
      let moment = 0;
      rows.forEach(([act, step], index) => {
        moment += step;
        state = dayStep(SHEET, state, { ...act, id: `p${index}`, at: moment } as never);
        expect(state.at).toBeGreaterThanOrEqual(last);
        last = state.at;
        const open = Object.entries(state.times).filter(([id, time]) => time.end === undefined && id !== 'helper');
        expect(open.map(([id]) => id)).toEqual(state.now === undefined ? [] : [state.now]);
        for (const { start, end } of Object.values(state.times)) expect(end ?? start).toBeGreaterThanOrEqual(start);
        expect(state.order.toSorted()).toEqual(['end', 'helper', 'look', 'try', 'welcome']);
        for (const id of blocksAhead(state)) expect(state.times[id]).toBe(undefined);
        expect(state.phase === 'on').toBe(state.now !== undefined);
      });
    }),
    { numRuns: 300 },
  );
});
