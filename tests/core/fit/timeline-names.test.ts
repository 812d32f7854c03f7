import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nameInBlock } from '../../../src/core/fit/index.ts';

test('a name is broken between words into a wide block, and stands upwards in a narrow one', () => {
  expect(nameInBlock('Fit the new chain', 100, 120, 14)).toEqual({ upright: false, lines: ['Fit the new', 'chain'] });
  expect(nameInBlock('Welcome, names, who rides what', 36, 120, 14)).toEqual({
    upright: true,
    lines: ['Welcome, names,', 'who rides what'],
  });
});

test('what finds no room ends in an ellipsis, and where nothing fits there is nothing', () => {
  expect(nameInBlock('Welcome, names, who rides what', 20, 120, 14)?.lines).toEqual(['Welcome, names…']);
  expect(nameInBlock('Counterrotation', 75, 20, 14)?.lines).toEqual(['Counterr…']);
  expect(nameInBlock('Soup', 10, 120, 14)).toBe(undefined);
});

test('whatever the name and the block, no line is longer than the block and no more lines than fit', () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 60 }), fc.nat(300), fc.nat(200), (name, width, height) => {
      const found = nameInBlock(name, width, height, 14);
      if (!found) return;
      const [along, across] = found.upright ? [height, width] : [width, height];
      for (const line of found.lines) expect(line.length * 0.56 * 14).toBeLessThanOrEqual(along);
      expect(found.lines.length * 14 * 1.08).toBeLessThanOrEqual(across);
    }),
    { numRuns: 500 },
  );
});
