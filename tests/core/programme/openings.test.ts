import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type PlayPiece,
  type PlayPlan,
  pieceAt,
  piecesByOpening,
  planFromJson,
  planOpenings,
  planToJson,
  playPieces,
} from '../../../src/core/programme/index.ts';
import { fromSeconds, type Range, toSeconds } from '../../../src/core/time/index.ts';
import { edit, span } from '../../support/edit.ts';

const at = (seconds: number) => fromSeconds<'programme'>(seconds);
const words = ({ start, end }: Range<'recording'>) => `${toSeconds(start)}-${toSeconds(end)}`;
const plan = (kept: string, ...openings: string[]): PlayPlan => ({
  files: [
    { url: 'a', recording: span('0-300') },
    { url: 'b', recording: span('300-600') },
  ],
  kept: edit(kept),
  openings: openings.map((held) => ({ url: `of ${held}`, recording: span(held) })),
});
const through = (played: PlayPlan, moment: number) =>
  piecesByOpening(played, playPieces(played), at(moment)).map(({ file, recording }) => `${file}: ${words(recording)}`);

// How long an opening is, what of it is spared and which file is short: of our own, no source.
test.each([
  [
    'from the start and from each part, twelve seconds and half a second to spare',
    '0-600',
    [0, 100],
    ['0: 0-12.5', '0: 100-112.5'],
  ],
  ['a chapter and its first step share one', '0-600', [100, 100, 50], ['0: 50-62.5', '0: 100-112.5']],
  ['no longer than it plays without a jump', '0-105 200-600', [100, 103.5], ['0: 100-105.5']],
  ['no longer than its file', '0-600', [297], ['0: 297-300']],
  ['where in the recording a moment lies', '0-100 200-600', [150], ['0: 250-262.5']],
  ['in the second file', '0-600', [400], ['1: 400-412.5']],
])('openings are worth making: %s', (_, kept, starts, expected) => {
  expect(planOpenings(plan(kept), starts.map(at)).map(({ file, recording }) => `${file}: ${words(recording)}`)).toEqual(
    expected,
  );
});

test('a short film needs none', () => {
  const of = (seconds: number) =>
    planOpenings({ files: [{ url: 'a', recording: span(`0-${seconds}`) }], kept: edit(`0-${seconds}`) }, [at(0)]);
  expect([of(120).length, of(121).length]).toEqual([0, 1]);
});

test.each([
  [
    'the opening that holds the moment goes first, and the file after it',
    102,
    ['0: 0-100', '2: 100-112', '0: 112-300', '1: 300-600'],
  ],
  ['where none holds it, there is only the file', 99, ['0: 0-300', '1: 300-600']],
  ['nor with less than two seconds of it to come', 110.1, ['0: 0-300', '1: 300-600']],
  ['two seconds are enough', 110, ['0: 0-100', '2: 100-112', '0: 112-300', '1: 300-600']],
  ['of two the one that begins last', 405, ['0: 0-300', '1: 300-404', '4: 404-416', '1: 416-600']],
])('%s', (_, moment, expected) => {
  expect(through(plan('0-600', '100-112.5', '400-412.5', '404-416.5'), moment)).toEqual(expected);
});

test('an opening is left where the film jumps, and says nothing of what is cut', () => {
  expect(through(plan('0-105 200-600', '100-112.5'), 104)).toEqual([
    '0: 0-100',
    '2: 100-105',
    '0: 200-300',
    '1: 300-600',
  ]);
  // It was made from a picture in the cut before.
  expect(through(plan('0-90 100-600', '97-112.5'), 90)).toEqual(['0: 0-90', '2: 100-112', '0: 112-300', '1: 300-600']);
});

test('through openings or not, each moment of the programme is the same moment of the recording', () => {
  const held = plan('0-105 200-350 360-600', '0-12.5', '97-105.5', '210-222.5', '295-300', '300-312.5');
  const whole = playPieces(held);
  const shown = (pieces: readonly PlayPiece[], moment: number) => {
    const piece = pieces[pieceAt(pieces, at(moment))];
    return piece && at(moment) - piece.programme.start + piece.recording.start;
  };
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 494 }), fc.integer({ min: 0, max: 494 }), (from, moment) => {
      const pieces = piecesByOpening(held, whole, at(from));
      expect(shown(pieces, moment)).toBe(shown(whole, moment));
      for (const { file, recording } of pieces) {
        const { start, end } = [...held.files, ...(held.openings ?? [])][file]!.recording;
        expect(start <= recording.start && recording.end <= end).toBe(true);
      }
    }),
  );
});

test('openings travel with the plan of a page', () => {
  const held = plan('0-600', '100-112.5');
  expect(planFromJson(JSON.parse(JSON.stringify(planToJson(held))))).toEqual(held);
  expect('openings' in planToJson(plan('0-600'))).toBe(false);
});
