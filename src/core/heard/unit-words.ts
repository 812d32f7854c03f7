import type { SimpleKind } from '../spec/index.ts';

/** Units that speech leaves open, with what they may stand for. */
export const OPEN: Readonly<Record<string, readonly [SimpleKind, readonly string[]]>> = {
  pint: ['volume', ['US pt', 'imp pt']],
  quart: ['volume', ['US qt', 'imp qt']],
  gallon: ['volume', ['US gal', 'imp gal']],
  'fl oz': ['volume', ['US fl oz', 'imp fl oz']],
  rockwell: ['hardness', ['HRC', 'HRB']],
  'gal/min': ['flow', ['US gal/min', 'imp gal/min']],
};
export const OPEN_SPELLINGS: Readonly<Record<string, string>> = {
  pint: 'pint',
  pints: 'pint',
  quart: 'quart',
  quarts: 'quart',
  qt: 'quart',
  qts: 'quart',
  gallon: 'gallon',
  gallons: 'gallon',
  gal: 'gallon',
  gals: 'gallon',
  floz: 'fl oz',
  fluidounce: 'fl oz',
  fluidounces: 'fl oz',
  fluidoz: 'fl oz',
  rockwell: 'rockwell',
  ...Object.fromEntries(
    ['gallonsperminute', 'gallonperminute', 'gallonsaminute', 'gpm', 'gal/min'].map((key) => [key, 'gal/min']),
  ),
};

/** What a single letter or a very short word has to look like to be a unit; others are words of their own. */
export const SHORT: Readonly<Record<string, RegExp>> = {
  n: /^N$/,
  g: /^g$/,
  m: /^m$/,
  l: /^[lL]$/,
  s: /^s$/,
  h: /^h$/,
  k: /^K$/,
  c: /^C$/,
  f: /^F$/,
  v: /^[vV]$/,
  um: /^um$/,
  a: /^A$/,
  w: /^W$/,
  ah: /^A[hH]$/,
  ma: /^mA$/,
  rc: /^R[cC]$/,
  hb: /^HB$/,
  hv: /^HV$/,
};
export const NEVER = new Set([
  'd',
  '#',
  'o',
  '′',
  "'",
  'mo',
  'mos',
  'oz',
  'ounce',
  'ounces',
  'pound',
  'pounds',
  'lb',
  'lbs',
  'lbm',
]);
/** Not a number of these: a foot to stand on, a mile off, a second to spare. */
export const WITHOUT_ARTICLE = new Set<string>([
  ':1',
  'teeth',
  'links',
  'A',

  'ft',
  'mi',
  's',
  'min',
  'h',
  'day',
  'week',
  'month',
  'year',
  'turn',
  'bar',
  '°',
  'km',
  'N',
]);
