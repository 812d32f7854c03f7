import { expect, test } from 'vitest';
import { SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { bytesOf, keptWords, piecesOf, readKeepList, sizeInWords } from '../../../src/core/keep/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const LIST = {
  ...{ format: 'kept lesson', version: 1, lesson: 'chain', title: 'Chain', made: '2026-11-27', edition: 'a' },
  ...{ values: [], corrections: [] },
  files: [
    {
      path: 'a',
      type: 'text/html',
      pieces: [
        { bytes: 3, sha256: 'x' },
        { bytes: 2, sha256: 'y' },
      ],
    },
  ],
};

test('a list of a later build, or what is none, is not taken for one', () => {
  const list = readKeepList(LIST);
  expect(list && bytesOf(piecesOf([list, list]).values())).toBe(5);
  for (const odd of [null, 'x', {}, { ...LIST, version: 2 }, { ...LIST, files: 'x' }, { ...LIST, lesson: 1 }])
    expect(readKeepList(odd)).toBeUndefined();
});

// IEC 80000-13: the prefixes k and M are 10³ and 10⁶.
test.each([
  [1, '1 kB'],
  [640_400, '640 kB'],
  [999_499, '999 kB'],
  [999_500, '1.0 MB'],
  [9_940_000, '9.9 MB'],
  [9_960_000, '10 MB'],
  [84_499_999, '84 MB'],
])('%d bytes are %s', (bytes, words) => {
  expect(sizeInWords(bytes)).toBe(words);
});

test('a lesson says the values it cites, with both units and what can hurt', () => {
  const { texts, facts } = sampleContent(SOUND);
  texts.set(
    'specs/tarn-420.yaml',
    (texts.get('specs/tarn-420.yaml') ?? '').replace('    kind: torque', '    critical: true\n    kind: torque'),
  );
  const { shop } = readShop(texts, facts);
  const [lesson] = shop.lessons;
  if (!lesson) throw new Error('no lesson');
  expect(keptWords(shop, lesson)).toEqual({
    // 98 N·m / 1.3558179483314 (NIST SP 811, B.8: pound-force foot) = 72.3 lbf·ft.
    values: [
      {
        path: 'specs/tarn-420/#axle-nut',
        title: 'Rear axle nut',
        text: expect.stringMatching(/^98 ± 5 N·m \(72\.3 ± 3\.\d lbf·ft\)$/),
        critical: true,
      },
    ],
    corrections: [],
  });
});
