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
import { published } from '../../support/published.ts';
import copied from './timecode.json' with { type: 'json' };

const reference = published(copied);
const ST_12 = reference.values['SMPTE ST 12-1:2014 and ST 12-3:2016, clauses on counting'];
const OTIO = reference.values['OpenTimelineIO 0.18.1, tests/test_opentime.py'];

function rateOf(name: string): FrameRate {
  const rate = findRate(name.replace('ndf', ''));
  if (!rate) throw new Error(`no rate ${name}`);
  return rate;
}

test.each(ST_12.rates)('$id counts a day of labels', (row) => {
  const rate = rateOf(row.id);
  expect(framesPerDay(rate)).toBe(row.framesPerLabelledDay);
  expect(rate.nominal).toBe(row.nominal);
  expect(rate.dropped).toBe(row.labelsDroppedPerDroppingMinute);
  const [numerator, denominator = 1] = row.framesPerSecond.split('/').map(Number);
  expect([rate.numerator, rate.denominator]).toEqual([numerator, denominator]);
});

test('every rate that is counted is in the table', () => {
  expect(new Set(ST_12.rates.map(({ id }) => rateOf(id)))).toEqual(new Set(Object.values(FRAME_RATES)));
});

test.each(ST_12.pairs)('$rate: frame $frame is $timecode', (pair) => {
  const rate = rateOf(pair.rate);
  expect(printTimecode(pair.frame, rate)).toBe(pair.timecode);
  expect(parseTimecode(pair.timecode, rate)).toEqual({ ok: true, value: pair.frame });
  expect(frameStart(pair.frame, rate)).toBe(pair.ticks);
});

test.each(OTIO.pairs)('$rate: frame $frame is $timecode (OpenTimelineIO)', ({ rate: name, frame, timecode }) => {
  const rate = rateOf(name);
  expect(printTimecode(frame, rate)).toBe(timecode);
  expect(parseTimecode(timecode, rate)).toEqual({ ok: true, value: frame });
});

test("TTML2's labels follow each other", () => {
  const { rate, labels, firstFrame } = reference.values['W3C TTML2, 2018, section 12.3, time expressions'];
  expect(labels.map((_, i) => printTimecode(firstFrame + i, rateOf(rate)))).toEqual(labels);
});

test.each([...ST_12.refused, ...OTIO.refused])('$timecode is refused at $rate', ({ rate, timecode }) => {
  expect(parseTimecode(timecode, rateOf(rate)).ok).toBe(false);
});

test.each(ST_12.accepted)('$timecode is a label at $rate', ({ rate, timecode }) => {
  expect(parseTimecode(timecode, rateOf(rate)).ok).toBe(true);
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

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
