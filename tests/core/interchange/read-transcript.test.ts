import { expect, test } from 'vitest';
import { readJsonTranscript } from '../../../src/core/interchange/read-transcript.ts';

/** Words of a second each, one after the other unless a pause is said. */
const words = (texts: readonly string[], each = 0.3, pauseAfter: number | undefined = undefined) =>
  JSON.stringify({
    words: texts.map((word, i) => {
      const start = i * each + (pauseAfter !== undefined && i > pauseAfter ? 2 : 0);
      return { word, start, end: start + each };
    }),
  });
const captionsOf = (text: string) => {
  const read = readJsonTranscript(text, { clock: 'recording' });
  if (!read.ok) throw new Error(read.problem);
  return (read.value.captions ?? []).map(({ text }) => text);
};

// Two lines of at most 37 signs and six seconds a caption: common practice of captions, no source.
test('a caption ends before two lines are over, after six seconds, at a pause, and after a sentence', () => {
  const long = captionsOf(
    words(
      Array.from({ length: 30 }, () => 'tighten'),
      0.1,
    ),
  );
  expect(long.map((text) => text.split('\n').length)).toEqual(long.map(() => 2));
  for (const line of long.flatMap((text) => text.split('\n'))) expect(line.length).toBeLessThanOrEqual(37);
  expect(long.join(' ').split(/\s/)).toHaveLength(30);
  expect(captionsOf(words(['now', 'wait', 'for', 'it'], 2))).toEqual(['now wait for', 'it']);
  expect(captionsOf(words(['one', 'two', 'three'], 0.3, 1))).toEqual(['one two', 'three']);
  expect(captionsOf(words(['Now', 'hold', 'the', 'caliper', 'still.', 'Then', 'go'], 0.3))).toEqual([
    'Now hold the caliper still.',
    'Then go',
  ]);
});
