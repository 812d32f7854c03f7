import { expect, test } from 'vitest';
import { check, lesson, SAMPLE_TODAY, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

/** What is told of a step: `column "words"`. */
function told(words: string, title = 'Tighten'): string[] {
  const { texts, facts } = sampleContent(
    lesson(`## Wheel\n<Cue at="0:00:20" />\n\n### ${title}\n<Cue at="0:00:30" />\n\n${words}`),
  );
  const { shop, diagnostics } = readShop(texts, facts);
  return check(shop, diagnostics, { today: SAMPLE_TODAY })
    .filter(({ rule }) => rule === 'quantity-in-prose')
    .map(({ place, message }) => `${place.start.column} ${message.replace(/ is an? .*$/, '')}`);
}

test.each([
  ['Back it off two and a quarter turns.', '13 "two and a quarter turns"'],
  ['Then wait ten minutes.', '11 "ten minutes"'],
  ['Change it every 30 000 km.', '17 "30 000 km"'],
  ['Go to **98** N·m.', '9 "98 N·m"'],
  ['It is _about_ 25 to 35 mm.', '15 "25 to 35 mm"'],
  ['Heat it to 80 °C.', '12 "80 °C"'],
])('%s', (words, says) => {
  expect(told(words)).toEqual([says]);
});

test('a heading and the reason of a key point are read too', () => {
  expect(told('Wipe it.', 'Tighten to 98 N·m')).toHaveLength(1);
  expect(told('<KeyPoint why="at 120 N·m the thread strips">Stop at the click.</KeyPoint>')).toHaveLength(1);
});

test('the number that a title ends with counts it, unless its unit stands there', () => {
  expect(told('Wipe it.', 'Front brake pads 2')).toEqual([]);
  expect(told('Wipe it.', 'Front brake pads under 2 mm')).toHaveLength(1);
  expect(told('Wipe it.', 'Pads at 2 are done')).toHaveLength(1);
});

// No specs: counts, vague counts, clock times, tools, threads, parts.
test.each([
  'Undo the five nuts crosswise, a little each at first.',
  'Give it a couple of turns by hand.',
  'We start at 10:00 and stop at ten past twelve.',
  'Take the 17 mm socket and the M8 bolt.',
  'Part number 4512-98, the third one from the left.',
  'Push the pedal twice, then a third time.',
])('%s', (words) => {
  expect(told(words)).toEqual([]);
});
