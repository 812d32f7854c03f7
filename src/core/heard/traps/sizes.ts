import type { SimpleKind } from '../../spec/index.ts';
import { countsNothing } from '../no-noun.ts';
import { type Token, textAt, wordAt } from '../tokens.ts';
import type { InContext } from './trap.ts';
import { ADJECTIVES, BURDENS, BY_KIND, MEASURED, STOPS } from './words.ts';

/** `I'd start pulling bearings`: a clause begins, and no name goes on. */
const PRONOUN = /^(i|you|we|they|he|she|it|that|there|who)['’][a-z]+$/;

/** A size in front of what it names: `17 mm deep socket`, `500 ml bottle`, `12-volt battery`. */
export function namesAThing({ pieces, number, unit, to, said }: InContext): boolean {
  // `it's a seven-tooth sprocket`: said of the thing, or it would be no count.
  if (pieces[to - 1]?.lower === 'tooth') return false;
  if (standsBetween({ pieces, number, unit, to, said })) return true;
  const heads = BY_KIND[unit.kind] ?? [];
  // `ten minutes' break`.
  const possessive = unit.plural && /^['’]$/.test(textAt(pieces, to));
  if (unit.plural && !possessive && unit.kind !== 'torque') return false;
  for (let at = possessive ? to + 1 : to, passed = 0; passed < 4; at++, passed++) {
    const token = pieces[at];
    if (token?.text === '-') continue;
    if (token?.type !== 'word') return false;
    if (at === to && isThatOne(pieces, at)) return true;
    if (token.lower === 'end' && pieces[at + 1]?.lower === 'to') return false;
    if (heads.some((names) => names.has(token.lower.replace(/['’]s$/, '')))) {
      // `disc thickness`, `tyre tread depth`: what follows the thing says that something else is meant.
      return !isMeasured(pieces, at + 1);
    }
    // `half-inch and quarter-inch shanks`: two names share their noun.
    if (at === to && /^(and|or)$/.test(token.lower) && sharesNoun(pieces, to, heads)) return true;
    if (PRONOUN.test(token.lower) || (STOPS.has(token.lower) && !ADJECTIVES.has(token.lower))) return false;
  }
  return false;
}

/** So many pieces the second of two names may take. */
const SECOND_NAME = 7;
/** True where the same unit comes again behind `and`, in front of a thing. */
function sharesNoun(pieces: readonly Token[], to: number, heads: readonly ReadonlySet<string>[]): boolean {
  const unit = wordAt(pieces, to - 1);
  for (let at = to + 1; at < to + SECOND_NAME; at++) {
    if (pieces[at]?.lower !== unit) continue;
    const thing = wordAt(pieces, at + 1);
    return heads.some((names) => names.has(thing)) && !isMeasured(pieces, at + 2);
  }
  return false;
}

const SINGULAR = /^(mm|mil|cm|thou)$/;
/** `fifty mil jaws`: things, not what one does. */
const THINGS =
  /^(?!(?:across|always|this|plus|needs|wants|gives|leaves|works|does|makes|gets|looks|seems|takes|means|comes|goes|less|perhaps|sits|stays|feels|towards|upwards|downwards|backwards|forwards|sideways|thus|is|was|has|tops)$)[a-z]{2,}[a-rt-z]s$/;
const POINTS_OUT = /^(an?|the|your|my|that|this|another|some)$/;
/** `the fifteen mil open-ender`: an article before it and a noun behind. */
function standsBetween({ pieces, number, unit, to }: InContext): boolean {
  if (unit.kind !== 'length' || !SINGULAR.test(wordAt(pieces, to - 1)) || number.article) return false;
  const next = pieces[to];
  if (next?.type !== 'word') return false;
  if (THINGS.test(next.lower) && !isMeasured(pieces, to)) return true;
  if (!POINTS_OUT.test(wordAt(pieces, number.from - 1))) return false;
  return !STOPS.has(next.lower) && !NOT_NOUNS.test(next.lower) && !isMeasured(pieces, to);
}
const NOT_NOUNS =
  /^(apart|proud|above|below|each|further|longer|shorter|wider|thicker|thinner|deeper|higher|lower|maximum|minimum|max|min|tops|left|short|clear|total)$/;

/** `the 8 mm ones`, `the 24 mm one`: a word for the thing itself; `3 mm one side` is none. */
function isThatOne(pieces: readonly Token[], at: number): boolean {
  const next = pieces[at + 1];
  return (
    pieces[at]?.lower === 'ones' ||
    (pieces[at]?.lower === 'one' &&
      next?.type !== 'number' &&
      !/^(side|way|end|time|hand|turn|more|further|in|by|of|and|each)$/.test(next?.lower ?? ''))
  );
}

/** True where the name that goes on here ends up as something measured. */
function isMeasured(pieces: readonly Token[], from: number): boolean {
  for (let at = from; at < from + 3; at++) {
    const token = pieces[at];
    if (token?.type !== 'word') return false;
    if (MEASURED.has(token.lower)) return true;
    if (STOPS.has(token.lower)) return false;
  }
  return false;
}

const SIZED = new Set<SimpleKind>([
  'length',
  'volume',
  'mass',
  'voltage',
  'current',
  'charge',
  'resistance',
  'power',
  'time',
  'angle',
]);
/** `twelve-volt fan`, `two-litre jug`: a unit spelled out in the singular after more than one, with a noun to follow. */
export function isSpelledSize({ pieces, number, unit, to }: InContext): boolean {
  const last = wordAt(pieces, to - 1);
  const spelled =
    /^(millimet|centimet|met|lit|millilit)(re|er)$|^(inch|foot|volt|minute|second|hour|day|week|month|year|gram|kilo|kilogram|quart|pint|gallon|ounce|amp|ampere|watt|kilowatt|ohm|kilohm|megohm|milliamp|degree|micron|pound|tonne)$/;
  if (!SIZED.has(unit.kind) || !spelled.test(last) || number.value <= 1) return false;
  // `the hose is four-inch`: its size, as an adjective by itself.
  if (pieces[number.to]?.text === '-' && (!pieces[to] || /^[,.;:!?]$/.test(textAt(pieces, to)))) return true;
  if (countsNothing(pieces, to) && !ADJECTIVES.has(wordAt(pieces, to))) return false;
  for (let at = to; at < to + 3; at++) {
    const token = pieces[at];
    if (token?.text === '-') continue;
    if (token?.type !== 'word' || STOPS.has(token.lower)) return at > to && pieces[at - 1]?.type === 'word';
    if (MEASURED.has(token.lower) || (unit.kind === 'mass' && BURDENS.has(token.lower))) return false;
  }
  return true;
}

const SIZED_THING = /\b(?:hose|pipe|duct|ducting|conduit|cable|flex|wire|shank|collet)(?:['’]s| is)(?: an?)? $/;
/** `grab a 17 mm and ...`, `the ten millimetre on the nut`: a size that stands for the tool itself. */
export function standsForTheThing({ pieces, number, unit, to, said }: InContext): boolean {
  if (/^ by name\b/.test(said.after(to))) return true;
  // `the hose is four inch`: its size.
  if (
    /^(?:mm|in)$/.test(unit.symbol) &&
    !unit.plural &&
    SIZED_THING.test(said.before) &&
    (!pieces[to] || pieces[to]?.type === 'mark' || /^(?:and|but|so)$/.test(wordAt(pieces, to)))
  )
    return true;
  // `a 1.6 litre`: an engine.
  if (unit.symbol === 'L' && /^lit(re|er)$/.test(wordAt(pieces, to - 1)) && number.value > 1)
    return /^(an?|the|my|his|her)$/.test(wordAt(pieces, number.from - 1)) && pieces[to]?.type !== 'word';
  // `the bulb is a nine watt`.
  if (
    /^(watt|amp|milliamp|volt|kilowatt|hour|horse|cc)$/.test(wordAt(pieces, to - 1)) &&
    number.value > 1 &&
    unit.kind !== 'time' &&
    // `it's a five horse`: its rating.
    !(wordAt(pieces, to - 1) === 'horse' && /(?:['’]s|\b(?:is|was)) a $/.test(said.before))
  )
    return (
      /\b(?:an?|the|my|your|this|that)(?: little| big| old| new)?\s+$/.test(said.before) &&
      (!pieces[to] ||
        pieces[to]?.type === 'mark' ||
        /^(in|on|and|here|there|with|from|that|which)$/.test(wordAt(pieces, to)))
    );
  // `the other one's a half inch`.
  if (/^an?$/.test(wordAt(pieces, number.from)) && /^one['’]s$/.test(wordAt(pieces, number.from - 1)))
    return /^(mm|in)$/.test(unit.symbol) && number.value < 1 && !unit.plural && !pieces[to + 1];
  // `a feeler gauge, the twelve thou and`.
  if (unit.symbol === 'thou' && /\bfeelers?\b[^.;]*\bthe\s+$/.test(said.before)) return true;
  if (unit.kind !== 'length' || unit.plural || !/^(mm|in)$/.test(unit.symbol)) return false;
  // `is that three quarters of a millimetre?`
  if (/\b(?:is|was|isn['’]t) that\s+$/.test(said.before)) return false;
  const adjective = /^(?:other|wrong|right|same|old|new|little|big|spare|usual)$/.test(wordAt(pieces, number.from - 1));
  const before = wordAt(pieces, number.from - (adjective ? 2 : 1));
  const next = pieces[to];
  if (before === 'm') return true;
  // `the thirteen mil's in the drawer`.
  if (before === 'the' && /['’]s$/.test(wordAt(pieces, to - 1)) && next?.type === 'word') return true;
  if (!/^(a|an|the|your|my|our|that|another|one)$/.test(before) || number.article) return false;
  if (/^ in the (?:roll|drawer|rack|box)\b/.test(said.after(to))) return true;
  if (!next || next.type === 'mark')
    return next?.text !== '(' && !/gap|clearance|slack|play|limit/.test(next?.text ?? '');
  return /^(and|on|for|from|with|then|here|there|will|goes|fits|if|or|so|into|onto|through|you|we|i|they|it)$/.test(
    next.lower === 'that' ? wordAt(pieces, to + 1) : next.lower,
  );
}

/** What something comes to measure. */
const TO_BE_MADE =
  /\b(?:(?:going|has|wants|needs|have) to be|will be|cut (?:it|this|that|them|one) to|made (?:it|this)|make (?:it|this))(?: [\w'’ -]+ by)?\s+$/;

/** `10 mm by 1.25`: a size. */
export function isOneOfTwoSizes({ pieces, number, unit, to, said }: InContext): boolean {
  // `fourteen four by three thousand`: no size; neither `5x 19 ms`.
  if (unit.symbol === 'ms' || /^(voltage|current|angle|turning-speed|temperature|pressure|torque)$/.test(unit.kind))
    return false;
  const by = number.from - 1;
  // `it is going to be five foot four by two foot eight`: to be cut so.
  if (TO_BE_MADE.test(said.before) && (!pieces[to] || pieces[to]?.type === 'mark' || pieces[to]?.lower === 'by'))
    return false;
  // `ninety by forty-five millimetres`: the number before has no unit of its own.
  if (/^(by|x|×)$/.test(wordAt(pieces, by)) && (isNumber(pieces[by - 1]) || pieces[by - 1]?.type === 'code'))
    return true;
  return /^(by|x|×)$/.test(wordAt(pieces, to)) && isNumber(pieces[to + 1]);
}

const NUMBER_WORD =
  /^(halfs?|quarters?|(?:eigh|sixteen|ten)ths?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|hundred|[a-z]+teen|[a-z]+ty)$/;

function isNumber(token: Token | undefined): boolean {
  return token?.type === 'number' || NUMBER_WORD.test(token?.lower ?? '');
}
