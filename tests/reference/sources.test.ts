import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { expect, test } from 'vitest';
import { published } from '../support/published.ts';

const TESTS = join(import.meta.dirname, '..');
const names = readdirSync(TESTS, { recursive: true, encoding: 'utf8' });
// Labelled speech is invented, not published.
const data = names.filter((name) => /^reference\/(?!heard\/).*\.json$/.test(name) && !name.endsWith('-shape.json'));
const tests = names
  .filter((name) => name.endsWith('.test.ts'))
  .map((name) => ({ name, text: readFileSync(join(TESTS, name), 'utf8') }));

const LAST = "test('every published value is compared', () => expect(reference.unread()).toEqual([]));";

const readersOf = (file: string) =>
  tests.filter(({ name, text }) => {
    const way = relative(dirname(name), file);
    return text.includes(`import copied from '${way.startsWith('.') ? way : `./${way}`}' with`);
  });

test('there is reference data', () => expect(data.length).toBeGreaterThan(8));

test.each(data)('%s is read by one test, which ends by asking for values that nothing read', (file) => {
  const readers = readersOf(file);
  expect(readers.map(({ name }) => name)).toHaveLength(1);
  const [{ text } = { text: '' }] = readers;
  // Nothing goes past the count.
  expect(text.match(/\bcopied\b/g)).toHaveLength(2);
  expect(text).toContain('const reference = published(copied);');
  expect(text.trimEnd().split('\n').at(-1)).toBe(LAST);
});

test.each(data)('%s is keyed by source: standard or work, clause or table, edition and year', (file) => {
  for (const source of Object.keys(JSON.parse(readFileSync(join(TESTS, file), 'utf8')))) {
    expect(source).toMatch(/\b(19|20)\d\d\b|release \d|\d+\.\d+|edition not known/);
    expect(source).toMatch(
      /table|clause|section|figure|example|appendix|annex|schedule|paragraph|\bS\d|instances|test|map|\.md|\.cpp|\.texi|advice|rate|release|no standard/i,
    );
    expect(source).not.toMatch(/textbook|transcription|guides/i);
  }
});

test('what a test reads while it runs is counted, each value by itself', () => {
  const { values, unread } = published({ table: [{ size: 1, load: 2 }], note: 'for people', deep: { er: 'x' } });
  expect(unread()).toEqual(['table › 0 › size', 'table › 0 › load', 'deep › er']);
  expect(values.table.map(({ load }) => load)).toEqual([2]);
  expect(unread()).toEqual(['table › 0 › size', 'deep › er']);
  expect(values.deep).toEqual({ er: 'x' });
  expect(values.table.length).toBe(1);
  expect(unread()).toEqual(['table › 0 › size']);
});

const early = published({ a: 1 });
const title = `${early.values.a}`;
test('what is read for a title is not', () => {
  expect(title).toBe('1');
  expect(early.unread()).toEqual(['a']);
});
