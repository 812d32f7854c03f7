import { expect, test } from 'vitest';
import { applyFix, canApply } from '../../../src/core/edit/index.ts';
import type { Fix } from '../../../src/core/model/index.ts';
import { LESSON, lessonText, open, RECORDING } from './support.ts';

const fixAt = (text: string, from: string, to: string, file = 'lessons/pads.mdx'): Fix => {
  const offset = text.replace(/^\uFEFF/, '').indexOf(from);
  const place = {
    file,
    start: { line: 1, column: 1, offset },
    end: { line: 1, column: 1 + from.length, offset: offset + from.length },
  };
  return { title: `write ${to}`, sure: false, edits: [{ place, text: to }] };
};

test('a remedy changes what it names and nothing else, also behind a byte order mark', () => {
  for (const text of [LESSON, `\uFEFF${LESSON}`]) {
    const session = open(RECORDING, text);
    const outcome = applyFix(fixAt(text, 'at="0:07:00"', 'at="0:07:01"'), session.content.texts)(session);
    if ('refused' in outcome) throw new Error(outcome.refused);
    expect(lessonText(outcome.session)).toBe(text.replace('0:07:00', '0:07:01'));
    expect(outcome.label).toBe('mended: write at="0:07:01"');
    expect(outcome.session.view.passages.map(({ cue }) => cue?.at)).not.toEqual(
      session.view.passages.map(({ cue }) => cue?.at),
    );
  }
});

test('what was changed since the check is not written over, nor a file that is not open here, nor the reading lost', () => {
  const session = open();
  const fix = fixAt(LESSON, 'at="0:07:00"', 'at="0:07:01"');
  const older = new Map(session.content.texts).set('lessons/pads.mdx', `${LESSON}\n`);
  expect(applyFix(fix, older)(session)).toEqual({ refused: expect.stringMatching(/still reading/) });
  const kit = fixAt(LESSON, 'at', 'to', 'kit.yaml');
  expect(canApply(kit, session)).toBe(false);
  expect(applyFix(kit, session.content.texts)(session)).toEqual({ refused: expect.stringMatching(/not open here/) });
  const breaking = fixAt(LESSON, 'title: Front', 'title: [Front');
  expect(applyFix(breaking, session.content.texts)(session)).toEqual({ refused: expect.stringMatching(/by hand/) });
});
