import { expect, test } from 'vitest';
import { call } from '../../support/call.ts';

const said = (text: string, ...more: string[]) => call(['quantities', '-', ...more], { input: async () => text });

test('each quantity has its place in line and column, its kind, its limits and its unit as spoken', async () => {
  const { code, out } = await said('Nothing here.\nMix it fifty to one, idle at 2700 rpm, no more than 9 A.', '--json');
  expect(code).toBe(0);
  expect(JSON.parse(out)).toEqual({
    found: [
      { line: 2, text: 'fifty to one', start: 7, end: 19, kind: 'ratio', min: 50, max: 50, unit: ':1' },
      { line: 2, text: '2700 rpm', start: 29, end: 37, kind: 'turning-speed', min: 2700, max: 2700, unit: 'rpm' },
      { line: 2, text: '9 A', start: 52, end: 55, kind: 'current', min: null, max: 9, unit: 'A' },
    ],
  });
});

test('what is not searched is told beside the JSON and in it', async () => {
  const { code, out, said: words } = await said(`98 N·m\n  ${'1'.repeat(250)}`, '--json');
  expect(code).toBe(0);
  const { found, skipped } = JSON.parse(out);
  expect(found).toHaveLength(1);
  expect(skipped).toEqual([{ line: 2, start: 2, why: '250 characters without a blank' }]);
  expect(words).toContain('-:2:3 not searched from here: 250 characters without a blank');
});
