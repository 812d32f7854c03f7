import { expect, test } from 'vitest';
import {
  elementText,
  headingText,
  insertBelowHeading,
  insertPassages,
  removeElement,
  setAttributes,
  setFrontMatter,
  setHeading,
} from '../../../src/core/write/index.ts';

const LESSON = `---
title: Replace the chain   # short
recording: chain
---

## Take the rear wheel out
<Cue at="0:03:10" />

### Crack the axle nut
<Cue at="0:04:02.5"
     until='0:05:20' />
Hold the axle head.

### Slide the wheel out

Mind the spacer.
`;

function done(result: { ok: true; value: string } | { ok: false; problem: string }): string {
  if (!result.ok) throw new Error(result.problem);
  return result.value;
}
const where = (text: string, from = LESSON) => from.indexOf(text);

test('an attribute is changed in its place', () => {
  const text = done(setAttributes(LESSON, where('<Cue at="0:04'), { at: '0:04:10' }));
  expect(text).toBe(LESSON.replace('0:04:02.5', '0:04:10'));
});

test('an attribute is added, and taken out, without a trace elsewhere', () => {
  const added = done(setAttributes(LESSON, where('<Cue at="0:03'), { until: '0:04:00' }));
  expect(added).toBe(LESSON.replace('<Cue at="0:03:10" />', '<Cue at="0:03:10" until="0:04:00" />'));
  expect(done(setAttributes(added, where('<Cue at="0:03'), { until: undefined }))).toBe(LESSON);
});

test('a cue goes below its heading, with a blank line where text follows at once', () => {
  const text = done(
    insertBelowHeading(LESSON, where('### Slide'), elementText('Cue', { at: '0:06:00', until: undefined })),
  );
  expect(text).toBe(LESSON.replace('### Slide the wheel out\n', '### Slide the wheel out\n<Cue at="0:06:00" />\n'));
});

test('an element goes with its line', () => {
  expect(done(removeElement(LESSON, where('<Cue at="0:03')))).toBe(LESSON.replace('<Cue at="0:03:10" />\n', ''));
});

test('chapters and steps go before a heading, or to the end', () => {
  const passages = [
    { depth: 2, title: 'Fit the chain', lines: ['<Cue at="0:10:00" />'] },
    { depth: 3, title: 'Seat the <clip> #' },
  ] as const;
  const written = '## Fit the chain\n<Cue at="0:10:00" />\n\n### Seat the \\<clip\\> \\#\n';
  expect(done(insertPassages(LESSON, passages))).toBe(`${LESSON}\n${written}`);
  expect(done(insertPassages(LESSON, passages, where('### Slide')))).toBe(
    LESSON.replace('### Slide', `${written}\n### Slide`),
  );
});

test('a heading is renamed', () => {
  expect(done(setHeading(LESSON, where('### Crack'), 'Break it {loose}'))).toBe(
    LESSON.replace('Crack the axle nut', 'Break it \\{loose\\}'),
  );
});

test('front matter is set with its comments', () => {
  expect(done(setFrontMatter(LESSON, ['title'], 'Chain'))).toBe(
    LESSON.replace('title: Replace the chain   #', 'title: Chain   #'),
  );
});

test('offsets count a byte order mark and carriage returns as the text has them', () => {
  const windows = `\uFEFF${LESSON.replaceAll('\n', '\r\n')}`;
  const text = done(setAttributes(windows, where('<Cue at="0:04', windows), { until: '0:05:30' }));
  expect(text).toBe(windows.replace("'0:05:20'", '"0:05:30"'));
});

test('what is not there, and what cannot be read, is refused in words', () => {
  expect(setAttributes(LESSON, 3, { at: '0:00:01' })).toMatchObject({
    ok: false,
    problem: 'there is no element at offset 3',
  });
  expect(setHeading('## <open\n', 0, 'x')).toMatchObject({
    ok: false,
    problem: expect.stringContaining('cannot be read'),
  });
  expect(insertPassages(LESSON, [{ depth: 2, title: 'x', lines: ['<Cue at="'] }])).toMatchObject({
    ok: false,
    problem: 'the change would break the lesson',
  });
});

test('attribute values and titles keep their signs', () => {
  expect(elementText('Cue', { at: 'a "b" & &amp; c' })).toBe(`<Cue at='a "b" & &amp;amp; c' />`);
  expect(headingText('81 N·m — [really]*')).toBe('81 N·m — \\[really\\]\\*');
});

test('an element without attributes takes one behind its name, also behind a byte order mark', () => {
  for (const mark of ['', '\uFEFF']) {
    const source = `${mark}## A\n\n<Cue />\n`;
    expect(done(setAttributes(source, source.indexOf('<Cue'), { at: '0:01' }))).toBe(
      `${mark}## A\n\n<Cue at="0:01" />\n`,
    );
    expect(done(setAttributes(source, source.indexOf('<Cue'), { until: undefined }))).toBe(source);
    expect(done(insertBelowHeading(source, source.indexOf('## A'), '<Cue />'))).toBe(
      `${mark}## A\n<Cue />\n\n<Cue />\n`,
    );
    expect(done(setHeading(source, source.indexOf('## A'), 'B'))).toBe(`${mark}## B\n\n<Cue />\n`);
    expect(done(removeElement(source, source.indexOf('<Cue')))).toBe(`${mark}## A\n\n`);
    expect(done(insertPassages(source, [{ depth: 3, title: 'S' }], source.indexOf('## A')))).toBe(
      `${mark}### S\n\n## A\n\n<Cue />\n`,
    );
  }
});

test('an element amid words goes alone, one at the end of the file with its line', () => {
  const amid = '## A\nWords <Cue at="0:01" /> and more.\n';
  expect(done(removeElement(amid, amid.indexOf('<Cue')))).toBe('## A\nWords  and more.\n');
  const last = '## A\n\n  <Cue at="0:01" />  ';
  expect(done(removeElement(last, last.indexOf('<Cue')))).toBe('## A\n\n');
});

test('an element is put below a heading: a blank line before words, none before a blank line, a cue or the end', () => {
  const below = (rest: string) => done(insertBelowHeading(`## A${rest}`, 0, '<Cue />'));
  expect(below('\nWords.\n')).toBe('## A\n<Cue />\n\nWords.\n');
  expect(below('\n  \nWords.\n')).toBe('## A\n<Cue />\n  \nWords.\n');
  expect(below('\r\n\r\nWords.\r\n')).toBe('## A\r\n<Cue />\r\n\r\nWords.\r\n');
  expect(below('\n<Cue at="0:02" />\n')).toBe('## A\n<Cue />\n<Cue at="0:02" />\n');
  expect(below('')).toBe('## A\n<Cue />');
});
