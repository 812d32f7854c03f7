import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cp, mkdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { call } from '../../support/call.ts';

let content = '';
beforeEach(async () => {
  content = mkdtempSync(join(tmpdir(), 'liftside-like-'));
  for (const name of ['shop.yaml', 'kit.yaml', 'specs', 'lessons', 'recordings', 'classes'])
    await cp(join('content', name), join(content, name), { recursive: true });
});
afterEach(() => rmSync(content, { recursive: true, force: true }));

const like = (...words: readonly string[]) => call(['new', 'class', 'autumn', ...words], { content });
const LIKE = ['--like', 'chain-saturday', '--date', '2027-09-04'] as const;
const read = (file: string) => readFileSync(join(content, file), 'utf8');

test('a class like an earlier one is its text on another day, and nothing else where nothing was learned', async () => {
  const { code, out } = await like(...LIKE);
  expect(code).toBe(0);
  expect(read('classes/autumn.yaml')).toBe(
    read('classes/chain-saturday.yaml').replace('date: 2027-03-06', 'date: "2027-09-04"'),
  );
  expect(out.split('\n')[0]).toMatch(/wrote .*classes\/autumn\.yaml$/);
});

test('minutes that a class really took are learned, and told', async () => {
  writeFileSync(
    join(content, 'classes/chain-saturday.actual.yaml'),
    'date: 2027-03-06\nattendees: 11\nblocks:\n  - {id: welcome, minutes: 9}\n',
  );
  const { out } = await like(...LIKE);
  // Written [3, 4, 6] counts four times, the nine minutes once. Least (4 · 3 + 9) / 5 = 4.2; most 9, as it was seen;
  // mean (4 · 25/6 + 9) / 5 = 5.13, so likely (6 · 5.13 - 4.2 - 9) / 4 = 4.4. To half a minute.
  expect(out).toContain('minutes: "welcome" (round) took 9 min; now [4, 4.5, 9]');
  expect(read('classes/autumn.yaml')).toMatch(/id: round, worth: 20, minutes: \[4, 4\.5, 9\]/);
  expect(out).toContain('people: 11 came last time; reckoned for 12 attendees');
});

test('values, cards, questions and stock that have changed since are told', async () => {
  const kit = read('kit.yaml');
  writeFileSync(join(content, 'kit.yaml'), kit.replace(/(steel-rule:[^\n]*\n(?: {4}[^\n]*\n)*? {4}count: )\d+/, '$11'));
  await mkdir(join(content, 'questions'));
  writeFileSync(
    join(content, 'questions/chain-saturday.yaml'),
    'date: 2027-03-06\nquestions:\n  - words: Why no grease?\n  - {words: Answered, answered: true}\n',
  );
  await mkdir(join(content, 'corrections'));
  writeFileSync(
    join(content, 'corrections/chain.yaml'),
    'corrections:\n  - {step: set-the-slack, at: "1:54:00", spec: chain-slack, said: x, on: 2027-05-01}\n',
  );
  const { out } = await like(...LIKE);
  expect(out).toContain('question: asked and not answered: "Why no grease?"');
  expect(out).not.toContain('"Answered"');
  expect(out).toContain('correction: "set-the-slack" of chain has a card since 2027-05-01');
});

test.each([
  ['no date', ['--like', 'chain-saturday'], 2, /needs both/],
  ['no such day', ['--like', 'chain-saturday', '--date', '2027-02-30'], 2, /is no day/],
  ['no such class', ['--like', 'chain-sunday', '--date', '2027-09-04'], 2, /no class "chain-sunday".*chain-saturday/],
])('%s is refused in words', async (_, words, code, said) => {
  const answer = await like(...words);
  expect(answer.code).toBe(code);
  expect(answer.said).toMatch(said);
});

test('a class that is there already stays as it is', async () => {
  await like(...LIKE);
  writeFileSync(join(content, 'classes/autumn.yaml'), 'mine\n');
  expect((await like(...LIKE)).code).not.toBe(0);
  expect(read('classes/autumn.yaml')).toBe('mine\n');
});

test('--like is for classes', async () => {
  const { code, said } = await call(['new', 'lesson', 'x', '--like', 'chain'], { content });
  expect([code, said]).toEqual([2, '--like and --date are for a class, not for a lesson']);
});
