import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  filePosition,
  finishedPlan,
  finishedSpans,
  type PlayPlan,
  pieceAt,
  planFromJson,
  planToJson,
  playLength,
  playPieces,
  programmeMoment,
} from '../../../src/core/programme/index.ts';
import {
  type EditList,
  editList,
  FRAME_RATES,
  fromSeconds,
  type Range,
  range,
  TICKS_PER_SECOND,
  ticks,
  toProgramme,
  toSeconds,
} from '../../../src/core/time/index.ts';

const span = (from: number, to: number) => range<'recording'>(fromSeconds(from), fromSeconds(to));
const kept = (text: string): EditList =>
  editList(text.split(' ').map((r) => span(...(r.split('-').map(Number) as [number, number]))));
const files = (...ends: number[]) =>
  ends.map((end, i) => ({ url: `${i}.mp4`, recording: span(ends[i - 1] ?? 0, end) }));
const plan = (edit: string, ...ends: number[]): PlayPlan => ({ files: files(...ends), kept: kept(edit) });
const words = (p: PlayPlan) =>
  playPieces(p).map(
    ({ file, recording, programme }) =>
      `${file}: ${toSeconds(recording.start)}-${toSeconds(recording.end)} at ${toSeconds(programme.start)}`,
  );

test.each([
  ['0-10', [10], ['0: 0-10 at 0']],
  ['0-4 6-20', [20], ['0: 0-4 at 0', '0: 6-20 at 4']],
  ['0-4 6-20', [10, 20], ['0: 0-4 at 0', '0: 6-10 at 4', '1: 10-20 at 8']],
  ['12-14', [10, 20], ['1: 12-14 at 0']],
  // Kept beyond the last file: nothing to show there.
  ['0-30', [10], ['0: 0-10 at 0']],
])('keeping %s of files ending at %j plays %j', (edit, ends, expected) => {
  expect(words(plan(edit, ...ends))).toEqual(expected);
});

test('a gap between camera files is stepped over', () => {
  const gap: PlayPlan = {
    files: [
      { url: 'a', recording: span(0, 10) },
      { url: 'b', recording: span(12, 20) },
    ],
    kept: kept('0-20'),
  };
  expect(words(gap)).toEqual(['0: 0-10 at 0', '1: 12-20 at 12']);
  expect(pieceAt(playPieces(gap), fromSeconds(11))).toBe(1);
});

test('past the end the last piece holds; with nothing kept there is none', () => {
  const pieces = playPieces(plan('0-4 6-20', 20));
  expect(pieceAt(pieces, fromSeconds(99))).toBe(1);
  expect(pieceAt([], ticks(0))).toBe(-1);
});

const plans = fc
  .tuple(
    fc.array(fc.tuple(fc.integer({ min: 0, max: 3000 }), fc.integer({ min: 1, max: 400 })), {
      minLength: 1,
      maxLength: 8,
    }),
    fc.array(fc.integer({ min: 1, max: 3400 }), { minLength: 1, maxLength: 4 }),
    fc.constantFrom(...Object.values(FRAME_RATES)),
  )
  .map(([ranges, ends, rate]): PlayPlan => {
    const frames = (n: number) => ticks<'recording'>(n * rate.ticksPerFrame);
    const stops = [...new Set([...ends, 3400])].toSorted((a, b) => a - b);
    return {
      files: stops.map((end, i) => ({ url: String(i), recording: range(frames(stops[i - 1] ?? 0), frames(end)) })),
      kept: editList(
        ranges.map(([start, length]) => range(frames(start), frames(start + length)) as Range<'recording'>),
      ),
      frame: rate.ticksPerFrame,
    };
  });

test('pieces lie end to end and cover the whole programme', () => {
  fc.assert(
    fc.property(plans, (p) => {
      const pieces = playPieces(p);
      let at = 0;
      for (const { programme, recording } of pieces) {
        expect(programme.start).toBe(at);
        expect(toProgramme(p.kept, recording.start).at).toBe(at);
        at = programme.end;
      }
      expect(at).toBe(playLength(p));
    }),
  );
});

test('a position in a file is the middle of the frame of that moment, and comes back within it', () => {
  fc.assert(
    fc.property(plans, fc.double({ min: 0, max: 0.999, noNaN: true }), (p, share) => {
      const pieces = playPieces(p);
      const moment = ticks<'programme'>(Math.floor(playLength(p) * share));
      const piece = pieces[pieceAt(pieces, moment)]!;
      const seconds = filePosition(p, piece, moment);
      const frames = (seconds * TICKS_PER_SECOND) / p.frame!;
      expect(Math.abs(frames - Math.floor(frames) - 0.5)).toBeLessThan(1e-6);
      expect(Math.floor(programmeMoment(p, piece, seconds) / p.frame!)).toBe(Math.floor(moment / p.frame!));
    }),
  );
});

test('a plan survives the page as JSON', () => {
  fc.assert(
    fc.property(plans, (p) => {
      expect(planFromJson(JSON.parse(JSON.stringify(planToJson(p))))).toEqual(p);
    }),
  );
});

test('a finished programme in several files is one programme: clock, seek and the end of one file into the next', () => {
  const film = { length: 20, frame: 2, parts: [{ length: 12 }, { length: 8 }] };
  const divided = finishedPlan('chain', film, (file) => `film/${file}`);
  expect(divided.files.map(({ url }) => url)).toEqual(['film/chain.1.mp4', 'film/chain.2.mp4']);
  expect(finishedSpans(film)).toEqual([range(ticks(0), ticks(12)), range(ticks(12), ticks(20))]);
  expect(playLength(divided)).toBe(20);
  const pieces = playPieces(divided);
  expect(pieces.map(({ programme }) => [programme.start, programme.end])).toEqual([
    [0, 12],
    [12, 20],
  ]);
  // The seventh frame is the first of the second file; a position aims at the middle of a frame.
  const place = pieceAt(pieces, ticks(12));
  expect(place).toBe(1);
  expect(filePosition(divided, pieces[place]!, ticks(12)) * TICKS_PER_SECOND).toBeCloseTo(1, 3);
  expect(programmeMoment(divided, pieces[place]!, toSeconds(ticks(4)))).toBe(16);
  expect(finishedPlan('chain', { length: 20, frame: 2 }, (file) => file).files.map(({ url }) => url)).toEqual([
    'chain.mp4',
  ]);
});
