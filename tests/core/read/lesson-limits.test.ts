import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { sampleContent } from '../../../src/core/check/index.ts';
import { MOST_OF_LESSON, parseMarkdown, readShop } from '../../../src/core/read/index.ts';
import { setAttributes, setHeading } from '../../../src/core/write/index.ts';

const HEAD = '---\ntitle: T\nrecording: chain\nmachine: tarn-420\n---\n\n## Wheel\n\n';
const lesson = (middle: string) => `${HEAD}### Before\n\n${middle}\n\n### After\n\nTurn it once.\n`;

function read(text: string) {
  const { texts, facts } = sampleContent({ files: { 'lessons/chain.mdx': text } });
  const { shop, diagnostics } = readShop(texts, facts);
  const chain = shop.lessons.find(({ id }) => id === 'chain');
  return {
    steps: chain?.chapters.flatMap(({ steps }) => steps.map(({ title }) => title)),
    body: JSON.stringify(chain?.chapters ?? []),
    unread: diagnostics.filter(({ rule }) => rule === 'text-not-read'),
  };
}

describe('what is over the limits of a lesson is told at its place, and the rest is read', () => {
  test.each([
    ['stars in one paragraph', `${'*a '.repeat(401)}`, /more than 400 stars/],
    ['brackets over the lines of one paragraph', '[a\n'.repeat(401), /more than 400 stars/],
    ['attributes of one element', `<Cue ${'a '.repeat(401)}/>`, /more than 400 stars/],
    ['quotes in one line', `${'> '.repeat(101)}x`, /signs of quotes and lists/],
    ['numbered lists in one line', `${'1. '.repeat(101)}x`, /signs of quotes and lists/],
    ['columns before a line', `${'\t'.repeat(26)}x`, /more than 100 columns/],
  ])('%s', (_, middle, why) => {
    const { steps, unread } = read(lesson(middle));
    expect(steps).toEqual(['Before', 'After']);
    expect(unread.map(({ place, message }) => [place.start.line, why.test(message)])).toEqual([[11, true]]);
  });

  test('elements that stand inside each other over many paragraphs', () => {
    const [open, shut] = ['<Warning>\n\n', '</Warning>\n\n'].map((tag) => tag.repeat(150));
    const { steps, unread, body } = read(lesson(`${open}deep down\n\n${shut}`));
    expect(steps).toEqual(['Before', 'After']);
    expect(unread.map(({ message }) => message)).toEqual([
      'this is not read: more than 100 elements, lists and quotes stand inside each other',
    ]);
    expect(body).not.toContain('deep down');
  });

  test('a lesson that goes on and on: what comes first is read', () => {
    const { steps, unread } = read(`${lesson('x')}\n${'Turn it *once*.\n\n'.repeat(2_000)}`);
    expect(steps).toEqual(['Before', 'After']);
    expect(unread).toHaveLength(1);
    expect(unread[0]?.message).toContain(`up to ${MOST_OF_LESSON.marks} marks`);
    const long = read(`${lesson('x')}\n${'word '.repeat(60_000)}`);
    expect(long.unread[0]?.message).toContain(`up to ${MOST_OF_LESSON.characters} characters`);
  });
});

test('at the limits everything is read', () => {
  for (const middle of ['*a '.repeat(399), `${'> '.repeat(95)}x`, `${'- '.repeat(45)}x`, `${'\t'.repeat(24)}x`])
    expect(read(lesson(middle)).unread).toEqual([]);
});

test('lessons of the demo shop are far below: five of them in one file are read whole', () => {
  const folder = 'content/lessons';
  const lessons = readdirSync(folder).map((file) => readFileSync(`${folder}/${file}`, 'utf8'));
  expect(lessons.length).toBeGreaterThan(1);
  for (const text of lessons) expect(parseMarkdown(text.repeat(5)).unread).toEqual([]);
});

test('writing into a lesson leaves what is not read as it stands', () => {
  const middle = `<Cue at="0:00:20" />\n\n${'*a '.repeat(500)}`;
  const text = lesson(middle);
  const changed = setAttributes(text, text.indexOf('<Cue'), { at: '0:00:30' });
  expect(changed).toEqual({ ok: true, value: text.replace('0:00:20', '0:00:30') });
  expect(setHeading(text, text.indexOf('### After'), 'Later')).toEqual({
    ok: true,
    value: text.replace('### After', '### Later'),
  });
});

test('ids of a thousand steps of one title are counted up', () => {
  const { body } = read(`${HEAD}${'### x\n'.repeat(1_000)}`);
  expect(body).toContain('"id":"x-1000"');
  expect(body).not.toContain('"id":"x-1001"');
});
