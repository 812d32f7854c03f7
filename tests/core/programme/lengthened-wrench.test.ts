import { expect, test } from 'vitest';
import { lengthenedWrench } from '../../../src/core/programme/index.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

// A wrench set to M gives M (L + E) / L at the fastener, L from drive to grip, E added in line: moments on a rigid lever
// (statics; the formula of every torque wrench handbook, no single source).

/** The wrench of the step, lengthened; nothing where it is not. */
function lengthened(lever: string, extension: string, uses = 'tool="torque-wrench" /> <Uses tool="crow-foot"') {
  const kit = changedFile(
    'kit.yaml',
    '    resolution: {nominal: 1, unit: N·m}\n',
    `${lever}  crow-foot:\n    title: Crow foot\n${extension}`,
  );
  const lesson = changedFile('lessons/chain.mdx', '<Uses tool="torque-wrench"', `<Uses ${uses}`);
  const { shop } = smallShop({ ...kit, ...lesson });
  const step = shop.lessons[0]?.chapters[0]?.steps[1];
  if (!step) throw new Error('no second step');
  return lengthenedWrench(shop.kit, step);
}
const lever = (nominal: number, unit = 'mm') => `    lever: {nominal: ${nominal}, unit: ${unit}}\n`;
const extension = (nominal: number, unit = 'mm') => `    extension: {nominal: ${nominal}, unit: ${unit}}\n`;

test.each([
  [400, 100, 0.8],
  [400, 400, 0.5],
  [400, -100, 4 / 3],
  [400, -399, 400],
])('a lever of %d mm with %d mm in line is set to %d of the torque', (long, added, by) => {
  const found = lengthened(lever(long), extension(added));
  expect(found).toMatchObject({ id: 'torque-wrench', wrench: 'Torque wrench, large', adapter: 'Crow foot' });
  expect(found).toMatchObject({ lever: long, extension: added });
  expect(found?.by).toBeCloseTo(by, 12);
});

test('lengths may be written in any unit', () =>
  expect(lengthened(lever(40, 'cm'), extension(1, 'in'))).toMatchObject({ lever: 400, extension: 25.4 }));

test.each([
  ['pointed back by its whole length', lever(400), extension(-400)],
  ['pointed back further', lever(400), extension(-401)],
  ['a lever of nothing', lever(0), extension(100)],
  ['a lever that is not known', '', extension(100)],
  ['an adapter of unknown length', lever(400), ''],
])('%s: none', (_, long, added) => expect(lengthened(long, added)).toBeUndefined());

test('it takes both in the step', () => {
  expect(lengthened(lever(400), extension(100), 'tool="torque-wrench"')).toBeUndefined();
  expect(lengthened(lever(400), extension(100), 'tool="crow-foot"')).toBeUndefined();
  expect(lengthened(lever(400), extension(100), 'tool="breaker-bar" /> <Uses tool="crow-foot"')).toBeUndefined();
});
