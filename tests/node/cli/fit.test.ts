import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

const CLASS = `# Nine people, four vices.
title: Chain, Saturday
date: 2026-12-05
starts: "10:00"
slot: "1:30"   # the hall is let at noon
attendees: 8
blocks:
  - id: welcome
    title: Welcome
    kind: welcome
    must: true
    treatments: [{id: talk, minutes: 5, worth: 10}]
  - id: file
    title: File the teeth
    kind: hands-on
    must: true
    treatments:
      - {id: vices, worth: 80, stations: {count: 4, group: 2, minutes: 25}}
  - id: tale
    title: A tale   # everybody likes it
    kind: talk
    treatments:
      - {id: long, minutes: 20, worth: 9}
      - {id: short, minutes: 5, worth: 3}
`;
const FILE = 'classes/saturday.yaml';
const folder = () => shopFolder({ files: { [FILE]: CLASS } });
const tried = (content: string, ...words: string[]) => call(['fit', 'saturday', ...words], { content });

interface Answer {
  readonly plannedSeconds: number;
  readonly slotSeconds: number;
  readonly attendees: number;
  readonly blocks: readonly { readonly id: string; readonly treatment: string; readonly starts: string }[];
  readonly left: readonly { readonly id: string; readonly reason: string }[];
  readonly stations: readonly { readonly turns: number; readonly groups: readonly number[] }[];
  readonly advice: readonly { readonly kind: string; readonly text: string; readonly savesSeconds: number }[];
}
const json = async (content: string, ...words: string[]): Promise<Answer> => {
  const answer: Answer = JSON.parse((await tried(content, ...words, '--json')).out);
  return answer;
};

describe('what would be if', () => {
  test('the ninth attendee costs a turn, and larger groups or one more station win it back', async () => {
    const content = folder();
    const eight = await json(content);
    const nine = await json(content, '--attendees', '9');
    expect([eight.plannedSeconds, nine.plannedSeconds]).toEqual([50 * 60, 75 * 60]);
    expect(nine).toMatchObject({ attendees: 9, stations: [{ turns: 2, groups: [2, 2, 2, 2, 1] }] });
    const words = nine.advice.filter(({ kind }) => kind === 'regroup').map(({ text }) => text);
    expect(words).toEqual([
      'in "File the teeth" let 3 work at one station: saves 25 min',
      'in "File the teeth" set up 1 more station: saves 25 min',
    ]);
    expect((await tried(content, '--attendees', '9')).out).toContain('the 9th attendee costs 25 min');
    expect(readFileSync(join(content, FILE), 'utf8')).toBe(CLASS);
  });

  test('blocks are left out, given in a way, and started at a time', async () => {
    const content = folder();
    const without = await json(content, '--without', 'tale', '--without', 'file');
    expect(without.blocks.map(({ id }) => id)).toEqual(['welcome']);
    expect(without.left.map(({ id, reason }) => `${id} ${reason}`)).toEqual([
      'file left out on purpose',
      'tale left out on purpose',
    ]);
    const given = await json(content, '--with', 'tale=short', '--at', 'tale=10:45', '--slot', '0:50');
    expect(given.slotSeconds).toBe(50 * 60);
    expect(given.blocks.at(-1)).toMatchObject({ id: 'tale', treatment: 'short', starts: '10:45' });
  });

  test.each([
    [['--attendees', '0'], '"0" is no number of attendees'],
    [['--attendees', 'nine'], '"nine" is no number of attendees'],
    [['--slot', '105'], '"105" is no slot'],
    [['--without', 'tail'], 'no block "tail" in the class saturday'],
    [['--with', 'tale'], '--with tale names no treatment'],
    [['--with', 'tale=shrt'], 'no treatment "shrt" of the block "tale"'],
    [['--at', 'tale=quarter'], '"quarter" is no time of day for "tale"'],
    [['--keep'], 'nothing to keep'],
  ])('%j is refused with words', async (words, problem) => {
    const content = folder();
    const { code, said } = await tried(content, ...words);
    expect([code, said]).toEqual([2, expect.stringContaining(problem)]);
    expect(readFileSync(join(content, FILE), 'utf8')).toBe(CLASS);
  });
});

describe('keep', () => {
  test('writes what was tried and leaves every other byte', async () => {
    const content = folder();
    const words = ['--attendees', '9', '--slot', '1:45', '--with', 'tale=short', '--at', 'tale=11:20'];
    const before = await json(content, ...words);
    const { code, said } = await tried(content, ...words, '--keep');
    expect([code, said]).toEqual([0, `${FILE}: attendees 9, slot 1:45, give short, at 11:20`]);
    expect(readFileSync(join(content, FILE), 'utf8')).toBe(
      `${CLASS.replace('attendees: 8', 'attendees: 9').replace('slot: "1:30"', 'slot: "1:45"')}    give: short\n    at: "11:20"\n`,
    );
    expect(await json(content)).toEqual(before);
  });

  test('a block left out stays written, and comes back when it is given', async () => {
    const content = folder();
    await tried(content, '--without', 'tale', '--keep');
    expect(readFileSync(join(content, FILE), 'utf8')).toBe(`${CLASS}    leaveOut: true\n`);
    await tried(content, '--with', 'tale=long', '--keep');
    expect(readFileSync(join(content, FILE), 'utf8')).toBe(`${CLASS}    give: long\n`);
  });

  test('what does not fit is not written', async () => {
    const content = folder();
    const { code, said } = await tried(content, '--slot', '0:20', '--keep');
    expect([code, said]).toEqual([1, expect.stringContaining('stays as it was')]);
    expect(readFileSync(join(content, FILE), 'utf8')).toBe(CLASS);
  });

  test('a file that changed underneath is left alone', async () => {
    const content = folder();
    const { code } = await call(['fit', 'saturday', '--attendees', '9', '--keep'], {
      content,
      // Somebody else saves while the answer is printed.
      out: () => writeFileSync(join(content, FILE), '# theirs\n'),
    });
    expect([code, readFileSync(join(content, FILE), 'utf8')]).toEqual([3, '# theirs\n']);
  });
});
