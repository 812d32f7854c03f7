import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, type Sample, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const LESSON =
  '---\ntitle: Chain\nrecording: chain\nmachine: tarn-420\n---\n## Wheel\n<Cue at="0:00:20" />\n\n### Seat it\n';

function remedyOf(sample: Sample, rule: string) {
  const { texts, facts } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts);
  const found = check(shop, diagnostics, { today: SAMPLE_TODAY }).find((each) => each.rule === rule);
  const [edit] = found?.fix?.edits ?? [];
  if (!found?.fix || !edit) return undefined;
  const text = texts.get(edit.place.file) ?? '';
  const mended = text.slice(0, edit.place.start.offset) + edit.text + text.slice(edit.place.end.offset);
  return { title: found.fix.title, help: found.help, mended };
}

// Frame 10801 at 30000/1001 begins at 10801 · 1001 / 30000 s = 360.39336… s; written up, it lies in its own frame.
test.each([
  ['0:06:00', '0:06:00'],
  ['00:06:00:01', '0:06:00.394'],
])('a cue whose start is cut is moved to where what follows at %s begins', (out, to) => {
  const recording = `title: Chain\nfiles: [{file: media/chain.mp4}]\nrate: "29.97"\nedit:\n  - {in: "0:00:10", out: "0:05:00"}\n  - {in: "${out}", out: "0:09:00"}\n`;
  const lesson = `${LESSON}<Cue at="0:05:10" until="0:07:00" id='seat' />\n`;
  const remedy = remedyOf({ files: { 'recordings/chain.yaml': recording, 'lessons/chain.mdx': lesson } }, 'cue-in-cut');
  expect(remedy?.title).toBe(`move the cue to ${to}`);
  expect(remedy?.help).toContain(`move the cue to ${to},`);
  expect(remedy?.mended).toBe(lesson.replace('at="0:05:10"', `at="${to}"`));
});

test('a mistyped name is written as the nearest there is; where none is near there is no remedy', () => {
  const body = (id: string) => `${LESSON}<Cue at="0:00:30" />\n<Uses tool="${id}" /> Hold it.\n`;
  const near = remedyOf({ files: { 'lessons/chain.mdx': body('braker-bar') } }, 'kit-unknown');
  expect([near?.title, near?.mended]).toEqual(['write "breaker-bar"', body('breaker-bar')]);
  expect(remedyOf({ files: { 'lessons/chain.mdx': body('zzzzzzzz') } }, 'kit-unknown')).toBeUndefined();
});
