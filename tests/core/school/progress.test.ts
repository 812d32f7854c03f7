import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Asked,
  MOST_SUSPENDED,
  nothingDone,
  played,
  progressText,
  readProgress,
  sumOf,
} from '../../../src/core/school/index.ts';

const ASKED: Asked = {
  lesson: 'chain',
  steps: [
    { id: 'crack-the-nut', start: 10, end: 26 },
    { id: 'pull-the-axle', start: 26, end: 30 },
    { id: 'by-hand', start: 0, end: 0 },
  ],
  readings: ['measure.chain-slack'],
};

test('a step is watched when it was played, not when it was jumped over; what has no film is ticked', () => {
  const begun = nothingDone(ASKED);
  expect(sumOf(ASKED, begun)).toMatchObject({ watched: 0, steps: 3, taken: 0, readings: 1, share: 0, complete: false });
  const half = played(ASKED, begun, 10, 18);
  expect(sumOf(ASKED, half).watched).toBe(0);
  const first = played(ASKED, half, 18, 26);
  expect(sumOf(ASKED, first)).toMatchObject({ watched: 1, share: 0.25 });
  const both = played(ASKED, first, 26, 30);
  expect(sumOf(ASKED, { ...both, ticked: [false, false, true] })).toMatchObject({ watched: 3, complete: false });
  expect(sumOf(ASKED, { ...both, ticked: [true, true, false], taken: [true] })).toMatchObject({
    watched: 2,
    complete: false,
  });
  expect(sumOf(ASKED, { ...both, ticked: [false, false, true], taken: [true] })).toMatchObject({
    share: 1,
    complete: true,
  });
});

test('played in pieces of any length, it comes to the same', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0.01, max: 3, noNaN: true }), { minLength: 30, maxLength: 60 }),
      (lengths) => {
        let progress = nothingDone(ASKED);
        let at = 8;
        for (const length of lengths) {
          progress = played(ASKED, progress, at, at + length);
          at += length;
        }
        expect(progress.watched).toEqual(played(ASKED, nothingDone(ASKED), 8, at).watched);
      },
    ),
  );
});

test('what is kept comes back; what belongs to another lesson or was changed does not', () => {
  const progress = { ...played(ASKED, nothingDone(ASKED), 10, 21.04), ticked: [false, true, false], taken: [true] };
  const text = progressText(ASKED, progress);
  expect(readProgress(ASKED, text)).toEqual({ ...progress, at: 21 });
  const other = { ...ASKED, steps: ASKED.steps.slice(1) };
  expect(readProgress(other, text)).toBeUndefined();
  for (const wrong of ['', text.replace('1;', '2;'), text.slice(0, -1), `${text}1`, text.replace(/;[0-9.]+;/, ';NaN;')])
    expect(readProgress(ASKED, wrong)).toBeUndefined();
});

test('a lesson of six hundred steps is kept in what SCORM 1.2 gives', () => {
  const steps = Array.from({ length: 600 }, (_, i) => ({ id: `step-${i}`, start: i, end: i + 1 }));
  const long = { ...ASKED, steps };
  const text = progressText(long, { ...nothingDone(long), at: 86_400 });
  expect(text.length).toBeLessThan(MOST_SUSPENDED);
  expect(readProgress(long, text)?.watched).toHaveLength(600);
});
