import { expect, test } from 'vitest';
import { type TextShown, textShown } from '../../../src/core/pages/text-shown.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

// Values are invented.
const ROWS = (years: readonly string[]) =>
  `machine: {title: Tarn 420, years: 2019-2025}\ndocuments:\n  manual: {title: Manual}\nspecs:\n${years
    .map(
      (span, index) =>
        `  - {id: axle-nut, title: Axle nut, kind: torque, nominal: ${90 + 8 * index}, plusMinus: 5, unit: N·m, years: ${span}, source: {document: manual, page: 1}}\n`,
    )
    .join('')}`;

function stepText(years: readonly string[], words: string): TextShown {
  const { shop, lesson } = smallShop({
    'specs/tarn-420.yaml': ROWS(years),
    ...changedFile('lessons/chain.mdx', 'Tighten to <Spec of="axle-nut" />.', words),
  });
  const step = lesson.chapters.flatMap(({ steps }) => steps).find(({ id }) => id === 'tighten-the-nut');
  return textShown(step?.body ?? [], { shop, lesson, machine: shop.machines[0], fileAddress: (file) => file });
}

/** The sentence, with `…` for values. */
const inWords = (text: TextShown) =>
  text
    .map((part) => (typeof part === 'string' ? part.trim() : '…'))
    .join('|')
    .replace(/^.*(?=\bTo\|)/s, '');

test('what differs by year stands on lines of its own, and none of the text below begins with a comma', () => {
  const two = ['2019-2021', '2022-2025'];
  expect(inWords(stepText(two, 'To <Spec of="axle-nut" />, slowly.'))).toBe(
    'To|…|<span class="mark-after">,</span> slowly.</p>',
  );
  expect(inWords(stepText(two, 'To <Spec of="axle-nut" />.'))).toBe('To|…|<span class="mark-after">.</span></p>');
  expect(inWords(stepText(two, 'To <Spec of="axle-nut" /> slowly, then wait.'))).toBe('To|…|slowly, then wait.</p>');
  // One value stands in its line.
  expect(inWords(stepText(['2019-2025'], 'To <Spec of="axle-nut" />, slowly.'))).toBe('To|…|, slowly.</p>');
});
