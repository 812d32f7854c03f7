import type { SimpleKind, Unit } from '../spec/index.ts';
import { exact, minus, plus, toNumber } from '../spec/index.ts';
import { limitAfter, limitBefore, type Side } from './limits.ts';
import { type NumberRead, Numbers } from './number.ts';
import { NOTHING_SAID, type Said, Surroundings } from './said.ts';
import { isRejected, pastRejected, takesBack } from './taken-back.ts';
import { tokens as split, type Token } from './tokens.ts';
import { type Tolerance, toleranceAfter } from './tolerance.ts';
import { isTrap } from './traps.ts';
import { unitAfter } from './unit-heard.ts';
import type { UnitHeard } from './unit-spoken.ts';

/** A quantity heard in a text. */
export interface HeardQuantity {
  /** Offsets in the text, half-open. */
  readonly start: number;
  readonly end: number;
  /** The words themselves. */
  readonly text: string;
  readonly kind: SimpleKind;
  /** In `unit`, as spoken; equal for one value; absent on an open side. */
  readonly min?: number;
  readonly max?: number;
  /** Said beside a tolerance. */
  readonly nominal?: number;
  readonly unit: string;
  /** The units it may stand for: two where a pint is US or imperial. */
  readonly readings: readonly Unit[];
}

/** Numbers and units round one place in a sentence. */
interface Phrase {
  readonly low: NumberRead;
  readonly high?: NumberRead;
  readonly unit: UnitHeard;
  readonly to: number;
  /** Said before the unit: `38 ± 3 N·m`. */
  readonly tolerance?: Tolerance;
}

/**
 * Every quantity in a stretch of English, written or spoken: numbers in figures and in words, ranges, tolerances,
 * limits and fractions, each with its unit. Sizes of tools, threads and containers, part numbers, grades, prices,
 * model names, clock times and vague counts are left out.
 *
 * @param earlier what was said before it; it can say what a limit is a limit of
 */
export function findQuantities(text: string, earlier = ''): HeardQuantity[] {
  if (!/\S/.test(text)) return [];
  const pieces = split(text);
  const numbers = new Numbers(pieces);
  const surroundings = new Surroundings(text, pieces, earlier);
  const found: HeardQuantity[] = [];
  for (let at = 0; at < pieces.length; ) {
    const phrase = phraseAt(text, pieces, numbers, surroundings, at);
    if (!phrase) {
      // Not into the middle of a number: `twenty five thirty` holds no five hundred and thirty.
      at = numbers.at(at)?.to ?? at + 1;
      continue;
    }
    const heard = withTolerance(text, pieces, numbers, surroundings, phrase);
    if (heard.found) {
      const before = found.at(-1);
      if (before?.kind === heard.found.kind && takesBack(text.slice(before.end, heard.found.start))) found.pop();
      found.push(heard.found);
    }
    at = Math.max(heard.to, at + 1);
  }
  return found;
}

const BETWEEN = new Set(['to', 'through', 'thru', 'or', 'and', 'till', 'until']);
const DISFLUENT = new Set(['uh', 'um', 'er', 'erm', 'say', 'maybe', 'about', 'perhaps', 'up']);

function phraseAt(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  surroundings: Surroundings,
  at: number,
): Phrase | undefined {
  const low = numbers.at(at);
  if (!low) return undefined;
  const said = surroundings.of(at);
  const own = unitAfter(pieces, low.to, low, text, said);
  const end = own?.to ?? low.to;
  const opened = mayConnect(pieces[end]) ? OPENED.exec(said.before)?.[1] : undefined;
  const second = numberAfterConnector(pieces, numbers, end, opened);
  if (second && !second.article) {
    const unit = unitAfter(pieces, second.to, second, text, said);
    const same = unit && (!own || own.symbol === unit.symbol || own.kind === unit.kind);
    if (unit && same && second.value > low.value && (!own || own.symbol === unit.symbol))
      return { low, high: second, unit, to: unit.to };
    // `from 50 down to 44`: the two ends of a range, said from above.
    if (unit && same && opened === 'from' && second.value < low.value)
      return { low: { ...second, from: low.from }, high: low, unit, to: unit.to };
    if (own && !unit && isTail(pieces, second, opened)) {
      if (second.value > low.value) return { low, high: second, unit: own, to: second.to };
      if (opened === 'from' && second.value < low.value)
        return { low: { ...second, from: low.from }, high: low, unit: own, to: second.to };
    }
    if (!own) return toleranceBeforeUnit(text, pieces, numbers, low, said);
  }
  if (second?.article) {
    // `an inch to an inch and a half`.
    const more = oneAndAPart(text, pieces, numbers, second, said);
    if (own && more?.unit.symbol === own.symbol && more.low.value > low.value)
      return { low, high: more.low, unit: own, to: more.to };
  }
  if (!own && low.article) return oneAndAPart(text, pieces, numbers, low, said);
  if (!own)
    return againstRejected(text, pieces, numbers, low, said) ?? toleranceBeforeUnit(text, pieces, numbers, low, said);
  const half = andAPart(text, pieces, numbers, own.to);
  return half
    ? { low: { ...low, value: low.value + half.value }, unit: own, to: half.to }
    : { low, unit: own, to: own.to };
}

/** `from about thirty miles an hour down to five`. */
const OPENED = /\b(between|from)\W+(?:(?:about|around|roughly|approximately|say|maybe|the)\W+)*$/;
/** Words that no number counts: after them and before a mark a number has ended. */
const ENDS_A_NUMBER =
  /^(when|while|as|if|and|or|but|so|then|in|on|at|with|without|before|after|until|till|by|over|under|for|because|where|again|cold|hot)$/;

/** A number that ends its clause without a unit of its own: `12 volts to 14`, `from 60 psi down to 24 in steps`. */
function isTail(pieces: readonly Token[], number: NumberRead, opened: string | undefined): boolean {
  const next = pieces[number.to];
  return !next || next.type === 'mark' || (opened === 'from' && ENDS_A_NUMBER.test(next.lower));
}

/** `thirty, not thirteen newton metres`: the unit is said once, after the number put aside. */
function againstRejected(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  low: NumberRead,
  said: Said,
): Phrase | undefined {
  const past = pastRejected(pieces, numbers, low.to);
  const unit = past === undefined ? undefined : unitAfter(pieces, past, low, text, said);
  return unit && { low, unit, to: unit.to };
}

/** `38 ± 3 N·m`, `eighty plus or minus five newton metres`: the unit comes last. */
function toleranceBeforeUnit(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  low: NumberRead,
  said: Said,
): Phrase | undefined {
  const tolerance = toleranceAfter(text, pieces, numbers, low.to, low.value);
  const closed = /^[),]$/.test(pieces[tolerance?.to ?? 0]?.text ?? '') ? 1 : 0;
  const unit = tolerance && unitAfter(pieces, tolerance.to + closed, low, text, said);
  return unit && tolerance ? { low, unit, to: unit.to, tolerance } : undefined;
}

/** `a turn and a half`: the article counts as one before units that it does not count for alone. */
function oneAndAPart(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  low: NumberRead,
  said: Said,
): Phrase | undefined {
  const one = { value: 1, from: low.from, to: low.to, figures: false };
  const unit = unitAfter(pieces, low.to, one, text, said);
  const part = unit && andAPart(text, pieces, numbers, unit.to);
  return unit && part ? { low: { ...one, value: 1 + part.value }, unit, to: part.to } : undefined;
}

/** `and a half` after the unit: `two turns and a quarter`. */
function andAPart(text: string, pieces: readonly Token[], numbers: Numbers, at: number): NumberRead | undefined {
  if (pieces[at]?.lower !== 'and' || pieces[at + 1]?.lower !== 'a') return undefined;
  const part = numbers.at(at + 1);
  if (!part || part.value >= 1) return undefined;
  return unitAfter(pieces, part.to, part, text, NOTHING_SAID) ? undefined : part;
}

const DASH = /^[-–—−…~]$/;

/** True for what can stand between the two numbers of a range. */
function mayConnect(token: Token | undefined): boolean {
  return token?.type === 'mark'
    ? DASH.test(token.text)
    : BETWEEN.has(token?.lower ?? '') || /^(up|down)$/.test(token?.lower ?? '');
}

/** The second number of a range: after `to`, `or`, `and` (with `between`), or a dash. */
function numberAfterConnector(
  pieces: readonly Token[],
  numbers: Numbers,
  from: number,
  opened: string | undefined,
): NumberRead | undefined {
  const word = (i: number) => (pieces[i]?.type === 'word' ? pieces[i]?.lower : undefined);
  // `ten- to twelve-millimetre`, `from 20 mm up to 30 mm`.
  const hanging = pieces[from]?.text === '-' && word(from + 1) === 'to';
  const onwards = opened === 'from' && /^(up|down)$/.test(word(from) ?? '') && word(from + 1) === 'to';
  const at = hanging || onwards ? from + 1 : from;
  const token = pieces[at];
  if (!token) return undefined;
  const dash = token.type === 'mark' && DASH.test(token.text);
  const joins = token.type === 'word' && BETWEEN.has(token.lower) && (token.lower !== 'and' || opened === 'between');
  if (!dash && !joins) return undefined;
  let next = at + 1;
  while (DISFLUENT.has(pieces[next]?.lower ?? '') || (next > at + 1 && pieces[next]?.text === ',')) next++;
  if (pieces[next]?.text === ',' && DISFLUENT.has(pieces[next + 1]?.lower ?? '')) {
    next += 2;
    if (pieces[next]?.text === ',') next++;
  }
  return numbers.at(next);
}

/** `ten to twelve thousand`: the first number counts in the thousands of the second. */
function sameScale({ low, high }: Phrase): NumberRead {
  const scale = high?.scale ?? 1;
  return high && !low.scale && scale > 1 && low.value < high.value / scale ? { ...low, value: low.value * scale } : low;
}

/** `from 12.4 volts down`: open to one side. */
function onwards(pieces: readonly Token[], at: number, before: string): Side | undefined {
  const way = /^(up|down)$/.exec(pieces[at]?.lower ?? '')?.[1];
  if (!way || OPENED.exec(before)?.[1] !== 'from' || pieces[at + 1]?.lower === 'to') return undefined;
  return way === 'up' ? 'min' : 'max';
}

function withTolerance(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  surroundings: Surroundings,
  phrase: Phrase,
): { found?: HeardQuantity; to: number } {
  const { high, unit } = phrase;
  const low = sameScale(phrase);
  const said = surroundings.of(low.from);
  const after =
    high || phrase.tolerance ? undefined : toleranceAfter(text, pieces, numbers, phrase.to, low.value, unit);
  const tolerance = phrase.tolerance ?? after;
  const to = after?.to ?? phrase.to;
  if (isTrap(pieces, low, unit, phrase.to, said) || isRejected(said.before)) return { to };
  const times = unit.times ?? 1;
  const value = (number: number) => (times === 1 ? number : toNumber(exact(String(number * times))));
  const [least, most] = [value(low.value), value(high?.value ?? low.value)];
  const limit = limitAfter(pieces, to);
  const side: Side | undefined =
    limit?.side ?? onwards(pieces, to, said.before) ?? limitBefore(said.before, unit.kind, said.earlier);
  const span = tolerance
    ? { min: sum(least, -tolerance.down), max: sum(least, tolerance.up), nominal: least }
    : {
        ...(side === 'max' && !high ? {} : { min: least }),
        ...(side === 'min' && !high ? {} : { max: most }),
      };
  const start = pieces[low.from]?.start ?? 0;
  const end = pieces[to - 1]?.end ?? start;
  return {
    found: {
      start,
      end,
      text: text.slice(start, end),
      kind: unit.kind,
      ...span,
      unit: unit.symbol,
      readings: unit.readings,
    },
    to: limit?.to ?? to,
  };
}

function sum(a: number, b: number): number {
  return toNumber(b < 0 ? minus(exact(a), exact(-b)) : plus(exact(a), exact(b)));
}
