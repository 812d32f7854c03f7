import Timecode from 'smpte-timecode';
import { expect, test } from 'vitest';
import {
  FRAME_RATES,
  type FrameRate,
  findRate,
  frameStart,
  framesPerDay,
  parseTimecode,
  printTimecode,
  RATE_NAMES,
} from '../../../src/core/time/index.ts';
import published from './timecode.json' with { type: 'json' };

// timecode.json: labels enumerated one by one over 24 h with exact fractions (no formula), after the rule of
// SMPTE ST 12-1:2014 as W3C TTML2 `ttp:dropMode` states it; `publishedPairs` are those of OpenTimelineIO's
// tests/test_opentime.py; `ttmlSequence` is TTML2's own example. Labels 48-59 a second are SMPTE ST 12-3's.

function rateOf(name: string): FrameRate | undefined {
  return findRate(name.replace('ndf', ''));
}

/** 48000/1001 has labels of its own in the table; Liftside counts the rates cameras write. */
const NOT_COUNTED = ['47.952ndf'];

test('every rate of the table but the listed ones is counted', () => {
  const unknown = published.rates.map(({ id }) => id).filter((id) => !rateOf(id));
  expect(unknown).toEqual(NOT_COUNTED);
});

test.each(published.rates.filter(({ id }) => rateOf(id)))('$id counts a day of labels', (row) => {
  const rate = rateOf(row.id) ?? FRAME_RATES['24'];
  expect(framesPerDay(rate)).toBe(row.framesPerLabelledDay);
  expect(rate.nominal).toBe(row.nominal);
  expect(rate.dropped).toBe(row.labelsDroppedPerDroppingMinute);
  const [numerator, denominator = 1] = row.framesPerSecond.split('/').map(Number);
  expect([rate.numerator, rate.denominator]).toEqual([numerator, denominator]);
});

test.each(published.pairs.filter(({ rate }) => rateOf(rate)))(
  '$rate: frame $frame is $timecode, $seconds s',
  (pair) => {
    const rate = rateOf(pair.rate) ?? FRAME_RATES['24'];
    expect(printTimecode(pair.frame, rate)).toBe(pair.timecode);
    expect(parseTimecode(pair.timecode, rate)).toEqual({ ok: true, value: pair.frame });
    expect(frameStart(pair.frame, rate)).toBe(pair.ticks);
  },
);

test('no pair was left out but those of the rates listed above', () => {
  expect(published.pairs.filter(({ rate }) => !rateOf(rate)).every(({ rate }) => NOT_COUNTED.includes(rate))).toBe(
    true,
  );
  expect(published.pairs.filter(({ rate }) => rateOf(rate)).length).toBeGreaterThan(110);
});

test.each(published.publishedPairs)(
  '$rate: frame $frame is $timecode (OpenTimelineIO)',
  ({ rate: name, frame, timecode }) => {
    const rate = rateOf(name) ?? FRAME_RATES['24'];
    expect(printTimecode(frame, rate)).toBe(timecode);
    expect(parseTimecode(timecode, rate)).toEqual({ ok: true, value: frame });
  },
);

test("TTML2's labels follow each other", () => {
  const { labels, firstFrame } = published.ttmlSequence;
  expect(labels.map((_, i) => printTimecode(firstFrame + i, FRAME_RATES['29.97df']))).toEqual(labels);
});

test.each([...published.illegal, ...published.disputed])(
  '$timecode is refused at $rate',
  ({ rate: name, timecode }) => {
    const read = parseTimecode(timecode, rateOf(name) ?? FRAME_RATES['24']);
    expect(read.ok).toBe(false);
  },
);

test.each(published.legalAtTenMinutes)('$timecode is a label at $rate', ({ rate: name, timecode }) => {
  expect(parseTimecode(timecode, rateOf(name) ?? FRAME_RATES['24']).ok).toBe(true);
});

test.each([
  ['00:01:00;00', '29.97df', '00:00:59;29', '00:01:00;02'],
  ['00:01:00;03', '59.94df', '00:00:59;59', '00:01:00;04'],
  ['00:00:00;30', '29.97df', '00:00:00;29', '00:00:01;00'],
  ['00:00:59;30', '29.97df', '00:00:59;29', '00:01:00;02'],
  ['00:60:00;02', '29.97df', '00:59:59;29', '01:00:00;00'],
  ['23:59:59:25', '25', '23:59:59:24', '00:00:00:00'],
  ['24:00:00:00', '25', '23:59:59:24', '00:00:00:00'],
] as const)('refusing %s at %s names %s and %s', (label, name, before, after) => {
  const read = parseTimecode(label, FRAME_RATES[name]);
  expect(read.ok ? '' : read.help).toContain(`the nearest labels are ${before} and ${after}`);
});

// An independent implementation, walked label by label over a whole day.
test('every frame of a day at 29.97 drop-frame is labelled as npm smpte-timecode labels it', () => {
  const rate = FRAME_RATES['29.97df'];
  const theirs = new Timecode(0, 29.97, true);
  const wrong: string[] = [];
  for (let frame = 0; frame < framesPerDay(rate); frame++) {
    const ours = printTimecode(frame, rate);
    if (ours !== label(theirs, ';')) wrong.push(`${frame}: ${ours}, theirs ${label(theirs, ';')}`);
    theirs.add(1);
  }
  expect(wrong.slice(0, 5)).toEqual([]);
  expect(label(theirs, ';')).toBe('00:00:00;00');
});

test.each(RATE_NAMES)('each 97th frame of a day at %s is labelled as npm smpte-timecode labels it', (name) => {
  const rate = FRAME_RATES[name];
  const drop = rate.dropped > 0;
  const wrong: string[] = [];
  for (let frame = 0; frame < framesPerDay(rate); frame += 97) {
    const theirs = label(new Timecode(frame, Number(name.replace('df', '')), drop), drop ? ';' : ':');
    if (printTimecode(frame, rate) !== theirs) wrong.push(`${frame}: ${theirs}`);
  }
  expect(wrong).toEqual([]);
});

function label(
  timecode: { hours: number; minutes: number; seconds: number; frames: number },
  separator: string,
): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(timecode.hours)}:${two(timecode.minutes)}:${two(timecode.seconds)}${separator}${two(timecode.frames)}`;
}
