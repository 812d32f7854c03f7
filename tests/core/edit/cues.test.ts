import { expect, test } from 'vitest';
import { dragCue } from '../../../src/core/edit/index.ts';
import { at, choosing, diffLines, LESSON, label, lessonText, open, playheadAt, refusal, run } from './support.ts';

const changes = (text: string) => diffLines(LESSON, text);

test('one key sets the cue of the chosen step and goes to the next', () => {
  const session = open();
  expect(session.content.chosen).toBe('look-at-the-pads');
  const after = run(playheadAt(session, 75.04), 'cue');
  expect(changes(lessonText(after))).toEqual(['+<Cue at="0:01:15.04" />']);
  expect(lessonText(after)).toContain('### Look at the pads\n<Cue at="0:01:15.04" />\nLess than');
  expect(after.content.chosen).toBe('take-the-caliper-off');
  expect(label(playheadAt(session, 75), 'cue')).toBe('set cue of “Look at the pads”');
  const moved = choosing(playheadAt(session, 430), 'Open the two bolts');
  expect(label(moved, 'cue')).toBe('moved cue of “Open the two bolts”');
  expect(changes(lessonText(run(moved, 'cue')))).toEqual(['-<Cue at="0:07:00" />', '+<Cue at="0:07:10" />']);
});

test('thirty cues are thirty keys', () => {
  const steps = Array.from({ length: 30 }, (_, n) => `### Step ${n + 1}\n`).join('\n');
  let session = open(
    undefined,
    `---\ntitle: T\nrecording: pads\nmachine: m\n---\n## All\n<Cue at="0:00:01" />\n\n${steps}`,
  );
  for (let n = 0; n < 30; n++) session = run(playheadAt(session, 10 + n * 7), 'cue');
  expect(session.view.passages.filter(({ cue }) => cue)).toHaveLength(31);
  expect(session.view.passages.at(-1)?.cue?.at).toBe(at(10 + 29 * 7));
});

test('the end of a step is set where it stands, and goes when the start passes it', () => {
  const session = choosing(playheadAt(open(), 50), 'Put the bike on its stand');
  expect(changes(lessonText(run(session, 'cue-end')))).toEqual([
    '-<Cue at="0:00:15" until="0:01:00" />',
    '+<Cue at="0:00:15" until="0:00:50" />',
  ]);
  expect(changes(lessonText(run(session, 'cue')))).toEqual([
    '-<Cue at="0:00:15" until="0:01:00" />',
    '+<Cue at="0:00:50" until="0:01:00" />',
  ]);
  expect(changes(lessonText(run(playheadAt(session, 70), 'cue')))).toEqual([
    '-<Cue at="0:00:15" until="0:01:00" />',
    '+<Cue at="0:01:10" />',
  ]);
  expect(changes(lessonText(run(choosing(playheadAt(session, 500), 'Open the two bolts'), 'cue-end')))).toEqual([
    '-<Cue at="0:07:00" />',
    '+<Cue at="0:07:00" until="0:08:20" />',
  ]);
});

test('a cue moves by frames, by hand, and goes', () => {
  const chosen = choosing(open(), 'Open the two bolts');
  expect(lessonText(run(chosen, 'cue-on'))).toContain('<Cue at="0:07:00.04" />');
  expect(lessonText(run(chosen, 'cue-back'))).toContain('<Cue at="0:06:59.96" />');
  expect(lessonText(run(chosen, dragCue, `open-the-two-bolts ${at(421)}`))).toContain('<Cue at="0:07:01" />');
  expect(changes(lessonText(run(chosen, 'cue-clear')))).toEqual(['-<Cue at="0:07:00" />']);
  expect(refusal(choosing(open(), 'Look at the pads'), 'cue-clear')).toBe('what is chosen has no cue');
});

test('an id, quotes, several lines and other attributes of a cue stay', () => {
  const odd = LESSON.replace('<Cue at="0:07:00" />', '<Cue\n  id="bolts"\n  at=\'0:07:00\'\n/>');
  const after = run(choosing(playheadAt(open(undefined, odd), 430), 'Open the two bolts'), 'cue');
  expect(lessonText(after)).toContain('<Cue\n  id="bolts"\n  at=\'0:07:10\'\n/>');
});

test('a lesson that speaks timecode is answered in timecode', () => {
  const rec = 'title: p\nfiles: [{file: a.mp4}]\nrate: "29.97df"\nstart: "01:00:00;00"\n';
  const lesson = LESSON.replace('0:07:00', '01:07:00;02');
  const session = open(rec, lesson.replaceAll(/<Cue at="0:.*\n/g, ''));
  const after = run(choosing(playheadAt(session, 500.5), 'Push the pistons back'), 'cue');
  expect(lessonText(after)).toMatch(/### Push the pistons back\n<Cue at="01:08:20;1\d" \/>/);
});

test('without a lesson or a choice it says what to do', () => {
  expect(refusal(open(undefined, null), 'cue')).toMatch(/choose a chapter or step first/);
});
