import { describe, expect, test } from 'vitest';
import type { DayEvent } from '../../../src/core/day/index.ts';
import {
  clipShown,
  leftToShow,
  NOTHING_SHOWN,
  ranAt,
  type Screen,
  SPEEDS,
  screenOf,
  turnScreen,
} from '../../../src/core/day/screen.ts';
import { clip, sheetOf, talk } from './support.ts';

// Three clips of 30, 60 and 10 s, two minutes of talk behind the second; a fourth step is in another block.
const CLIPS = [clip(1, 100, 130), clip(2, 130, 190, 2), clip(3, 190, 200)];
const OTHER = clip(9, 500, 520);
const ELSEWHERE = { ...clip(2, 0, 5), lesson: 'brakes' };
const show = (id: string) => talk(id, [{ id: 'film', worth: 1, show: { lesson: 'chain' } } as never]);
const SHEET = sheetOf([show('look'), show('more')], {}, { clips: { look: CLIPS, more: [ELSEWHERE, OTHER] } });

/** The first clip, which began at second 10. */
const ON = screenOf(CLIPS, NOTHING_SHOWN, 1, 10);
const turn = (screen: Screen, at: number, event: object) =>
  turnScreen(SHEET, CLIPS, screen, { id: 'e', at, ...event } as DayEvent);
const PAUSED = turn(ON, 22, { kind: 'pause' });
const SECOND: Screen = { ...ON, clip: 1, since: 40 };
const TALKING = turn(SECOND, 100, { kind: 'clip-over' });
const STEP = turn(ON, 50, { kind: 'show', lesson: 'chain', step: 'step-9' });

describe('a block begins', () => {
  test('with its first clip, which runs at once at the speed of the plan', () =>
    expect(screenOf(CLIPS, { ...NOTHING_SHOWN, start: 4, dark: true, year: 2019 }, 1.25, 10)).toEqual({
      ...{ clip: 0, playing: true, talking: false, speed: 1.25, dark: true, year: 2019, start: 5, ran: 0, since: 10 },
    }));

  test('with nothing where it shows nothing', () =>
    expect(screenOf([], ON, 1, 10)).toEqual({
      ...{ playing: false, talking: false, speed: 1, dark: false, start: 2, ran: 0, since: 0 },
    }));
});

test('a clip runs on while it plays, by its speed, and never back', () => {
  expect([10, 22, 5].map((at) => ranAt(ON, at))).toEqual([0, 12, 0]);
  expect(ranAt({ ...ON, speed: 0.5, ran: 3 }, 20)).toBe(8);
  expect(ranAt(PAUSED, 90)).toBe(12);
});

test('what is shown is a clip by its place, or a step by its lesson and number', () => {
  expect(clipShown(SHEET, CLIPS, ON)?.id).toBe('step-1');
  expect(clipShown(SHEET, CLIPS, NOTHING_SHOWN)).toBeUndefined();
  const step = (lesson: string, id: string) => clipShown(SHEET, CLIPS, { ...ON, step: { lesson, id } });
  expect(step('chain', 'step-9')).toBe(OTHER);
  expect(step('brakes', 'step-2')).toBe(ELSEWHERE);
  expect(step('brakes', 'step-9')).toBeUndefined();
});

describe('left to show', () => {
  test.each<[string, Screen, number, number, number]>([
    ['all clips and the talk, at the beginning', ON, 1, 10, 30 + 60 + 120 + 10],
    ['less what has run', ON, 1, 22, 18 + 60 + 120 + 10],
    ['never less than nothing of a clip', ON, 1, 400, 60 + 120 + 10],
    ['film by the speed, talk as it is', ON, 2, 20, 20 / 2 + 30 + 120 + 5],
    ['from the clip that is on', SECOND, 1, 70, 30 + 120 + 10],
    ['the whole clip while a step lies over it', STEP, 1, 70, 220],
    ['nothing without a clip', NOTHING_SHOWN, 1, 10, 0],
  ])('%s', (_, screen, speed, at, left) => {
    expect(leftToShow(CLIPS, screen, speed, at)).toBe(left);
  });
});

describe('playing', () => {
  test('pause keeps what has run; play goes on from there', () => {
    expect(PAUSED).toEqual({ ...ON, playing: false, ran: 12, since: 22 });
    expect(turn(PAUSED, 30, { kind: 'pause' })).toBe(PAUSED);
    expect(turn({ ...PAUSED, dark: true }, 60, { kind: 'play' })).toEqual({ ...PAUSED, playing: true, since: 60 });
    expect(turn(ON, 60, { kind: 'play' })).toBe(ON);
    expect(turn(NOTHING_SHOWN, 60, { kind: 'play' })).toBe(NOTHING_SHOWN);
  });

  test('again begins the clip anew, and lights the room’s screen', () => {
    expect(turn({ ...TALKING, dark: true }, 200, { kind: 'again' })).toEqual({
      ...SECOND,
      ...{ playing: true, talking: false, dark: false, start: ON.start + 1, ran: 0, since: 200 },
    });
    expect(turn(NOTHING_SHOWN, 60, { kind: 'again' })).toBe(NOTHING_SHOWN);
  });

  test('a clip that is over is followed by the next, after the last by nothing', () => {
    const next = turn({ ...ON, ran: 7 }, 40, { kind: 'clip-over' });
    expect(next).toEqual({ ...ON, clip: 1, playing: true, start: ON.start + 1, ran: 0, since: 40 });
    const { clip: _, ...rest } = ON;
    expect(turn({ ...ON, clip: 2 }, 60, { kind: 'clip-over' })).toEqual({
      ...{ ...rest, playing: false, start: ON.start + 1, since: 60 },
    });
    expect(turn(NOTHING_SHOWN, 60, { kind: 'clip-over' })).toBe(NOTHING_SHOWN);
  });

  test('with a talk behind it, it stands still at its end until play', () => {
    expect(TALKING).toEqual({ ...SECOND, playing: false, talking: true, ran: 60, since: 100 });
    expect(turn(TALKING, 110, { kind: 'clip-over' })).toBe(TALKING);
    expect(turn(TALKING, 220, { kind: 'play' })).toMatchObject({ clip: 2, playing: true, talking: false, since: 220 });
  });
});

describe('a step by its number', () => {
  test('of this block is gone to, running or standing as before', () => {
    expect(turn(ON, 50, { kind: 'show', lesson: 'chain', step: 'step-3' })).toMatchObject({ clip: 2, playing: true });
    expect(turn(PAUSED, 50, { kind: 'show', lesson: 'chain', step: 'step-2' })).toMatchObject({
      ...{ clip: 1, playing: false, ran: 0, since: 50, start: ON.start + 1 },
    });
  });

  test('of another block lies over the plan and stands at its beginning', () => {
    expect(STEP).toEqual({
      ...ON,
      ...{ step: { lesson: 'chain', id: 'step-9' }, playing: false, start: ON.start + 1, since: 50 },
    });
    expect(turn(ON, 50, { kind: 'show', lesson: 'brakes', step: 'step-2' }).step).toEqual({
      ...{ lesson: 'brakes', id: 'step-2' },
    });
    expect(turn(TALKING, 150, { kind: 'show', lesson: 'chain', step: 'step-9' }).talking).toBe(false);
  });

  test('at its end it stands, and the plan’s clip does not follow', () => {
    const played = turn(STEP, 60, { kind: 'play' });
    expect(turn(played, 80, { kind: 'clip-over' })).toEqual({ ...played, playing: false, ran: 20, since: 80 });
  });

  test('is put away for the clip of the plan, from its beginning', () => {
    const { step: _, ...rest } = STEP;
    for (const event of [{ kind: 'show' }, { kind: 'show', lesson: 'chain' }, { kind: 'show', step: 'step-2' }])
      expect(turn(STEP, 90, event)).toEqual({ ...rest, start: STEP.start + 1, since: 90 });
    expect(turn(NOTHING_SHOWN, 90, { kind: 'show' }).clip).toBeUndefined();
  });

  test('that is in no lesson of the class changes nothing', () => {
    for (const event of [
      { lesson: 'chain', step: 'step-8' },
      { lesson: 'brakes', step: 'step-9' },
    ])
      expect(turn(ON, 50, { kind: 'show', ...event })).toBe(ON);
  });
});

test('slower and faster go through the speeds; what ran until then counts at the speed it ran', () => {
  expect(SPEEDS).toEqual([0.5, 0.75, 1, 1.25, 1.5]);
  const speeds = (from: number, kind: string) => turn({ ...ON, speed: from }, 20, { kind }).speed;
  expect([0.5, 0.75, 1, 1.1, 1.5].map((from) => speeds(from, 'faster'))).toEqual([0.75, 1, 1.25, 1.25, 1.5]);
  expect([0.5, 0.75, 1, 1.1, 1.5].map((from) => speeds(from, 'slower'))).toEqual([0.5, 0.5, 0.75, 0.75, 1.25]);
  expect(turn(ON, 20, { kind: 'faster' })).toEqual({ ...ON, speed: 1.25, ran: 10, since: 20 });
});

test('a year asked for stays until it is taken back', () => {
  const asked = turn(ON, 20, { kind: 'year', year: 2019 });
  expect(asked).toEqual({ ...ON, year: 2019 });
  expect(turn(asked, 30, { kind: 'year' })).toEqual(ON);
});

test('a dark screen stands still; lighting it starts nothing', () => {
  const dark = turn(ON, 22, { kind: 'dark', on: true });
  expect(dark).toEqual({ ...PAUSED, dark: true });
  expect(turn(dark, 30, { kind: 'dark', on: false })).toEqual(PAUSED);
  expect(turn(PAUSED, 30, { kind: 'dark', on: true })).toEqual(dark);
  expect(turn(ON, 30, { kind: 'dark', on: false })).toEqual(ON);
});

test('what does not concern the screen leaves it', () => {
  expect(turn(ON, 30, { kind: 'attendance', count: 8 })).toBe(ON);
});
