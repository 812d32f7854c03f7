import { expect, test } from 'vitest';
import { figuresIn, measuresInSpanish } from '../../../src/core/heard/index.ts';

// Number words as the Real Academia Española spells them (Ortografía de la lengua española, 2010, chapter VIII), from memory.
test.each([
  ['Apriete a diecisiete newton metros.', 'torque 17'],
  ['Mínimo 1,5 milímetros.', 'length 1.5'],
  ['entre 1 y 1,5 newton metro', 'torque 1 1.5'],
  ['de dos a tres milímetros', 'length 2 3'],
  ['cincuenta y ocho grados', 'angle 58'],
  ['doscientos treinta grados Celsius', 'temperature 230'],
  ['ciento veinte mililitros', 'volume 120'],
  ['medio milímetro', 'length 0.5'],
  ['tres cuartos de vuelta', 'angle 0.75'],
  ['a 90 N·m', 'torque 90'],
  ['A MÁS DE 12 VOLTIOS', 'voltage 12'],
])('%s', (text, says) => {
  const found = measuresInSpanish(text);
  expect(found.map(({ kind, numbers }) => `${kind} ${numbers.map(([first]) => first).join(' ')}`)).toEqual([says]);
  for (const { start, end, text: own } of found) expect(text.slice(start, end)).toBe(own);
});

test.each([
  'Dé una vuelta a la rueda.',
  'En los primeros kilómetros el freno es más débil.',
  'Cuente despacio hasta sesenta.',
  'Rellene cada cinco emboladas.',
  'En 2019 milagros no hubo.',
])('no measure: %s', (text) => {
  expect(measuresInSpanish(text)).toEqual([]);
});

test.each([
  ['1,5 mm', [[1.5]]],
  ['0.65 and 12', [[0.65], [12]]],
  ['20.000 km', [[20_000, 20]]],
  ['20 000 km', [[20_000]]],
  ['1,234.5', [[1234.5]]],
])('the figures of %s', (text, figures) => {
  expect(figuresIn(text)).toEqual(figures);
});
