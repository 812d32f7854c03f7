import { readFileSync } from 'node:fs';
import { findQuantities, type HeardQuantity } from '../../src/core/heard/index.ts';
import { convert, UNITS } from '../../src/core/spec/index.ts';
import { label } from './heard.ts';

/** A value as the writer of the sixth set labelled it; `low` is null for a designation, which has no number. */
interface Value {
  readonly kind: string;
  readonly unit: string;
  readonly low: number | null;
  readonly high: number | null;
  readonly nominal?: number;
  readonly bound?: 'min' | 'max';
  readonly says: string;
}

interface Sentence {
  readonly text: string;
  readonly values: readonly Value[];
}

/** Units that the set writes otherwise than the table. */
const NAMES: Readonly<Record<string, string>> = { 'fl oz': 'US fl oz', gal: 'US gal' };
const UNIT_SAID =
  /newton|inch|foot|feet|pound|psi|bar|mm|mil|met(?:re|er)|volt|amp|ohm|degree|rpm|rev|thou|gram|kilo|lit(?:re|er)|ounce|pint|link|teeth|minute|hour|second|turn|percent|watt|mile|celsius|fahrenheit|rockwell|to one|["″]|\d\s*(?:N|V|A|Ω|L|°|Nm|in)\b/i;

const named = ({ unit }: Value) => NAMES[unit] ?? unit;
const close = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.max(Math.abs(a), Math.abs(b), 1e-9);

/** True for a label that the older sets make too: a kind of the unit table, with its unit said beside it. */
function isOfTheOlderSets(value: Value): boolean {
  return UNITS.some(({ kind, symbol }) => kind === value.kind && symbol === named(value)) && UNIT_SAID.test(value.says);
}

function isHeard(heard: HeardQuantity, value: Value): boolean {
  if (heard.kind !== value.kind) return false;
  const limits = [
    [heard.min, value.bound === 'max' ? undefined : value.low],
    [heard.max, value.bound === 'min' ? undefined : value.high],
    [heard.nominal, value.nominal],
  ] as const;
  return heard.readings.some(
    ({ kind, symbol }) =>
      UNITS.some((unit) => unit.kind === kind && unit.symbol === named(value)) &&
      limits.every(([own, wanted]) =>
        own === undefined || wanted === undefined || wanted === null
          ? own === undefined && (wanted === undefined || wanted === null)
          : close(convert(own, kind, symbol, named(value)), wanted),
      ),
  );
}

/** What the finder makes of the sixth set, label by label. */
export function scoreSix(path: string) {
  const { sentences } = JSON.parse(readFileSync(path, 'utf8')) as { sentences: readonly Sentence[] };
  const misses: { text: string; missed: string[]; wrong: string[] }[] = [];
  let [found, right, wanted, wantedAsBefore, rightAsBefore] = [0, 0, 0, 0, 0];
  for (const { text, values } of sentences) {
    const open = values.filter(({ low }) => low !== null);
    wanted += open.length;
    wantedAsBefore += open.filter(isOfTheOlderSets).length;
    const wrong: string[] = [];
    for (const heard of findQuantities(text)) {
      found++;
      const at = open.findIndex((value) => isHeard(heard, value));
      const [value] = at < 0 ? [] : open.splice(at, 1);
      if (value) right++;
      else wrong.push(label(heard));
      if (value && isOfTheOlderSets(value)) rightAsBefore++;
    }
    if (open.length + wrong.length > 0) misses.push({ text, missed: open.map(({ says }) => says), wrong });
  }
  return { sentences: sentences.length, found, right, wanted, rightAsBefore, wantedAsBefore, misses };
}
