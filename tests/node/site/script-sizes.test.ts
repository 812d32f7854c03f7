import { randomBytes } from 'node:crypto';
import type { Rollup } from 'vite';
import { expect, test } from 'vitest';
import { OutsideFailure } from '../../../src/node/failure.ts';
import { ScriptSizes } from '../../../src/node/site/script-sizes.ts';

/** Feeds chunks to the plugin as a build does: name, kibibytes that do not compress, what it imports. */
function weighed(
  chunks: readonly (readonly [name: string, kib: number, entry: boolean, imports: readonly string[]])[],
): ScriptSizes {
  const sizes = new ScriptSizes();
  const { generateBundle } = sizes.plugin();
  const bundle = Object.fromEntries(
    chunks.map(([fileName, kib, isEntry, imports]) => [
      fileName,
      { type: 'chunk', fileName, isEntry, imports, code: randomBytes(kib * 768).toString('base64') },
    ]),
  );
  if (typeof generateBundle === 'function')
    generateBundle.call({} as never, {} as never, bundle as unknown as Rollup.OutputBundle as never, true);
  return sizes;
}

test('a page counts with all it loads at once; the rest counts as later', () => {
  const { page, later } = weighed([
    ['a.js', 2, true, ['shared.js']],
    ['b.js', 1, true, ['shared.js']],
    ['shared.js', 3, false, []],
    ['player.js', 50, false, ['shared.js']],
  ]).weigh();
  const kib = (bytes: number) => Math.round(bytes / 1024);
  expect(page.map(({ name, size }) => [name, kib(size)])).toEqual([
    ['a.js', 4],
    ['b.js', 3],
  ]);
  expect(kib(later)).toBe(38);
});

test('over the budget, the build ends and says what weighs too much', () => {
  expect(() => weighed([['lesson.js', 400, true, []]]).hold()).toThrow(
    /over the budget in package\.json\nlesson\.js and what it needs: \d+\.\d of \d+ KiB/,
  );
  // Told in words by the command line, as everything of this kind is.
  expect(() => weighed([['lesson.js', 400, true, []]]).hold()).toThrow(OutsideFailure);
  expect(() => weighed([['player.js', 900, false, []]]).hold()).toThrow(/scripts loaded later: \d+\.\d of \d+ KiB/);
  expect(() => weighed([['lesson.js', 1, true, []]]).hold()).not.toThrow();
});
