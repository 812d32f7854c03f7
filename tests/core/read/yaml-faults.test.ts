import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, SOUND_SHOP } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

/** What is told of the sound shop with this shop.yaml: line, column and message. */
function told(text: string): string[] {
  const texts = new Map([...Object.entries(SOUND_SHOP), ['shop.yaml', text]]);
  const { shop, diagnostics } = readShop(texts, () => ({ state: 'media', media: { duration: 600 * 705_600_000 } }));
  return check(shop, diagnostics, { today: SAMPLE_TODAY })
    .filter(({ place }) => place.file === 'shop.yaml')
    .map(({ rule, place, message }) => `${rule} ${place.start.line}:${place.start.column} ${message}`);
}

const list = (name: string, of: string) => `${name}: &${name} [${Array(10).fill(`*${of}`).join(', ')}]\n`;
/** Ten times ten times … of one list: some 10^7 values when each alias is written out. */
const BOMB = `a: &a [${Array(10).fill('x').join(', ')}]\n${['b', 'c', 'd', 'e', 'f', 'g'].map((name, i) => list(name, 'abcdef'[i] ?? '')).join('')}`;

test.each([
  ['name: *star\n', 'yaml-syntax 1:7 no anchor &star stands above *star'],
  ['name: *\n', 'yaml-syntax 1:7 alias cannot be an empty string'],
  ['name: &a [*a]\n', 'yaml-syntax 1:11 *a stands inside what it names, so it would never end'],
  ['name: x\nunits: &u\n  a: {b: *u}\n', 'yaml-syntax 3:10 *u stands inside what it names, so it would never end'],
  ['<<: {name: x}\n', 'yaml-syntax 1:1 << takes nothing over here'],
  ['? [a, b]\n: c\n', 'yaml-syntax 1:3 a key has to be plain text'],
  ['name: x\n\tunits: [metric]\n\tlanguage: en\n', 'yaml-syntax 2:1 a tab indents this line and 1 more'],
  [`name: ${'['.repeat(20_000)}`, 'yaml-syntax 1:1007 more than 1000 brackets are opened and not shut'],
])('%j gives one finding', (text, finding) => {
  const [first, ...others] = told(text);
  expect(others).toEqual([]);
  // How deep the parser goes hangs on the stack it is given.
  const [place, any] = [/\d+:\d+/, '1:…'];
  const deep = finding.includes('too deep');
  expect(deep ? first?.replace(place, any) : first).toBe(deep ? finding.replace(place, any) : finding);
});

test('a bomb of aliases is told where it first stands for too much, and takes no time', () => {
  expect(told(BOMB)[0]).toMatch(/^yaml-syntax 7:\d+ \*\w stands for more than 200000 values$/);
});

test('as many values as a large spec table has may come from aliases', () => {
  expect(told(`${BOMB.split('\n').slice(0, 4).join('\n')}\n`).join()).not.toContain('yaml-syntax');
});

test('a key that stands twice is told at its second place, and a hundred such keys are enough', () => {
  expect(told('name: x\nunits: [metric]\nname: y\n')).toEqual(['yaml-syntax 3:1 map keys must be unique']);
  const many = told(Array.from({ length: 400 }, (_, n) => `k${n >> 1}: 1\n`).join(''));
  expect(many).toHaveLength(100);
});

test.each([
  ['lines', 'a:\n'.repeat(50_001), 'yaml-syntax 50000:3 the file has more than 50000 lines'],
  ['dashes', `a:\n  ${'- '.repeat(1_001)}x\n`, 'yaml-syntax 2:1 more than 1000 dashes begin one line'],
  ['colons', `a: ${'b: '.repeat(1_000)}x\n`, 'yaml-syntax 1:3002 more than 1000 colons stand in one line'],
  ['tags', `a:\n${' !x'.repeat(10_001)}\n`, 'yaml-syntax 2:30002 the file has more than 10000 exclamation marks'],
])('%s over the limit are told, not parsed', (_, text, finding) => {
  expect(told(text)).toEqual([finding]);
});

test('colons in one line begin anew with the next, and as many marks as the limit are read', () => {
  const lines = `name: "${'b: '.repeat(999)}"\nabout: "${'b: '.repeat(999)}${'!'.repeat(10_000)}"\n`;
  expect(told(lines).join()).not.toContain('yaml-syntax');
});
