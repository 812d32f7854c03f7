import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import type { FileFacts } from '../../../src/core/model/index.ts';
import { disagreements } from '../../../src/core/programme/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';

const demo = loadShop(resolve(import.meta.dirname, '../../../content'));

/** What the demo's chain lesson says wrongly of the rear axle nut once the row of 2022–2025 has another value. */
async function wrongOnce(nominal: number, history = ''): Promise<string[]> {
  const { texts, shop } = await demo;
  const table = texts.get('specs/tarn-420.yaml') ?? '';
  const changed = table.replace(
    '    nominal: 98\n    plusMinus: 5\n',
    `    nominal: ${nominal}\n    plusMinus: 5\n${history}`,
  );
  expect(changed === table).toBe(nominal === 98);
  const facts = new Map<string, FileFacts>();
  for (const { files, captions } of shop.recordings)
    for (const { file, facts: known } of [...files, ...(captions ? [captions] : [])]) facts.set(file, known);
  const { shop: after } = readShop(
    new Map([...texts, ['specs/tarn-420.yaml', changed]]),
    (file) => facts.get(file) ?? { state: 'missing' },
  );
  return disagreements(after).map(
    ({ heard, rows }) =>
      `${heard.text}: ${rows.map(({ whose, heldUntil }) => `${whose} ${heldUntil ?? ''}`.trim()).join('; ')}`,
  );
}

// Invented values: the demo says "They take 90" of the early machines and "From 2022 on … that takes 98" of the others.
test('words that say a value for each year agree with the table', async () => {
  expect(await wrongOnce(98)).toEqual([]);
});

test('of two values said, only the one whose row was changed is wrong, with or without its history', async () => {
  const wrong = ['98 newton metres, plus or minus 5: 2019–2021; 2022–2025'];
  expect(await wrongOnce(110)).toEqual(wrong);
  const history =
    '    history:\n      - { until: 2024-06-30, bulletin: Bulletin 24-7, nominal: 98, plusMinus: 5, unit: N·m }\n';
  expect(await wrongOnce(110, history)).toEqual(['98 newton metres, plus or minus 5: 2022–2025 2024-06-30; 2019–2021']);
});
