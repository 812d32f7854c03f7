import { describe, expect, test } from 'vitest';
import { writeVtt } from '../../../src/core/interchange/index.ts';
import { readCaptions, timedWords } from '../../../src/core/read/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { captionsOf, isUnread, mergeWords, type TimedWord, unreadId } from '../../../src/core/words/index.ts';

/** Words of `each` s from a time on; a word that ends in a full stop ends a sentence. */
function spoken(text: string, from: number, each = 0.4): TimedWord[] {
  return text
    .split(' ')
    .map((word, i) => ({ text: word, start: from + i * each, end: from + (i + 1) * each, ends: /[.!?]$/.test(word) }));
}
const shown = (words: readonly TimedWord[], length = 600) =>
  captionsOf(words, length).map(({ at, text }) => [toSeconds(at.start), toSeconds(at.end), text]);

describe('captions of words', () => {
  test('a pause and the end of a sentence begin another one; a short sentence shares with the next', () => {
    expect(
      shown([
        ...spoken('Crack the nut while it stands.', 10),
        ...spoken('No. Wait, it turns the wrong way here.', 12.4),
        ...spoken('After a pause.', 20),
      ]),
    ).toEqual([
      [10, 12.4, 'Crack the nut while it stands.'],
      [12.4, 15.6, 'No. Wait, it turns the wrong way here.'],
      [20, 22, 'After a pause.'],
    ]);
  });

  test('no line is longer than 42 characters, no caption than two lines, and none shorter than 2 s', () => {
    const text = Array.from({ length: 90 }, (_, i) => `word${i % 13}${i % 17 === 0 ? ',' : ''}`).join(' ');
    const captions = captionsOf([...spoken(text, 3, 0.3), ...spoken('Short.', 40)], 600);
    expect(captions.length).toBeGreaterThan(8);
    for (const [i, { at, text: lines }] of captions.entries()) {
      expect(lines.split('\n').length).toBeLessThanOrEqual(2);
      for (const line of lines.split('\n')) expect(line.length).toBeLessThanOrEqual(42);
      expect(toSeconds(at.end - at.start)).toBeGreaterThanOrEqual(2);
      expect(at.start).toBeGreaterThanOrEqual(captions[i - 1]?.at.end ?? 0);
    }
    expect(captions.map((one) => one.text.replaceAll('\n', ' ')).join(' ')).toBe(`${text} Short.`);
  });

  test('each word comes back from WebVTT with its time', () => {
    const words = spoken('Less < more & so on to the very end of it all right here.', 100, 0.5);
    const [caption] = captionsOf(words, 600);
    const file = writeVtt([{ ...caption!, settings: '' }]);
    const { captions, diagnostics } = readCaptions('a.vtt', file);
    expect(diagnostics).toEqual([]);
    expect(captions[0]!.text.replaceAll('\n', ' ')).toBe(words.map(({ text }) => text).join(' '));
    const times = timedWords(captions[0]!.markup, captions[0]!.at.start).map(({ at }) => toSeconds(at));
    expect(times.slice(1)).toEqual(words.slice(1).map(({ start }) => start));
  });
});

describe('whose a caption is', () => {
  const made = captionsOf([...spoken('The first one is here.', 10), ...spoken('The second one is there.', 30)], 600);
  const file = () => {
    const text = writeVtt(mergeWords([], made).captions);
    return readCaptions('a.vtt', text).captions;
  };

  test('what a machine wrote is known for it, until a person changes a word, a time or the mark', () => {
    const [one, two] = file();
    expect([isUnread(one!), isUnread(two!)]).toEqual([true, true]);
    expect(isUnread({ ...one!, text: 'The first one was here.' })).toBe(false);
    expect(isUnread({ ...one!, at: { ...one!.at, end: two!.at.start } })).toBe(false);
    expect(isUnread({ at: one!.at, text: one!.text })).toBe(false);
    expect(isUnread({ ...one!, id: unreadId(two!) })).toBe(false);
  });

  test('a person’s captions stay as they are, and the machine’s give way; its own are made anew', () => {
    const [one, two] = file();
    const touched = { ...one!, text: 'The first ones are here.', markup: 'The first ones are here.' };
    const again = captionsOf(spoken('Another one is there.', 30), 600);
    const merged = mergeWords([touched, two!], [...made.slice(0, 1), ...again]);
    expect(merged).toMatchObject({ kept: 1, yielded: 1, fresh: 1 });
    expect(merged.captions.map(({ text, id }) => [text, id?.startsWith('unread-') ?? false])).toEqual([
      ['The first ones are here.', false],
      ['Another one is there.', true],
    ]);
    // A person's own ids stay.
    expect(mergeWords([{ ...touched, id: 'intro' }], made).captions[0]).toMatchObject({ id: 'intro' });
  });
});
