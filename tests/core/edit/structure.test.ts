import { expect, test } from 'vitest';
import { findCommand, textOf, writeText } from '../../../src/core/edit/index.ts';
import { choosing, diffLines, LESSON, label, lessonText, open, playheadAt, refusal, run } from './support.ts';

const changes = (text: string) => diffLines(LESSON, text);
const titles = (session: ReturnType<typeof open>) => session.view.passages.map(({ title }) => title);

test('a step is added below the chosen one with its cue', () => {
  const after = run(choosing(playheadAt(open(), 50), 'Put the bike on its stand'), 'add-step', '  Wipe  it down ');
  expect(changes(lessonText(after))).toEqual(['+### Wipe it down', '+<Cue at="0:00:50" />', '+']);
  expect(after.content.chosen).toBe('wipe-it-down');
  const end = run(choosing(playheadAt(open(), 1300), 'Tighten the bolts'), 'add-step', 'Pump the lever');
  expect(lessonText(end).slice(LESSON.length)).toBe('\n### Pump the lever\n<Cue at="0:21:40" />\n');
});

test('a chapter is added below the chosen chapter', () => {
  const after = run(choosing(playheadAt(open(), 400), 'Look at the pads'), 'add-chapter', 'Wheel off');
  expect(titles(after).slice(0, 5)).toEqual([
    'Get ready',
    'Put the bike on its stand',
    'Look at the pads',
    'Wheel off',
    'Take the caliper off',
  ]);
  const empty = run(open(undefined, '---\ntitle: T\nrecording: pads\nmachine: m\n---\n'), 'add-chapter', 'First');
  expect(lessonText(empty)).toBe('---\ntitle: T\nrecording: pads\nmachine: m\n---\n\n## First\n<Cue at="0:00:00" />\n');
});

test('renaming touches the heading alone; signs of markup are quoted and read back as typed', () => {
  const chosen = choosing(open(), 'Close up');
  expect(changes(lessonText(run(chosen, 'rename', 'Close & check')))).toEqual(['-## Close up', '+## Close & check']);
  for (const title of [
    'Use a *soft* brush',
    'Set <40 N',
    'M10 {long} bolt',
    'a_b_c and _x_',
    '[one]',
    'C# scale #',
    'back\\slash',
    'Tom &amp; Co',
    '`x`',
    '1. First',
    '- dash',
    '**',
  ])
    expect(titles(run(chosen, 'rename', title)).at(-2)).toBe(title);
  expect(refusal(chosen, 'rename', ' ')).toBe('a title is needed');
});

test('a renamed step keeps the address that links, classes and the shoot log know it by', () => {
  const chosen = choosing(open(), 'Open the two bolts');
  const once = run(chosen, 'rename', 'Take both bolts out');
  expect(changes(lessonText(once))).toEqual([
    '-### Open the two bolts',
    '-<Cue at="0:07:00" />',
    '+### Take both bolts out',
    '+<Cue at="0:07:00" id="open-the-two-bolts" />',
  ]);
  expect(once.view.passages.map(({ id }) => id)).toEqual(chosen.view.passages.map(({ id }) => id));
  expect(once.content.chosen).toBe('open-the-two-bolts');
  const twice = run(once, 'rename', 'Both bolts out');
  expect(diffLines(lessonText(once), lessonText(twice))).toEqual(['-### Take both bolts out', '+### Both bolts out']);
  // A title of the same address wants no id, and of two steps of one name the second keeps its number.
  expect(changes(lessonText(run(chosen, 'rename', 'Open the two bolts!')))).toEqual([
    '-### Open the two bolts',
    '+### Open the two bolts!',
  ]);
  const twins = LESSON.replace('### Tighten the bolts', '### Open the two bolts');
  const first = run(choosing(open(undefined, twins), 'Open the two bolts'), 'rename', 'Take them out');
  expect(first.view.passages.map(({ id }) => id)).toContain('open-the-two-bolts-2');
  // Without a cue there is nothing to keep it in, and that is said.
  const outcome = findCommand('rename')?.run?.(choosing(open(), 'Push the pistons back'), 'Pistons back');
  expect(outcome && 'says' in outcome && outcome.says).toMatch(/could not keep its old address/);
});

test('a step is split in time: the second part begins here and ends where the first one did', () => {
  const after = run(choosing(playheadAt(open(), 30), 'Put the bike on its stand'), 'split', 'Check it stands');
  expect(changes(lessonText(after))).toEqual([
    '-<Cue at="0:00:15" until="0:01:00" />',
    '+<Cue at="0:00:15" until="0:00:30" />',
    '+### Check it stands',
    '+<Cue at="0:00:30" until="0:01:00" />',
    '+',
  ]);
  expect(refusal(choosing(playheadAt(open(), 70), 'Put the bike on its stand'), 'split', 'x')).toMatch(/not within/);
});

test('a chapter is split before the first step that comes', () => {
  const cued = run(choosing(playheadAt(open(), 80), 'Look at the pads'), 'cue');
  const after = run(choosing(playheadAt(cued, 70), 'Get ready'), 'split', 'Look');
  expect(diffLines(lessonText(cued), lessonText(after))).toEqual(['+## Look', '+<Cue at="0:01:20" />', '+']);
});

test('merging two steps keeps both texts, the first start and the second end', () => {
  const after = run(choosing(open(), 'Put the bike on its stand'), 'merge');
  expect(changes(lessonText(after))).toEqual([
    '-<Cue at="0:00:15" until="0:01:00" />',
    '+<Cue at="0:00:15" />',
    '-### Look at the pads',
  ]);
  const chapters = run(choosing(open(), 'Get ready'), 'merge');
  expect(titles(chapters)).toEqual([
    'Get ready',
    'Put the bike on its stand',
    'Look at the pads',
    'Open the two bolts',
    'Push the pistons back',
    'Close up',
    'Tighten the bolts',
  ]);
  expect(refusal(choosing(open(), 'Look at the pads'), 'merge')).toMatch(/no step after it/);
});

test('steps and chapters change places; moved back the file is what it was', () => {
  const down = run(choosing(open(), 'Put the bike on its stand'), 'move-down');
  expect(titles(down).slice(0, 3)).toEqual(['Get ready', 'Look at the pads', 'Put the bike on its stand']);
  expect(lessonText(run(down, 'move-up'))).toBe(LESSON);
  const over = run(down, 'move-down');
  expect(titles(over).slice(1, 4)).toEqual(['Look at the pads', 'Take the caliper off', 'Put the bike on its stand']);
  const chapter = run(choosing(open(), 'Close up'), 'move-up');
  expect(titles(chapter).slice(3)).toEqual([
    'Close up',
    'Tighten the bolts',
    'Take the caliper off',
    'Open the two bolts',
    'Push the pistons back',
  ]);
  expect(chapter.content.chosen).toBe('close-up');
  expect(lessonText(run(chapter, 'move-down'))).toBe(LESSON);
  expect(refusal(choosing(open(), 'Get ready'), 'move-up')).toMatch(/no further/);
});

test('a step is taken out with its text, a chapter with its steps', () => {
  const step = run(choosing(open(), 'Look at the pads'), 'remove');
  expect(changes(lessonText(step))).toEqual(['-### Look at the pads', '-Less than a millimetre is too thin.', '-']);
  expect(titles(run(choosing(open(), 'Take the caliper off'), 'remove'))).toEqual([
    'Get ready',
    'Put the bike on its stand',
    'Look at the pads',
    'Close up',
    'Tighten the bolts',
  ]);
});

test('the text of a step is typed without its heading and cue', () => {
  const chosen = choosing(open(), 'Open the two bolts');
  expect(textOf(chosen)).toBe('<KeyPoint why="the hose must not carry it">Hold the caliper.</KeyPoint>');
  const after = run(chosen, writeText, 'Undo both.\n\nHold the caliper.\n');
  expect(changes(lessonText(after))).toEqual([
    '-<KeyPoint why="the hose must not carry it">Hold the caliper.</KeyPoint>',
    '+Undo both.',
    '+Hold the caliper.',
    '+',
  ]);
  const empty = run(choosing(open(), 'Push the pistons back'), writeText, 'Slowly.');
  expect(changes(lessonText(empty))).toEqual(['+Slowly.']);
  expect(textOf(empty)).toBe('Slowly.');
  const cleared = run(choosing(open(), 'Look at the pads'), writeText, '');
  expect(changes(lessonText(cleared))).toEqual(['-Less than a millimetre is too thin.']);
  expect(() => run(chosen, writeText, 'one\n### two')).toThrow(/heading/);
  expect(label(open(), 'add-step', 'x')).toBe('added step “x”');
});

test('half a tag while typing is refused, and nothing is lost', () => {
  const chosen = choosing(open(), 'Open the two bolts');
  expect(() => run(chosen, writeText, 'It takes <Spec of=')).toThrow(/refused/);
});
