import { afterEach, expect, test } from 'vitest';
import { findQuantitiesByLine, unsearched, unsearchedByLine } from '../../../src/core/heard/index.ts';
import { HOSTILE_TEXT } from '../../support/hostile-text.ts';

const { exec } = RegExp.prototype;
const { slice, toLowerCase } = String.prototype;

afterEach(() => {
  RegExp.prototype.exec = exec;
  String.prototype.slice = slice;
  String.prototype.toLowerCase = toLowerCase;
});

/**
 * Characters that regular expressions were given and that were copied, while something ran: what grows as the square of
 * a text shows here as it does on a clock, on any machine.
 */
function charactersHandled(run: () => void): number {
  let characters = 0;
  RegExp.prototype.exec = function (this: RegExp, text: string) {
    const from = this.global || this.sticky ? this.lastIndex : 0;
    const found = exec.call(this, text);
    // A sticky one looks at its own place only.
    characters += found ? found.index + found[0].length - from : this.sticky ? 1 : String(text).length - from;
    return found;
  };
  String.prototype.slice = function (this: string, ...bounds: [number?, number?]) {
    const copy = slice.apply(this, bounds);
    characters += copy.length;
    return copy;
  };
  String.prototype.toLowerCase = function (this: string) {
    characters += this.length;
    return toLowerCase.call(this);
  };
  try {
    run();
  } finally {
    RegExp.prototype.exec = exec;
    String.prototype.slice = slice;
    String.prototype.toLowerCase = toLowerCase;
  }
  return characters;
}

test('the count of characters sees what grows as the square', () => {
  const copying = (text: string) => {
    for (let at = 0; at < text.length; at++) text.slice(at);
  };
  const [small, large] = [2000, 4000].map((n) => charactersHandled(() => copying('x'.repeat(n))));
  expect((large ?? 0) / (small ?? 1)).toBeGreaterThan(3.5);
});

test('there are at least 45 hostile texts', () => {
  expect(HOSTILE_TEXT.length).toBeGreaterThanOrEqual(45);
  expect(new Set(HOSTILE_TEXT.map(({ name }) => name)).size).toBe(HOSTILE_TEXT.length);
});

test.each(HOSTILE_TEXT)('twice of "$name" is no more than twice the work', ({ text }) => {
  const [small, large] = [3000, 6000].map((bytes) => charactersHandled(() => findQuantitiesByLine(text(bytes))));
  // More than twice for chunks that grow up to the longest one looked into; the square would be four times.
  expect((large ?? 0) / (small ?? 1)).toBeLessThan(3);
});

test('what is passed over is told with its place, never in silence', () => {
  const run = `torque it to ${'7'.repeat(300)} Nm`;
  expect(unsearched(run)).toEqual([{ start: 13, end: 313, why: '300 characters without a blank' }]);
  const many = `${'12 mm '.repeat(30_000)}98 N·m`;
  const [rest] = unsearchedByLine(`Nothing.\n${many}`);
  expect(rest).toEqual({ line: 2, start: 25_000 * 6, why: 'more than 25000 numbers come before' });
  expect(findQuantitiesByLine(many)).toHaveLength(25_000);
  expect(unsearched(`${'12 mm '.repeat(24_999)}98 N·m`)).toEqual([]);
});
