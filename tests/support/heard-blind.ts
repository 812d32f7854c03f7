import { readFileSync } from 'node:fs';
import { findQuantities, type HeardQuantity } from '../../src/core/heard/index.ts';
import { convert, SIMPLE_KINDS, UNITS, unitsCompare } from '../../src/core/spec/index.ts';
import { label, type Score } from './heard.ts';

/** A value as the writer of a set in JSON labelled it; `low` is null for a designation, which has no number. */
interface Value {
  readonly kind: string;
  readonly unit: string;
  readonly low: number | null;
  readonly high: number | null;
  readonly bound?: 'min' | 'max';
  readonly says: string;
}

interface Sentence {
  readonly text: string;
  readonly values: readonly Value[];
}

/** Units that the sets write otherwise than the table. */
const NAMES: Readonly<Record<string, string>> = {
  'fl oz': 'US fl oz',
  'gal/min': 'US gal/min',
  gal: 'US gal',
  qt: 'US qt',
  pt: 'US pt',
  in·lb: 'lbf·in',
  ft·lb: 'lbf·ft',
  'cm³': 'cc',
  d: 'day',
  wk: 'week',
  y: 'year',
};
/** Kinds that the ninth to twelfth set name by their unit. */
const KINDS: Readonly<Record<string, string>> = { teeth: 'count', links: 'count' };
const kindOf = ({ kind }: Value) => KINDS[kind] ?? kind;

const named = ({ unit }: Value) => NAMES[unit] ?? unit;
const close = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.max(Math.abs(a), Math.abs(b), 1e-9);
/** Degrees of heat with no scale said: both readings are left open, as the label leaves them. */
const isOpenHeat = ({ kind, unit }: { readonly kind: string; readonly unit: string }) =>
  unit === '°' && kind.startsWith('temperature');

/** Designations name a thing, and of some kinds there is no row that a value could be compared with. */
const isAsked = (value: Value) =>
  value.low !== null &&
  SIMPLE_KINDS.some((own) => own === kindOf(value)) &&
  (isOpenHeat(value) || UNITS.some(({ kind, symbol }) => kind === kindOf(value) && symbol === named(value)));

/** What of a value has to be right: its numbers with the side of a limit that they are, or the numbers alone. */
type Judged = 'sides of limits' | 'numbers';

/** Kind, both limits and unit, as in the sets of lines; a limit in another unit of its kind is the same limit. */
function isHeard(heard: HeardQuantity, value: Value, judged: Judged): boolean {
  if (heard.kind !== kindOf(value)) return false;
  const limits: readonly (readonly [number | undefined, number | null])[] =
    judged === 'numbers'
      ? [
          [heard.min ?? heard.max, value.low],
          [heard.max ?? heard.min, value.high],
        ]
      : [
          [heard.min, value.bound === 'max' ? null : value.low],
          [heard.max, value.bound === 'min' ? null : value.high],
        ];
  if (isOpenHeat(value)) return isOpenHeat(heard) && limits.every(([own, wanted]) => (own ?? null) === wanted);
  return heard.readings.some(
    ({ kind, symbol }) =>
      UNITS.some((unit) => unit.kind === kind && unit.symbol === named(value)) &&
      unitsCompare(kind, symbol, named(value)) &&
      limits.every(([own, wanted]) =>
        own === undefined || wanted === null
          ? own === undefined && wanted === null
          : close(convert(own, kind, symbol, named(value)), wanted),
      ),
  );
}

/**
 * Precision and recall over a set in JSON.
 *
 * @param unlabelled kinds that the set's own rules leave without a label: what is heard of them counts neither for nor against
 */
export function scoreBlind(
  path: string,
  unlabelled: (heard: HeardQuantity) => boolean = () => false,
  judged: Judged = 'sides of limits',
): Omit<Score, 'traps'> {
  const { sentences } = JSON.parse(readFileSync(path, 'utf8')) as { sentences: readonly Sentence[] };
  const misses: Score['misses'][number][] = [];
  let [found, right, wanted] = [0, 0, 0];
  for (const { text, values } of sentences) {
    const open = values.filter(isAsked);
    wanted += open.length;
    const wrong: string[] = [];
    for (const heard of findQuantities(text)) {
      if (unlabelled(heard) && !open.some((value) => isHeard(heard, value, judged))) continue;
      found++;
      const at = open.findIndex((value) => isHeard(heard, value, judged));
      if (at < 0) wrong.push(label(heard));
      else {
        open.splice(at, 1);
        right++;
      }
    }
    if (open.length + wrong.length > 0) misses.push({ text, missed: open.map(({ says }) => says), wrong });
  }
  return {
    sentences: sentences.length,
    found,
    right,
    wanted,
    precision: right / found,
    recall: right / wanted,
    misses,
  };
}
