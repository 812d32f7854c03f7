import { expect, test } from 'vitest';
import { settledPdf } from '../../../src/node/pack/papers.ts';

// As Chromium 156 writes them, seen in papers of the demo.
const pdf = (moment: string, first: number) => {
  const id = (place: number) => `node${String(first + place).padStart(8, '0')}`;
  return Buffer.from(
    `/CreationDate (D:${moment}+00'00')\n/ModDate (D:${moment}+00'00')>>\n/ID (${id(7)})>>\n/Headers [(${id(7)}) (${id(0)})]\xe4`,
    'latin1',
  );
};

test('two printings of one page are the same bytes, at the same places', () => {
  const one = settledPdf(pdf('20261127145535', 2015));
  expect(Buffer.from(one).equals(Buffer.from(settledPdf(pdf('20270101000000', 88))))).toBe(true);
  expect(one.length).toBe(pdf('20261127145535', 2015).length);
  expect(Buffer.from(one).toString('latin1')).toBe(
    "/CreationDate (D:20000101000000+00'00')\n/ModDate (D:20000101000000+00'00')>>\n/ID (node00000002)>>\n/Headers [(node00000002) (node00000001)]\xe4",
  );
});
