import { expect, test } from 'vitest';
import { check } from '../../../src/core/check/index.ts';
import { KEY, shared } from '../../../src/core/check/rules/shared-sample.ts';
import { sampleContent } from '../../../src/core/check/sample.ts';
import { valueShown } from '../../../src/core/pages/index.ts';
import { comparisonInWords, provenanceOf, sourceInWords } from '../../../src/core/programme/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const TABLE = 'specs/tarn-420.yaml';
const KNOWN = `    key: ${KEY}\n`;

/** What is said of the first row of the sound shop, shared by Weir Bank Workshop. */
function said(more: string, change: (table: string) => string = (table) => table) {
  const { texts, facts } = sampleContent(shared(more));
  texts.set(TABLE, change(texts.get(TABLE) ?? ''));
  const { shop, diagnostics } = readShop(texts, facts);
  const [machine] = shop.machines;
  const [row, own] = machine?.specs ?? [];
  if (!machine || !row || !own) throw new Error('the sound shop has two rows');
  const from = provenanceOf(shop, machine.id, row);
  if (!from) throw new Error('the row is shared');
  const rules = check(shop, diagnostics, { today: '2026-11-25' }).map(({ rule, severity }) => `${severity} ${rule}`);
  return {
    shop,
    machine,
    row,
    from,
    rules,
    source: sourceInWords(shop, machine.id, row),
    words: comparisonInWords(from, row),
    ofOwn: provenanceOf(shop, machine.id, own),
  };
}

test('a shared value says from whom it is, in which version, who compared it and where', () => {
  const { source, words, ofOwn, rules } = said(KNOWN);
  expect(source).toBe('Service manual (invented), p. 41; shared by Weir Bank Workshop (tarn-values 1.0.0)');
  expect(words).toBe('Compared by lead mechanic, 2026-10-03, of Weir Bank Workshop.');
  // The collection has the first row alone.
  expect([ofOwn, rules]).toEqual([undefined, []]);
});

test('of an unknown signer it is shown as unchecked, and is refused where it is critical', () => {
  const other = KEY.replace('3f2a', '3f2b');
  for (const more of ['', `    key: ${other}\n`]) {
    const { source, words, rules, shop, machine, row } = said(more);
    expect(source).toContain('(tarn-values 1.0.0), unchecked');
    expect(valueShown(shop, machine, { row }).value.source).toBe(source);
    expect(words).toContain('nobody here has compared it, nor the key of Weir Bank Workshop');
    expect(rules).toEqual(['warning shared-value-unchecked']);
  }
});

test('whether it can hurt is part of the value: made critical here, it is the shop’s own and has to be compared here', () => {
  const { rules, from } = said(KNOWN, (table) =>
    table.replace('    nominal: 98', '    critical: true\n    nominal: 98'),
  );
  expect([from.value, from.compared, rules]).toEqual(['own', 'unchecked', ['error shared-value-unchecked']]);
});

test('whoever compares it here stands for it, known signer or not', () => {
  const { words, rules, source } = said('', (table) => table.replace('lead mechanic', 'second mechanic'));
  expect([words, rules]).toEqual(['Compared here by second mechanic, 2026-10-03.', []]);
  expect(source).not.toContain('unchecked');
});

test('another value over it is the shop’s own; the publisher’s comparison does not stand for it', () => {
  const { source, words, rules } = said(KNOWN, (table) => table.replace('nominal: 98', 'nominal: 96'));
  expect(source).toBe('Service manual (invented), p. 41');
  expect(words).toBe('Unchecked: this shop’s own value over that of tarn-values 1.0.0.');
  expect(rules).toEqual(['warning shared-value-unchecked']);
});

test('a withdrawn value is shown as none, with the day and the reason, in its place', () => {
  const { shop, machine, row, words, rules } = said(KNOWN, (table) =>
    table.replace('    nominal: 98', '    withdrawn: {on: 2026-11-20, why: the bolt was changed}\n    nominal: 98'),
  );
  const { value } = valueShown(shop, machine, { row });
  expect(value.primary).toBe('no value: withdrawn');
  expect(value.source).toBe('since 2026-11-20: the bolt was changed; look it up in the service manual');
  expect(JSON.stringify(value)).not.toContain('98');
  // The shop itself has withdrawn it, over the published value.
  expect([words, rules]).toEqual(['Withdrawn here.', ['warning spec-withdrawn']]);
});
