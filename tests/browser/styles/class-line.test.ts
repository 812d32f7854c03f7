import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { contrast, luminance } from '../../support/contrast.ts';

const css = (file: string) => readFileSync(resolve(import.meta.dirname, '../../../src/styles', file), 'utf8');

/** The colours that hold by day or by night: names and values of all that is set there, the later one over the earlier. */
function colours(night: boolean): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const sheet of [css('tokens.css'), css('class-line.css')]) {
    const [day = '', ...dark] = sheet.split(/@media (?:screen and )?\(prefers-color-scheme: dark\) \{/);
    // What follows the block of the night, behind its closing brace, holds by day as well.
    const blocks = dark.map((text) => text.split(/\n\}\n/)[0] ?? '');
    for (const text of [day, ...(night ? blocks : [])])
      for (const [, name = '', value = ''] of text.matchAll(/(--[\w-]+): ([^;]+);/g)) found.set(name, value);
  }
  return found;
}

function luminanceOf(name: string, known: ReadonlyMap<string, string>): number {
  const value = known.get(name) ?? '';
  const [, other] = /^var\((--[\w-]+)\)$/.exec(value) ?? [];
  if (other !== undefined) return luminanceOf(other, known);
  const [, hex] = /^#([0-9a-f]{6})$/.exec(value) ?? [];
  if (hex === undefined) throw new Error(`${name} is no colour: ${value}`);
  return luminance([0, 2, 4].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)));
}

// WCAG 2.2, 1.4.3: letters that are not large want 4.5 : 1; the names in blocks are 15 px on a phone.
test.each([
  ['by day', false],
  ['by night', true],
])('%s the name of a block can be read on every colour that a block has', (_, night) => {
  const known = colours(night);
  for (const fill of ['--hands', '--sheet', '--paper', '--wash'])
    expect(
      [fill, contrast(luminanceOf('--ink', known), luminanceOf(fill, known))],
      `the name of a block on ${fill}`,
    ).toEqual([fill, expect.toSatisfy((ratio: number) => ratio >= 4.5)]);
});
