import { describe, expect, test } from 'vitest';
import {
  cutAtPlaces,
  decimalSign,
  directionOf,
  ENGLISH,
  inFigures,
  type Locale,
  ownName,
  placesIn,
  wording,
} from '../../../src/core/locale/index.ts';

const es: Locale = {
  tag: 'es',
  messages: {
    'Find a step': 'Busque un paso',
    '{n} step': ['{n} paso', '{n} pasos'],
    'for {title}': 'para {title}',
    Open: '',
  },
};

test('a text is said in the language, and in English where it has no translation', () => {
  const { t } = wording(es);
  expect(t('Find a step')).toBe('Busque un paso');
  expect(t('Open')).toBe('Open');
  expect(t('Nobody has translated this')).toBe('Nobody has translated this');
  expect(wording().t('Find a step')).toBe('Find a step');
});

test('what stands in braces is filled in, numbers with the decimal sign of the language', () => {
  expect(wording(es).t('for {title}', { title: 'la rueda' })).toBe('para la rueda');
  expect(wording(es).t('{n} of {of} {unknown}', { n: 1.5, of: 2 })).toBe('1,5 of 2 {unknown}');
  expect(wording(ENGLISH).t('{n} mm', { n: 1.5 })).toBe('1.5 mm');
});

test('a text that counts takes the form of its number', () => {
  expect([1, 2, 0].map((n) => wording(es).plural(n, '{n} step', '{n} steps'))).toEqual([
    '1 paso',
    '2 pasos',
    '0 pasos',
  ]);
  expect([1, 2, 0].map((n) => wording().plural(n, '{n} step', '{n} steps'))).toEqual(['1 step', '2 steps', '0 steps']);
});

// Source: GNU gettext manual 0.22, 12.6 "Additional functions for plural forms": Polish has three forms (1; 2-4, 22-24;
// the rest), Arabic six, Spanish two.
test('forms are numbered as gettext numbers them', () => {
  const polish = wording({ tag: 'pl', messages: { file: ['plik', 'pliki', 'plików'] } });
  const said = (n: number) => polish.plural(n, 'file', 'files');
  expect([1, 2, 4, 5, 12, 21, 22, 25].map(said)).toEqual([
    'plik',
    'pliki',
    'pliki',
    'plików',
    'plików',
    'plików',
    'pliki',
    'plików',
  ]);
  const arabic = wording({ tag: 'ar', messages: { x: ['0', '1', '2', 'few', 'many', 'other'] } });
  expect([0, 1, 2, 3, 11, 100].map((n) => arabic.plural(n, 'x', 'x'))).toEqual(['0', '1', '2', 'few', 'many', 'other']);
  expect(wording(es).plural(1_000_000, '{n} step', '{n} steps')).toBe('1000000 pasos');
});

// Source: CLDR 46, numbers: decimal of es is a comma, of es-MX and en a point, of de and fr a comma.
test('only the decimal sign changes: every figure stays', () => {
  expect(['en', 'es', 'es-MX', 'de', 'fr'].map(decimalSign)).toEqual(['.', ',', '.', ',', ',']);
  expect(inFigures('24.50', es)).toBe('24,50');
  expect(inFigures('12345678901234567.10', es)).toBe('12345678901234567,10');
});

// Source: ISO 15924 script codes by CLDR's likely subtags.
test('which way lines run', () => {
  expect(['ar', 'he', 'fa', 'ur', 'en', 'es', 'zh', 'az-Arab'].map(directionOf)).toEqual([
    'rtl',
    'rtl',
    'rtl',
    'rtl',
    'ltr',
    'ltr',
    'ltr',
    'rtl',
  ]);
});

describe('helpers', () => {
  test('a language is named in itself', () => {
    expect(['en', 'es', 'de', 'ar'].map(ownName)).toEqual(['English', 'Español', 'Deutsch', 'العربية']);
  });
  test('names in braces', () => {
    expect(placesIn('{b} and {a}')).toEqual(['a', 'b']);
    expect(cutAtPlaces('until {day}: {value}')).toEqual(['until ', 'day', ': ', 'value', '']);
  });
});

// Signs as in the Unicode CLDR. These languages are asked for here only, so that nothing of them is remembered from before.
test.each([
  ['da', ','],
  ['en-NZ', '.'],
  ['lv', ','],
])('before the decimals %s has %s', (tag, sign) => {
  expect(decimalSign(tag)).toBe(sign);
  expect(decimalSign(tag)).toBe(sign);
});
