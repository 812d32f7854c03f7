import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { describe, expect, test } from 'vitest';
import { check } from '../../../src/core/check/index.ts';
import type { Diagnostic, FileFacts } from '../../../src/core/model/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { FILE_MISTAKES } from './files.ts';
import { FURTHER_FILE_MISTAKES } from './further-files.ts';
import { FURTHER_PLAN_MISTAKES } from './further-plan.ts';
import type { Mistake } from './mistake.ts';
import { PLAN_MISTAKES } from './plan.ts';
import { VALUE_MISTAKES } from './values.ts';
import { WORD_MISTAKES } from './words.ts';

const FOLDER = join(import.meta.dirname, 'shop');
const TODAY = '2026-11-25';
const SECOND = 705_600_000;

const texts: ReadonlyMap<string, string> = new Map(
  readdirSync(FOLDER, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return [relative(FOLDER, path).split(sep).join('/'), readFileSync(path, 'utf8')];
    }),
);
const SECONDS: Readonly<Record<string, number>> = { 'media/bench.mp4': 1800, 'media/engine.mp4': 1200 };

function told(shopTexts: ReadonlyMap<string, string>): Diagnostic[] {
  const facts = (file: string): FileFacts => {
    const text = shopTexts.get(file);
    if (text !== undefined) return { state: 'text', text };
    const seconds = SECONDS[file];
    return seconds === undefined
      ? { state: 'missing' }
      : { state: 'media', media: { duration: seconds * SECOND, framesPerSecond: 25 } };
  };
  const { shop, diagnostics } = readShop(shopTexts, facts);
  return check(shop, diagnostics, { today: TODAY });
}

/** A text as it is read again, when it was stored so. */
function onDisk(text: string, stored: Mistake['stored']): string {
  if (stored === 'crlf') return `\uFEFF${text.replaceAll('\n', '\r\n')}`;
  return stored ? Buffer.from(text, stored).toString('utf8') : text;
}

/** The shop with one mistake in it. */
function mistaken({ file, from, to, renamed, stored }: Mistake): ReadonlyMap<string, string> {
  const text = texts.get(file) ?? '';
  if (from !== undefined) expect(text.split(from).length - 1, `${file} holds "${from}" once`).toBe(1);
  const changed = from === undefined ? to : text.replace(from, () => to ?? '');
  const others = [...texts].filter(([name]) => name !== file);
  if (changed === undefined && renamed === undefined && stored === undefined) return new Map(others);
  const whole = changed ?? text;
  return new Map([...others, [renamed ?? file, onDisk(whole, stored)]]);
}

const line = ({ rule, severity, place, message }: Diagnostic) =>
  `${severity} ${rule} ${place.file}:${place.start.line} ${message}`;

/** What a mistake is told as: rule, severity and line of each finding. */
function outcome(mistake: Mistake): { readonly found: string[]; readonly expected: string[]; readonly all: string } {
  const all = mistaken(mistake);
  const diagnostics = told(all);
  const { gives, severity = 'error', at, renamed } = mistake;
  const file = mistake.in ?? renamed ?? mistake.file;
  const text = all.get(file) ?? '';
  const where = at === undefined ? -1 : text.indexOf(at);
  if (at !== undefined) expect(where, `${file} holds "${at}"`).toBeGreaterThanOrEqual(0);
  const row = text.slice(0, Math.max(0, where)).split('\n').length;
  const found = diagnostics.map(
    ({ rule, severity: weight, place }) =>
      `${weight} ${rule}${at === undefined ? '' : ` ${place.file}:${place.start.line}`}`,
  );
  const expected = gives === 'read rightly' ? [] : [`${severity} ${gives}${at === undefined ? '' : ` ${file}:${row}`}`];
  return { found, expected, all: diagnostics.map(line).join('\n') };
}

const MISTAKES: readonly Mistake[] = [
  ...VALUE_MISTAKES,
  ...WORD_MISTAKES,
  ...PLAN_MISTAKES,
  ...FURTHER_PLAN_MISTAKES,
  ...FILE_MISTAKES,
  ...FURTHER_FILE_MISTAKES,
];

test('the shop without a mistake is sound', () => {
  expect(told(texts).map(line)).toEqual([]);
});

test('no two mistakes have one name', () => {
  const names = MISTAKES.map(({ name }) => name);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
});

describe('a mistake is told once, where it is', () => {
  test.each(MISTAKES.map((mistake): [string, Mistake] => [mistake.name, mistake]))('%s', (_, mistake) => {
    const { found, expected, all } = outcome(mistake);
    expect(found, all).toEqual(expected);
  });
});

test('the other rows that one wrench does not reach are told with the first, each with its place', () => {
  const early = MISTAKES.find(({ name }) => name === 'a torque wrench whose scale ends too early');
  const [finding] = early ? told(mistaken(early)) : [];
  expect(finding?.message).toContain('bar-nut needs 14 to 18 N·m');
  expect(finding?.also?.map(({ place, message }) => `${place.file} ${message.slice(0, 32)}`)).toEqual([
    'lessons/sharpen.mdx bar-nut needs 17 to 21 N·m, but ',
    'lessons/spark.mdx spark-plug needs 17 to 23 N·m, b',
  ]);
});
