import { describe, expect, test } from 'vitest';
import {
  both,
  check,
  lesson,
  replaceIn,
  SAMPLE_TODAY,
  type Sample,
  sampleContent,
} from '../../../src/core/check/index.ts';
import { cues } from '../../../src/core/check/rules/captions.ts';
import { ANGLES } from '../../../src/core/check/sample.ts';
import type { SpeechBy } from '../../../src/core/media/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { range, TICKS_PER_SECOND, ticks } from '../../../src/core/time/index.ts';

// Each threshold of a rule from both sides: at it nothing is told, just past it something is. The numbers are the ones the
// rules name with their sources; what is tested here is that they stay what they are.

type Heard = readonly (readonly [from: number, to: number])[];

/** Messages of one rule for a sample. @param heard where the sound of "chain" has speech, s, and how it was found */
function told(rule: string, sample: Sample, heard?: Heard, by: SpeechBy = 'loudness'): string[] {
  const { texts, facts } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts);
  const at = (seconds: number) => ticks<'recording'>(Math.round(seconds * TICKS_PER_SECOND));
  const speech = heard && new Map([['chain', { by, stretches: heard.map(([from, to]) => range(at(from), at(to))) }]]);
  return check(shop, diagnostics, { today: sample.today ?? SAMPLE_TODAY, ...(speech ? { speech } : {}) })
    .filter((each) => each.rule === rule)
    .map(({ message }) => message);
}

const clock = (seconds: number) =>
  `${String(Math.floor(seconds / 60)).padStart(2, '0')}:${(seconds % 60).toFixed(3).padStart(6, '0')}`;

describe('sound-ends-early: half a second', () => {
  const sound = (seconds: number): Sample => ({ files: {}, sound: { 'media/chain.mp4': seconds } });
  test.each([
    [599.5, 0],
    [599.499, 1],
  ])('sound of %d s under a picture of 600 s', (seconds, count) =>
    expect(told('sound-ends-early', sound(seconds))).toHaveLength(count),
  );
});

describe('angle-outside-footage: a millisecond', () => {
  // The range ends at 9:00; the angle's file lasts 10:00, so that its offset says where it ends.
  const shown = (offset: string) =>
    replaceIn('recordings/chain.yaml', '  - {in: "0:06:00", out: "0:09:00"}\n', ANGLES('side', offset));
  test.each([
    ['0:06:00', 0],
    ['0:06:00.001', 0],
    ['0:06:00.002', 1],
  ])('an angle that begins at %s of a range from 6:00 on', (offset, count) =>
    expect(told('angle-outside-footage', shown(offset))).toHaveLength(count),
  );
});

describe('caption-gap', () => {
  const GAP = (seconds: number) =>
    cues(
      `00:12.000 --> 04:30.000\nHold.\n\n06:00.000 --> 06:10.000\nPull.\n\n${clock(370 + seconds)} --> 09:00.000\nPush.`,
      '',
    );
  test.each([
    [60, 0],
    [60.1, 1],
  ])('without captions for %d s of the programme', (seconds, count) =>
    expect(told('caption-gap', GAP(seconds))).toHaveLength(count),
  );

  // A caption counts 1.5 s before and after the words: of what is heard the gap is three seconds shorter.
  test.each([
    [33, 0],
    [33.1, 1],
  ])('without captions for %d s of what is heard', (seconds, count) =>
    expect(told('caption-gap', GAP(seconds), [[360, 540]])).toHaveLength(count),
  );

  test.each([
    [5, 0],
    [5.1, 1],
  ])('without captions for %d s of what a network takes for speech', (seconds, count) => {
    const found = told('caption-gap', GAP(seconds), [[360, 540]], 'network');
    expect(found).toHaveLength(count);
    if (count > 0) expect(found[0]).toBe('after 0:06:10 no caption comes for 0:00:02.1 of speech');
  });

  test('where nothing is heard, nothing is missing', () =>
    expect(told('caption-gap', GAP(100), [[360, 370]])).toEqual([]));

  test('what is cut needs no caption', () => {
    // 4:30 to 5:00 is kept, 5:00 to 6:00 is cut: half a minute without.
    expect(told('caption-gap', GAP(0))).toEqual([]);
  });
});

describe('caption-too-fast', () => {
  const fast = (words: number, seconds: number) =>
    cues(`00:12.000 --> ${clock(12 + seconds)}\n${Array.from({ length: words }, () => 'on').join(' ')}`);
  test.each([
    [3, 0.5, 0],
    [4, 0.5, 1],
  ])('%d words are looked at in %d s', (words, seconds, count) =>
    expect(told('caption-too-fast', fast(words, seconds))).toHaveLength(count),
  );

  test('up to 200 a minute are not called hard to follow, more are', () => {
    expect(told('caption-too-fast', fast(20, 6)).join()).toMatch(/200 words a minute$/);
    expect(told('caption-too-fast', fast(21, 6)).join()).toContain('210 words a minute, which is hard to follow');
  });
});

test('of one kind five captions are told, and how many more there are', () => {
  const short = (count: number) =>
    cues(
      Array.from({ length: count }, (_, i) => `${clock(12 + i)} --> ${clock(12.5 + i)}\nOn.`).join('\n\n'),
      '\n00:30.000 --> 04:50.000\n[working]\n\n06:00.000 --> 09:00.000\n[working]\n',
    );
  expect(told('caption-too-short', short(5))).toHaveLength(5);
  const six = told('caption-too-short', short(7));
  expect(six).toHaveLength(6);
  expect(six[5]).toMatch(/^2 more captions/);
});

test('a caption is quoted up to 40 characters whole, of a longer one the first 39', () => {
  const of = (length: number) =>
    told('caption-past-end', cues(`10:12.000 --> 10:16.000\n${'x'.repeat(length)}`)).join();
  expect(of(40)).toContain(`"${'x'.repeat(40)}"`);
  expect(of(41)).toContain(`"${'x'.repeat(39)}…"`);
});

describe('caption-past-end and caption-overlap', () => {
  test.each([
    ['09:59.999', 0],
    ['10:00.000', 1],
  ])('a caption at %s of a recording of ten minutes', (at, count) =>
    expect(told('caption-past-end', cues(`${at} --> 10:16.000\nOn.`))).toHaveLength(count),
  );

  test.each([
    ['00:16.000', 0],
    ['00:15.999', 1],
  ])('a caption at %s after one that ends at 0:16', (at, count) =>
    expect(told('caption-overlap', cues(`00:12.000 --> 00:16.000\nOn.\n\n${at} --> 00:18.000\nOff.`))).toHaveLength(
      count,
    ),
  );
});

describe('class-time-outside-slot', () => {
  const at = (written: string) =>
    replaceIn('classes/saturday.yaml', '    kind: screen\n', `    kind: screen\n    ${written}\n`);
  test.each([
    ['at: "10:00"', 0],
    ['at: "09:59"', 1],
    ['at: "12:00"', 0],
    ['at: "12:01"', 1],
    ['between: ["10:30", "12:30"]', 0],
    ['between: ["10:30", "12:31"]', 1],
    ['between: ["11:00", "10:59"]', 1],
  ])('%s in a slot from 10:00 to 12:00', (written, count) =>
    expect(told('class-time-outside-slot', at(written))).toHaveLength(count),
  );
});

describe('review-overdue', () => {
  const checked = (day: string, months: number, today: string): Sample => ({
    ...replaceIn('specs/tarn-420.yaml', 'checkedOn: 2026-10-03\n', `checkedOn: ${day}\n    reviewMonths: ${months}\n`),
    today,
  });
  test.each([
    ['2025-01-31', 1, '2025-02-28', 0],
    ['2025-01-31', 1, '2025-03-01', 1],
    ['2024-01-31', 1, '2024-02-29', 0],
    ['2025-11-15', 3, '2026-02-15', 0],
    ['2025-11-15', 3, '2026-02-16', 1],
  ])('compared on %s, every %d months, on %s', (day, months, today, count) =>
    expect(told('review-overdue', checked(day, months, today))).toHaveLength(count),
  );
});

describe('unit-slip-likely: a hundredth off', () => {
  // 98 N·m read as lbf·ft: 98 / 1.355 818 = 72.28.
  const former = (value: number) =>
    replaceIn(
      'specs/tarn-420.yaml',
      '    nominal: 98\n',
      `    history:\n      - {until: 2022-01-01, nominal: ${value}, unit: N·m}\n    nominal: 98\n`,
    );
  test.each([
    [71.5, 0],
    [71.6, 1],
    [73.0, 1],
    [73.1, 0],
  ])('98 N·m, formerly %d N·m', (value, count) => expect(told('unit-slip-likely', former(value))).toHaveLength(count));
});

describe('quantity-in-prose: three marks of emphasis', () => {
  const prose = (text: string) =>
    lesson(`## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\n\n${text}`);
  test.each([
    ['Go to ***98*** newton metres.', 1],
    ['Go to [98](/steps/) newton metres.', 0],
  ])('%s', (text, count) => expect(told('quantity-in-prose', prose(text))).toHaveLength(count));
});

describe('class-estimate-disagrees', () => {
  const took = (minutes: number): Sample => ({
    files: { 'classes/saturday.actual.yaml': `date: 2026-12-05\nblocks:\n  - {id: welcome, minutes: ${minutes}}\n` },
  });
  // 3, 5, 8 minutes: mean 310 s, variance (310 − 180)(480 − 310)/7, twice its root 112.4 s.
  test.each([
    [3.3, 0],
    [3.29, 1],
    [7.03, 0],
    [7.05, 1],
  ])('a welcome of 3, 5, 8 minutes that took %d', (minutes, count) =>
    expect(told('class-estimate-disagrees', took(minutes))).toHaveLength(count),
  );

  // A certain time is taken as good to a tenth, and never as better than a minute.
  const certain = (minutes: number, took: number): Sample =>
    both(replaceIn('classes/saturday.yaml', 'minutes: [3, 5, 8]', `minutes: ${minutes}`), {
      files: { 'classes/saturday.actual.yaml': `date: 2026-12-05\nblocks:\n  - {id: welcome, minutes: ${took}}\n` },
    });
  test.each([
    [5, 6, 0],
    [5, 6.1, 1],
    [5, 3.9, 1],
    [20, 22, 0],
    [20, 22.1, 1],
  ])('one of %d minutes that took %d', (minutes, took, count) =>
    expect(told('class-estimate-disagrees', certain(minutes, took))).toHaveLength(count),
  );
});

// Rows of other trades that stand alone: no row of their id, no former value, no fastener to compare with. The spans are common
// practice, no source; ten times as much, or the figure in another unit of its kind, lies outside of each.
describe('value-unlikely: what is usual where a row has nothing beside it', () => {
  const row = (title: string, kind: string, value: string, unit: string) =>
    replaceIn(
      'specs/tarn-420.yaml',
      '    title: Chain slack\n    kind: length\n    min: 30\n    max: 40\n    unit: mm\n',
      `    title: ${title}\n    kind: ${kind}\n    nominal: ${value}\n    unit: ${unit}\n`,
    );
  test.each([
    ['Relief valve opens', 'pressure', '1.3', 'bar', 0],
    ['Relief valve opens', 'pressure', '1.29', 'bar', 1],
    ['Pump pressure', 'pressure', '15', 'psi', 0],
    ['Pump pressure', 'pressure', '9', 'psi', 1],
    ['Mains voltage', 'voltage', '500', 'V', 0],
    ['Mains voltage', 'voltage', '501', 'V', 1],
    ['Heating element', 'resistance', '500', 'Ω', 0],
    ['Heating element', 'resistance', '0.501', 'kΩ', 1],
    ['Burr gap', 'length', '2', 'mm', 0],
    ['Burr gap', 'length', '2.01', 'mm', 1],
    ['Kerb mass', 'mass', '30', 'kg', 0],
    ['Kerb mass', 'mass', '29.9', 'kg', 1],
    ['Pinch bolt', 'torque', '60', 'N·m', 0],
    ['Pinch bolt', 'torque', '60.1', 'N·m', 1],
  ])('%s, a %s of %s %s: %d', (title, kind, value, unit, count) =>
    expect(told('value-unlikely', row(title, kind, value, unit))).toHaveLength(count),
  );
});
