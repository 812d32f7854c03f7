import fc from 'fast-check';
import { expect, test } from 'vitest';
import { writeMoment } from '../../../src/core/edit/index.ts';
import {
  evenGrid,
  FRAME_RATES,
  fileAt,
  frameStart,
  framesPerDay,
  measuredGrid,
  parseMoment,
  parseTimecode,
  placeFiles,
  printTimecode,
  RATE_NAMES,
  TICKS_PER_SECOND,
  ticks,
  toSeconds,
} from '../../../src/core/time/index.ts';
import { at, spans } from '../../support/edit.ts';

const df = FRAME_RATES['29.97df'];
const frame = (label: string) => {
  const read = parseTimecode(label, df);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};

test('on a measured grid a moment snaps to pictures that exist', () => {
  const grid = measuredGrid([0, 0.04, 0.05, 0.09].map(at), at(0.13));
  const snapped = (s: number) => [grid.down(at(s)), grid.up(at(s)), grid.nearest(at(s))].map(toSeconds);
  expect(snapped(0.06)).toEqual([0.05, 0.09, 0.05]);
  expect(snapped(0.05)).toEqual([0.05, 0.05, 0.05]);
  expect(snapped(0.08)).toEqual([0.05, 0.09, 0.09]);
  expect(snapped(0.1)).toEqual([0.09, 0.13, 0.09]);
  expect(snapped(9)).toEqual([0.13, 0.13, 0.13]);
});

test('a grid without pictures, or with pictures out of order, is refused', () => {
  expect(() => measuredGrid([], at(1))).toThrow(RangeError);
  expect(() => measuredGrid([0, 2, 1].map(at), at(3))).toThrow('presentation time 2');
});

test('an even grid and its own times measured snap alike', () => {
  const rate = FRAME_RATES['59.94'];
  const even = evenGrid(rate);
  const measured = measuredGrid(
    Array.from({ length: 400 }, (_, i) => frameStart<'recording'>(i, rate)),
    frameStart<'recording'>(400, rate),
  );
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 400 * rate.ticksPerFrame }), (moment) => {
      expect([measured.down(moment), measured.up(moment), measured.nearest(moment)]).toEqual([
        even.down(moment),
        even.up(moment),
        even.nearest(moment),
      ]);
    }),
  );
});

test('an even grid and its own times measured step and read written times alike; a step on and back is none', () => {
  const rate = FRAME_RATES['29.97'];
  const [even, per] = [evenGrid(rate), rate.ticksPerFrame];
  const measured = measuredGrid(
    Array.from({ length: 400 }, (_, i) => frameStart<'recording'>(i, rate)),
    frameStart<'recording'>(400, rate),
  );
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 300 * per }), fc.integer({ min: -50, max: 50 }), (moment, count) => {
      expect([measured.shown(moment), measured.ended(moment), measured.step(moment, count)]).toEqual([
        even.shown(moment),
        even.ended(moment),
        even.step(moment, count),
      ]);
      expect(measured.step(measured.step(moment, 1), -1)).toBe(measured.shown(moment));
    }),
  );
});

// Pictures of 3 ms and more: the shortest a written thousandth tells apart from its neighbours.
test('a start and an end written in thousandths come back to the picture they were written for', () => {
  const lengths = fc.array(fc.integer({ min: (3 * TICKS_PER_SECOND) / 1000, max: TICKS_PER_SECOND }), { minLength: 1 });
  fc.assert(
    fc.property(lengths, fc.nat(), (row, pick) => {
      const edges = [0];
      for (const length of row) edges.push((edges.at(-1) ?? 0) + length);
      const end = ticks<'recording'>(edges.at(-1) ?? 0);
      const grid = measuredGrid(
        edges.slice(0, -1).map((edge) => ticks<'recording'>(edge)),
        end,
      );
      const labels = { grid, uneven: true, startFrame: 0 };
      const edge = ticks<'recording'>(edges[pick % edges.length] ?? 0);
      const reread = (leaning: 'start' | 'end') => {
        const read = parseMoment(writeMoment(edge, leaning, labels), { startFrame: 0, grid }, leaning);
        return read.ok ? read.value : undefined;
      };
      if (edge < end) expect(reread('start')).toBe(edge);
      if (edge > 0) expect(reread('end')).toBe(edge);
    }),
  );
});

test('files without timecode follow each other', () => {
  const placed = placeFiles([{ picture: at(10) }, { picture: at(5) }], df);
  expect(spans(placed.map((file) => file.at))).toBe('0-10 10-15');
});

test('files with timecode lie where their labels say, gaps included', () => {
  const minute = frameStart<'recording'>(frame('01:10:00;00') - frame('01:00:00;00'), df);
  const placed = placeFiles(
    [
      { picture: minute, startFrame: frame('01:00:00;00') },
      { picture: minute, startFrame: frame('01:10:00;00') },
      { picture: at(1), startFrame: frame('01:20:01;00') },
      { picture: at(1) },
    ],
    df,
  );
  expect(placed.map(({ gap }) => gap / df.ticksPerFrame)).toEqual([0, 0, 30, 0]);
  expect(placed[3]?.at.start).toBe(placed[2]?.at.end);
});

test('labels go on past midnight', () => {
  const placed = placeFiles(
    [
      { picture: frameStart(30, df), startFrame: frame('23:59:59;00') },
      { picture: frameStart(30, df), startFrame: frame('00:00:01;00') },
    ],
    df,
  );
  expect(placed[1]).toMatchObject({ gap: 30 * df.ticksPerFrame, overlap: 0 });
});

test('a file that says it begins inside the one before starts at its end and says by how much', () => {
  const placed = placeFiles(
    [
      { picture: frameStart(60, df), startFrame: frame('01:00:00;00') },
      { picture: frameStart(60, df), startFrame: frame('01:00:01;00') },
    ],
    df,
  );
  expect(placed[1]).toMatchObject({ gap: 0, overlap: 30 * df.ticksPerFrame });
});

test('a clock that was set back is no gap of most of a day', () => {
  const placed = placeFiles(
    [
      { picture: frameStart(60, df), startFrame: frame('01:00:00;00') },
      { picture: frameStart(60, df), startFrame: frame('00:00:00;00') },
    ],
    df,
  );
  expect(placed[1]).toMatchObject({ gap: 0, overlap: (frame('01:00:00;00') + 60) * df.ticksPerFrame });
});

test('the picture decides the length; the sound only says how much it differs', () => {
  const [first, second] = placeFiles(
    [
      { picture: at(10), sound: at(10.02) },
      { picture: at(5), sound: at(4.9) },
    ],
    df,
  );
  expect(first?.at.end).toBe(at(10));
  expect(first?.soundLonger).toBe(at(0.02));
  expect(second?.soundLonger).toBe(at(4.9) - at(5));
});

test('recordings longer than a day keep counting', () => {
  const day = frameStart<'recording'>(framesPerDay(df), df);
  const placed = placeFiles(
    [
      { picture: day, startFrame: 0 },
      { picture: at(1), startFrame: 0 },
    ],
    df,
  );
  expect(placed[1]?.gap).toBe(0);
});

test('a moment names its camera file, or nothing in a gap', () => {
  const files = [
    { start: at(0), end: at(4) },
    { start: at(6), end: at(20) },
  ];
  expect(fileAt(files, at(7))).toEqual({ index: 1, into: at(1) });
  expect(fileAt(files, at(4))).toBeUndefined();
});

test.each(RATE_NAMES)('at %s every label reads back as its frame, labels go up, and the day wraps', (name) => {
  const rate = FRAME_RATES[name];
  const frames = fc.integer({ min: 0, max: framesPerDay(rate) - 1 });
  fc.assert(
    fc.property(frames, (n) => {
      const label = printTimecode(n, rate);
      expect(parseTimecode(label, rate)).toEqual({ ok: true, value: n });
      expect(printTimecode(n + framesPerDay(rate), rate)).toBe(label);
      expect(printTimecode(n - framesPerDay(rate), rate)).toBe(label);
      if (n > 0) expect(printTimecode(n - 1, rate) < label).toBe(true);
      expect(Number.isSafeInteger(ticks(n * rate.ticksPerFrame))).toBe(true);
    }),
  );
});
