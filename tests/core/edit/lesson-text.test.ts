import { describe, expect, test } from 'vitest';
import {
  cueAttribute,
  swapStretches,
  withBody,
  withCue,
  withCueId,
  withoutCue,
  withoutHeading,
  withPassage,
  withTitle,
} from '../../../src/core/edit/lesson-text.ts';
import { passagesOf } from '../../../src/core/edit/passages.ts';
import { must } from '../../../src/core/time/index.ts';
import { open } from './support.ts';

const HEAD = '---\ntitle: Pads\nrecording: pads\nmachine: tarn-420\n---\n';
/** A lesson of this text below its front matter, and its passage of that title. */
function lesson(body: string, title = 'Turn') {
  const text = `${HEAD}${body}`;
  const { lesson: read } = open(undefined, text).view;
  const passages = passagesOf(must(read, 'a lesson'), text);
  return {
    text,
    passage: must(
      passages.find((each) => each.title === title),
      title,
    ),
  };
}
const written = (text: string) => text.slice(HEAD.length);

describe('a cue', () => {
  const changed = (cue: string, times: Parameters<typeof withCue>[2]) => {
    const { text, passage } = lesson(`## Turn\n${cue}\n`);
    return written(withCue(text, passage, times)).split('\n')[1];
  };

  test.each([
    ['<Cue at="0:01:00" />', { at: '0:02:00' }, '<Cue at="0:02:00" />'],
    ["<Cue at='0:01:00' />", { at: '0:02:00' }, "<Cue at='0:02:00' />"],
    ["<Cue at={'0:01:00'} />", { at: '0:02:00' }, '<Cue at="0:02:00" />'],
    ['<Cue id="x" at = "0:01:00" />', { at: '0:02:00' }, '<Cue id="x" at = "0:02:00" />'],
    ['<Cue at="0:01:00" />', { at: '0:01:00', until: '0:03:00' }, '<Cue at="0:01:00" until="0:03:00" />'],
    ['<Cue at="0:01:00" id="x" />', { at: '0:01:00', until: '0:03:00' }, '<Cue at="0:01:00" until="0:03:00" id="x" />'],
    ['<Cue at="0:01:00" until="0:03:00" />', { at: '0:02:00' }, '<Cue at="0:02:00" />'],
    ['<Cue at="0:01:00" until="0:03:00" id="x" />', { at: '0:02:00' }, '<Cue at="0:02:00" id="x" />'],
  ])('%s with %o is %s', (cue, times, wanted) => {
    expect(changed(cue, times)).toBe(wanted);
  });

  test('that is missing gets a line below its heading', () => {
    const { text, passage } = lesson('## Turn\nWords.\n');
    expect(written(withCue(text, passage, { at: '0:01:00', until: '0:02:00' }))).toBe(
      '## Turn\n<Cue at="0:01:00" until="0:02:00" />\nWords.\n',
    );
  });

  test('says its attributes as written, however they are quoted', () => {
    const said = (cue: string, name: 'at' | 'until' | 'id') => {
      const { text, passage } = lesson(`## Turn\n${cue}\n`);
      return cueAttribute(text, must(passage.cue, 'a cue'), name);
    };
    expect(said('<Cue at="0:01:00" id="x" />', 'id')).toBe('x');
    expect(said("<Cue id='y' at='0:01:00' />", 'at')).toBe('0:01:00');
    expect(said("<Cue at={ '0:01:00' } />", 'at')).toBe('0:01:00');
    expect(said('<Cue at={"0:01:00"} />', 'at')).toBe('0:01:00');
    expect(said('<Cue at="0:01:00" />', 'until')).toBeUndefined();
  });

  test('gets an id of its own, or another one', () => {
    const withId = (cue: string) => {
      const { text, passage } = lesson(`## Turn\n${cue}\n`);
      return written(withCueId(text, passage, 'turn')).split('\n')[1];
    };
    expect(withId('<Cue at="0:01:00" />')).toBe('<Cue at="0:01:00" id="turn" />');
    expect(withId('<Cue at="0:01:00" id="x" />')).toBe('<Cue at="0:01:00" id="turn" />');
    const { text, passage } = lesson('## Turn\nWords.\n');
    expect(withCueId(text, passage, 'turn')).toBe(text);
  });

  test('goes with its line, or with one space where words stand beside it', () => {
    const without = (body: string) => {
      const { text, passage } = lesson(body);
      return written(withoutCue(text, passage));
    };
    expect(without('## Turn\n<Cue at="0:01:00" />\nWords.\n')).toBe('## Turn\nWords.\n');
    expect(without('## Turn\n<Cue at="0:01:00" /> Words.\n')).toBe('## Turn\nWords.\n');
    expect(without('## Turn\nWords.\n')).toBe('## Turn\nWords.\n');
  });
});

test.each([
  ['## Turn\n', '## New \\*nut\\*\n'],
  ['##   Turn  ##\n', '##   New \\*nut\\*  ##\n'],
  ['Turn\n---\n', '## New \\*nut\\*\n'],
])('the title of %j is changed: %j', (body, wanted) => {
  const { text, passage } = lesson(body);
  expect(written(withTitle(text, passage, 'New *nut*'))).toBe(wanted);
});

describe('a new passage', () => {
  const step = { kind: 'step', title: 'New', cue: { at: '0:01:00' }, body: 'Words.' } as const;
  const put = (body: string, at: number, passage: Parameters<typeof withPassage>[2] = step) =>
    withPassage(body, at, passage);
  test('stands before a heading, with a blank line behind it', () =>
    expect(put('## A\n\n## B\n', 6)).toBe('## A\n\n### New\n<Cue at="0:01:00" />\nWords.\n\n## B\n'));
  test('stands at the end, a blank line from what is there', () => {
    expect(put('## A\n', 5)).toBe('## A\n\n### New\n<Cue at="0:01:00" />\nWords.\n');
    expect(put('## A', 4)).toBe('## A\n\n### New\n<Cue at="0:01:00" />\nWords.\n');
    expect(put('', 0, { kind: 'chapter', title: 'New' })).toBe('## New\n');
  });
  test('ends its lines as the file does', () =>
    expect(put('## A\r\n', 6, { kind: 'chapter', title: 'New' })).toBe('## A\r\n\r\n## New\r\n'));
});

describe('the text below a heading', () => {
  const below = (body: string, words: string) => {
    const { text, passage } = lesson(body);
    return written(withBody(text, passage, words));
  };
  const CUE = '<Cue at="0:01:00" />';
  test.each([
    [`## Turn\n${CUE}\nOld.\n\n## B\n`, 'New.\n', `## Turn\n${CUE}\nNew.\n\n## B\n`],
    [`## Turn\n${CUE}\n\n## B\n`, '\n New.', `## Turn\n${CUE}\n New.\n\n## B\n`],
    [`## Turn\n${CUE}\nOld.\n\n## B\n`, ' \n', `## Turn\n${CUE}\n\n## B\n`],
    [`## Turn\n${CUE}\n\n## B\n`, '  ', `## Turn\n${CUE}\n\n## B\n`],
  ])('of %j becomes %j: %j', (body, words, wanted) => {
    expect(below(body, words)).toBe(wanted);
  });
});

test('two passages change places, the blank lines between them do not', () => {
  const text = '## A\na\n\n\n## B\n\n';
  expect(swapStretches(text, { start: 0, end: 9 }, { start: 9, end: text.length })).toBe('## B\n\n\n## A\na\n\n');
});

test('a heading goes with its cue, and leaves its words to the passage before', () => {
  const without = (body: string) => {
    const { text, passage } = lesson(body);
    return written(withoutHeading(text, passage));
  };
  expect(without('## A\n\n### Turn\n<Cue at="0:01:00" />\nWords.\n')).toBe('## A\n\nWords.\n');
  expect(without('## A\n\n### Turn\n<Cue at="0:01:00" />\n\n### B\n')).toBe('## A\n\n### B\n');
});
