import { describe, expect, test } from 'vitest';
import { check, READ_FAULTS, RULES, SAMPLE_TODAY, type Sample, sampleContent } from '../../../src/core/check/index.ts';
import type { Diagnostic } from '../../../src/core/model/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

function told(sample: Sample): Diagnostic[] {
  const { texts, facts, unreadable } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts, unreadable);
  return check(shop, diagnostics, { today: sample.today ?? SAMPLE_TODAY });
}

const line = ({ place, message }: Diagnostic) => `${place.start.line}:${place.start.column} ${message}`;

const examples = [...RULES, ...READ_FAULTS];

test('the sound small shop is sound', () => {
  expect(told({ files: {} }).map(line)).toEqual([]);
});

describe.each(examples)('$id', ({ id, severity, why, bad, says, good }) => {
  test('tells its bad example, and nothing else is told', () => {
    const diagnostics = told(bad);
    expect([...new Set(diagnostics.map(({ rule }) => rule))], diagnostics.map(line).join('\n')).toEqual([id]);
    expect(line(diagnostics[0]!).slice(0, says.length)).toBe(says);
    expect(says, 'place and words').toMatch(/^\d+:\d+ \S+ \S+/);
    expect(diagnostics[0]!.severity).toBe(severity);
  });

  test('finds no fault in its good example', () => {
    expect(told(good).map((d) => `${d.rule} ${line(d)}`)).toEqual([]);
  });

  test('a remedy that it offers mends it', () => {
    const [first] = told(bad);
    if (!first?.fix) return;
    const files = { ...bad.files };
    for (const { place, text } of first.fix.edits.toReversed()) {
      const { texts } = sampleContent({ ...bad, files });
      const before = texts.get(place.file) ?? '';
      files[place.file] = before.slice(0, place.start.offset) + text + before.slice(place.end.offset);
    }
    expect(
      told({ ...bad, files })
        .filter(({ rule }) => rule === id)
        .map(line),
    ).toEqual([]);
  });

  test('speaks to people', () => {
    const [first] = told(bad);
    expect(first!.message).toMatch(/^[^A-Z]|^[A-Z]{2}/);
    expect(first!.message).not.toMatch(/[.\n]$/);
    expect(first!.help).not.toMatch(/\?/);
    expect(why).toMatch(/^[A-Z].*\.$/);
  });
});

test('ids name the fault, are unlike each other, and never start with "no-"', () => {
  const ids = examples.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const id of ids) expect(id).toMatch(/^(?!no-)[a-z]+(-[a-z]+)*$/);
});
