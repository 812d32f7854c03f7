import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { EXPLAINABLE } from '../../../src/core/check/index.ts';
import { call } from '../../support/call.ts';

test('a rule is explained: what it tells, why, what to do, with an example wrong and right', async () => {
  const { code, out } = await call(['check', '--explain', 'spec-unknown']);
  expect(code).toBe(0);
  const lines = out.split('\n');
  expect(lines[0]).toBe('spec-unknown  error');
  expect(lines[1]).toMatch(/^ {2}tells {2}no spec "[a-z-]+" for tarn-420$/);
  expect(lines[2]).toBe('  why    The page would show no value, and someone would guess one.');
  expect(lines[3]).toMatch(/^ {2}help {3}the nearest is "[a-z-]+"$/);
  const [wrong, right] = out.split(/^ {2}right .*$/m);
  expect(wrong).toMatch(/^ {2}wrong {2}lessons\/chain\.mdx$/m);
  const mistyped = /no spec "([a-z-]+)"/.exec(out)?.[1] ?? '';
  expect(wrong).toContain(`<Spec of="${mistyped}" />`);
  expect(right).not.toContain(mistyped);
  expect(right).toContain('<Spec of="axle-nut" />');
});

test('it needs no content', async () => {
  const { code, said } = await call(['check', '--explain', 'yaml-syntax'], { cwd: '/' });
  expect([code, said]).toEqual([0, '']);
});

test.each(EXPLAINABLE)('%s has every part, in words, and another line wrong than right', async (rule) => {
  const { code, out } = await call(['check', '--explain', rule, '--json']);
  expect(code).toBe(0);
  const { example, ...words } = JSON.parse(out) as {
    rule: string;
    says: string;
    why: string;
    help: string;
    example: { file: string; wrong: string[]; right: string[] }[];
  };
  expect(words.rule).toBe(rule);
  for (const part of [words.says, words.why, words.help]) expect(part.length, rule).toBeGreaterThan(10);
  expect(example.length, rule).toBeGreaterThan(0);
  for (const { wrong, right } of example) expect(wrong).not.toEqual(right);
});

test('docs/rules.md says of every rule what to do, in the same words', async () => {
  const page = readFileSync('docs/rules.md', 'utf8');
  const sections = page.split(/^## /m).slice(1);
  expect(sections.map((section) => section.split('\n')[0])).toEqual(EXPLAINABLE);
  for (const section of sections) expect(section).toMatch(/^What to do: \S.*\.$/m);
});

test('a name that no rule has is told with the nearest one', async () => {
  const near = await call(['check', '--explain', 'spec-unknwon']);
  expect([near.code, near.out, near.said]).toEqual([2, '', 'no rule "spec-unknwon"; the nearest is "spec-unknown"']);
  const far = await call(['check', '--explain', 'zzzzzzzzzz']);
  expect([far.code, far.said]).toEqual([2, 'no rule "zzzzzzzzzz"; docs/rules.md lists them all']);
});
