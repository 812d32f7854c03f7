import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type KeptFile, partOfFile, rangeAsked } from '../../../src/core/keep/index.ts';

/** A file of ten bytes in pieces of 4, 4 and 2. */
const FILE: KeptFile = {
  path: 'film.mp4',
  type: 'video/mp4',
  pieces: [4, 4, 2].map((bytes, n) => ({ bytes, sha256: `${n}` })),
};

// RFC 9110, 14.1.2: examples of byte ranges, for a representation of 10 000 bytes there, of ten here.
test.each([
  [null, 'whole'],
  ['bytes=0-4', { first: 0, last: 4 }],
  ['bytes=5-9', { first: 5, last: 9 }],
  ['bytes=-5', { first: 5, last: 9 }],
  ['bytes=5-', { first: 5, last: 9 }],
  ['bytes=5-1000', { first: 5, last: 9 }],
  ['bytes=-1000', { first: 0, last: 9 }],
  ['bytes=10-', 'beyond'],
  ['bytes=-0', 'beyond'],
  ['bytes=7-6', 'whole'],
  ['bytes=9-9', { first: 9, last: 9 }],
  ['bytes=0-0,-1', 'whole'],
  ['bytes=abc', 'whole'],
  ['pages=1-2', 'whole'],
] as const)('of a range "%s" is asked %o', (range, asked) => {
  expect(rangeAsked(range, FILE)).toEqual(asked);
});

test('the parts of pieces are exactly the bytes that were asked for', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1 }), fc.nat(), fc.nat(), (sizes, a, b) => {
      const size = sizes.reduce((sum, bytes) => sum + bytes, 0);
      const [first = 0, last = 0] = [a % size, b % size].toSorted((x, y) => x - y);
      const file = { ...FILE, pieces: sizes.map((bytes, n) => ({ bytes, sha256: `${n}` })) };
      const all = sizes.flatMap((bytes, n) => Array.from({ length: bytes }, (_, at) => `${n}:${at}`));
      const got = partOfFile(file, first, last).flatMap(({ piece, from, to }) =>
        Array.from({ length: to - from }, (_, at) => `${piece.sha256}:${from + at}`),
      );
      expect(got).toEqual(all.slice(first, last + 1));
    }),
  );
});
