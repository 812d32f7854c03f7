import { expect, test } from 'vitest';
import { type Columns, columnsOf } from '../../../src/browser/cutting-room/strip/columns.ts';
import { titleLines } from '../../../src/browser/cutting-room/strip/title-lines.ts';

/** Each column with what is left free behind it. */
const inOrder = ({ whole, ruler, film, sound, words, labels }: Columns) => [whole, ruler, film, sound, words, labels];
const SHARED = ['film', 'sound', 'words', 'labels'] as const;

// The strip's widths in windows of 390, 1280, 1440 and 1920 px, by the page's own style, without its border.
test.each([
  [390, false, 80],
  [420, false, 90],
  [446, true, 60],
  [523, true, 90],
  [588, true, 100],
  [689, true, 115],
])('in a strip of %i px, with words: %s, pictures are %i px wide or more', (width, spoken, least) => {
  const columns = columnsOf(width, true, spoken);
  expect(columns.film.w).toBeGreaterThanOrEqual(least);
  expect(columns.words.w > 0).toBe(spoken);
  // Two lines of some twelve signs at least, of 7 px in the middle.
  expect(columns.labels.w).toBeGreaterThanOrEqual(84);
});

test('no column lies over another or over the end, and none loses when the strip grows', () => {
  for (const thumbs of [false, true])
    for (const spoken of [false, true]) {
      let before: Columns | undefined;
      for (let width = 320; width <= 1600; width++) {
        const columns = columnsOf(width, thumbs, spoken);
        const ends = inOrder(columns).map(({ x, w }) => x + w);
        for (const [i, { x, w }] of inOrder(columns).entries()) {
          expect(w).toBeGreaterThanOrEqual(0);
          expect(x).toBeGreaterThanOrEqual(ends[i - 1] ?? 0);
        }
        expect(ends.at(-1)).toBeCloseTo(width - 8, 6);
        // Where words come in, the others make room for them, once.
        const same = before && before.words.w > 0 === columns.words.w > 0;
        if (before && same)
          for (const name of SHARED) expect(columns[name].w).toBeGreaterThanOrEqual(before[name].w - 1e-9);
        before = columns;
      }
    }
});

test('what is missing is missing to all alike, and what is over goes to titles when nobody else can use it', () => {
  // Halfway between what all need (60, 32, 84, 84) and what they read well with (100, 44, 110, 130).
  const half = columnsOf(164 + (260 + 384) / 2, true, true);
  expect(SHARED.map((name) => half[name].w)).toEqual([80, 38, 97, 107]);
  const wide = columnsOf(2400, true, true);
  expect(SHARED.map((name) => wide[name].w).slice(0, 3)).toEqual([190, 190, 220]);
  // Too narrow for anybody: each has the same part of its need.
  const tight = columnsOf(150 + 88, true, true);
  expect(SHARED.map((name) => tight[name].w)).toEqual([30, 16, 0, 42]);
});

test('words have a column as soon as all have the least they need, and never before', () => {
  const first = Array.from({ length: 600 }, (_, i) => 300 + i).find(
    (width) => columnsOf(width, true, true).words.w > 0,
  );
  const columns = columnsOf(first ?? 0, true, true);
  expect(SHARED.map((name) => columns[name].w)).toEqual([60, 32, 84, 84]);
});

/** Every sign is 7 wide. */
const even = (text: string) => [...text].length * 7;

test('a title is broken between words, and says that there is more where it is cut', () => {
  const title = 'Take the quick link apart and draw the chain out';
  expect(titleLines(title, 140, 2, even)).toEqual(['Take the quick link', 'apart and draw the…']);
  expect(titleLines(title, 140, 3, even)).toEqual(['Take the quick link', 'apart and draw the', 'chain out']);
  expect(titleLines('Look first', 140, 2, even)).toEqual(['Look first']);
  expect(titleLines('', 140, 2, even)).toEqual([]);
  // A line may end behind a hyphen; a word that is wider than a line ends where it must.
  expect(titleLines('Re-grease it', 28, 9, even)).toEqual(['Re-', 'grea', 'se', 'it']);
});

test('lines are never wider than they may be, and whole ones have every word of the title', () => {
  const title = 'Bremszangenbefestigungsschrauben über Kreuz anziehen 🔧🔧🔧🔧🔧🔧 プレートを外す';
  for (let width = 14; width < 600; width += 7)
    for (const most of [1, 2, 3, 99]) {
      const lines = titleLines(title, width, most, even);
      expect(lines.length).toBeLessThanOrEqual(most);
      for (const line of lines) {
        expect(even(line)).toBeLessThanOrEqual(width);
        // Half of a sign is refused by what writes addresses.
        expect(() => encodeURIComponent(line)).not.toThrow();
      }
      if (!lines.at(-1)?.endsWith('…')) expect(lines.join('').replaceAll(' ', '')).toBe(title.replaceAll(' ', ''));
      else expect(lines).toHaveLength(most);
    }
});
