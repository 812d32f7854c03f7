import { UNITS, type Unit, unitKey, unitOf, unitsWritten } from '../spec/index.ts';
import { degrees, isDifference } from './degrees.ts';
import type { NumberRead } from './number-read.ts';
import { pastRoughly } from './roughly.ts';
import type { Said } from './said.ts';
import { mil, poundsOrOunces } from './spoken-short.ts';
import type { Talk } from './talk.ts';
import { type Token, textAt, wordAt } from './tokens.ts';
import { isCounted } from './traps/talk-of-time.ts';
import { isTightened, thousandsOf } from './unit-short.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';
import { NEVER, OPEN, OPEN_SPELLINGS, SHORT, WITHOUT_ARTICLE } from './unit-words.ts';

const LONGEST = 6;
/** Units with a figure in them: `1900 1/min`, `50 to 1`. */
const OF_FIGURES = /^(1\/(min|s)|to\s+1)$/;

const KIND_ORDER = [...new Set(UNITS.map((unit) => unit.kind))];

/**
 * The unit that stands after a number, the longest one.
 *
 * @param at token after the number
 * @param said the words round it, to tell pounds of force from pounds of mass
 */
export function unitAfter(
  { text, pieces: tokens }: Talk,
  at: number,
  number: NumberRead,
  said: Said,
): UnitHeard | undefined {
  const opened = tokens[at]?.text === '(' && !number.article;
  const first = opened ? at + 1 : skipFiller(tokens, at, number);
  const small = tenThousandths(tokens, first);
  if (small) return small;
  for (let to = furthest(tokens, first); to > first; to--) {
    const [begin, last] = [tokens[first], tokens[to - 1]];
    if (!begin || !last) continue;
    const written = text.slice(begin.start, last.end);
    if (!OF_FIGURES.test(written)) {
      if ((last.type !== 'word' && !/^["″°º²³%]$/.test(last.text)) || begin.type === 'code') continue;
      if (begin.type === 'number' || (begin.type === 'mark' && !/^["″°º%]$/.test(begin.text))) continue;
    }
    if (to - first > 1 && /[,;:!?()"]|\.\s+[A-Z]/.test(written.replace(/^["″°º]/, ''))) continue;
    // `98 (N·m)`: a unit alone in its parentheses.
    if (opened && tokens[to]?.text !== ')') continue;
    const found = lookUp(written, number, tokens, first, to, said);
    if (found) return opened ? { ...found, to: to + 1 } : found;
  }
  return undefined;
}

/** `fifteen ten-thousandths of an inch`; the inch may be left out. */
function tenThousandths(tokens: readonly Token[], at: number): UnitHeard | undefined {
  const word = (i: number) => wordAt(tokens, i);
  if (word(at) !== 'ten' || tokens[at + 1]?.text !== '-' || !/^thousandths?$/.test(word(at + 2))) return undefined;
  const inch = word(at + 3) === 'of' && word(at + 4) === 'an' && word(at + 5) === 'inch' ? 3 : 0;
  return { ...unitHeard(unitOf('length', 'thou'), at + 3 + inch, true), times: 0.1 };
}

/** What every spelling of a unit begins with, letter by letter. */
const BEGINNINGS = new Set<string>();
for (const key of [
  ...UNITS.flatMap((unit) => [unit.symbol, ...unit.spellings]).map(unitKey),
  ...Object.keys(OPEN_SPELLINGS),
  'mils',
  'kay',
  'ka',
  'kiloamps',
  'tooth',
])
  for (let length = 1; length <= key.length; length++) BEGINNINGS.add(key.slice(0, length));

/** The token behind the last one that a spelling which begins at `first` can take. */
function furthest(tokens: readonly Token[], first: number): number {
  let key = '';
  let to = first;
  for (; to < tokens.length && to < first + LONGEST; to++) {
    key += unitKey(withoutOwner(textAt(tokens, to)));
    if (!BEGINNINGS.has(key) && key !== '') break;
  }
  return to;
}

/** `ten cc's`, `30 psi's enough`. */
function withoutOwner(written: string): string {
  return written.replace(/(?<=\b\p{L}{1,12})['’]s$/u, '');
}

const FILLER = new Set([
  'full',
  'complete',
  'whole',
  'more',
  'further',
  'additional',
  'extra',
  'solid',
  'good',
  'odd',
  'ish',
  'or',
  'so',
]);
/** `forty uh psi`. */
const THINKING = /^(?:uh|um|er|erm)$/;
function skipFiller(tokens: readonly Token[], at: number, number: NumberRead): number {
  if (pastRoughly(tokens, at) > at) return pastRoughly(tokens, at);
  let to = at;
  while (THINKING.test(wordAt(tokens, to)) && to < at + 2) to++;
  if (tokens[to]?.text === '-' && tokens[to]?.start === tokens[to - 1]?.end) return to + 1;
  while (FILLER.has(wordAt(tokens, to)) && tokens[to]?.lower !== 'or' && to < at + 2 && !number.article) to++;
  return to;
}

/** `a hundred kilos of tension`: a force, whatever scale it was read from. */
const PULL = /^\W*(?:of\s+(?:\w+\s+)?)?(force|pull|push|tension|preload|effort|drag)\b/;

/** What a pull is read from. */
const SPRING_SCALE = /\b(?:spring|fish|fishing|luggage|pull|hanging) (?:scales?|balance)\b/;
const TENSION = /\b(tension|tensions|tensiometer|spokes?|pull|preload)\b/;
const PULLED =
  /\b(tension|pull|preload|clamping force)\b[^,;:]{0,5}(,|['’]s\b|\b(is|at|of|to|about|should be|reads?)\b)[^;:]{0,50}$/;

function lookUp(
  written: string,
  number: NumberRead,
  tokens: readonly Token[],
  from: number,
  to: number,
  said: Said,
): UnitHeard | undefined {
  const key = unitKey(withoutOwner(written));
  const plural = /[^s]s$|feet$|inches$/.test(written.toLowerCase()) && key.length > 3;
  const heard = (unit: Unit) => unitHeard(unit, to, plural);
  const open = OPEN_SPELLINGS[key];
  if (open) {
    const [kind, symbols] = OPEN[open] ?? ['volume', []];
    return { symbol: open, kind, readings: symbols.map((symbol) => unitOf(kind, symbol)), to, plural };
  }
  if (/^(pounds?|lbs?|oz|ounces?)$/.test(key)) return poundsOrOunces(key, to, plural, said);
  if (
    /^(kilos?|kgs?|kilograms?|kilogrammes?)$/.test(key) &&
    (PULL.test(said.after(to)) ||
      PULLED.test(said.before) ||
      (SPRING_SCALE.test(said.after(to)) && !/\bweigh/.test(said.before)) ||
      TENSION.test(said.earlier) ||
      /\bspokes?\b|\btension (?:gauge|meter)\b|\btensiometer\b/.test(said.before))
  )
    return heard(unitOf('force', 'kgf'));
  if (/^mils?$/.test(key)) return mil(key, to, number.value, said);
  if (/^k(?:ay)?$/i.test(written)) {
    const thousands = thousandsOf(written, number, said, to);
    if (thousands) return heard(thousands);
  }
  const short = SHORT[key];
  if (NEVER.has(key) || (short && !(short.test(written) && (number.figures || isScaleOfHeat(written, number)))))
    return undefined;
  // `position 2F`: a label.
  const touches = tokens[from - 1]?.end === tokens[from]?.start;
  if (/^[CF]$/.test(written) && touches && number.figures && number.value < 10) return undefined;
  const units = unitsWritten(key);
  const inOrder = KIND_ORDER.flatMap((kind) => units.filter((unit) => unit.kind === kind));
  const counted =
    key === 'tooth' &&
    number.value > 4 &&
    (SAID_TO_HAVE.test(said.before) || /^ (?:up front|out back|on the (?:front|back))\b/.test(said.after(to)));
  if (counted) return heard(unitOf('count', 'teeth'));
  if (/^kA$|^kiloamps?$/i.test(written)) return { ...heard(unitOf('current', 'A')), times: 1000 };
  // Capitals part a megohm from a milliohm.
  const first = inOrder.find(({ symbol }) => symbol === written.normalize('NFKC')) ?? inOrder[0];
  if (!first) return undefined;
  if (
    number.article &&
    ((WITHOUT_ARTICLE.has(first.symbol) && !(first.symbol === 'ft' && A_FOOT_OF.test(said.after(to)))) ||
      first.kind === 'pressure') &&
    !ONE_OR_MORE.test(said.after(to)) &&
    !(
      first.symbol === 'turn' &&
      /^ (?:out|open)\b/.test(said.after(to)) &&
      !/\b(?:take|takes|taking|took|in) $/.test(said.before)
    ) &&
    !(first.symbol === '°' && /\b(?:in|out|by|up|down|back|within|under|about|half) $/.test(said.before)) &&
    !(first.kind === 'time' && isCounted(first.symbol, said, to))
  )
    return undefined;
  if (number.couple && SOME.test(first.symbol)) return undefined;
  if (first.symbol === ':1' && key !== ':1' && countsOn(tokens, to)) return undefined;
  // `ten foot-pounds first round, seventeen second`.
  if (key === 'second' && number.value > 1 && /\bfirst\b/.test(said.before) && tokens[from - 1]?.text !== '-')
    return undefined;
  if (/^horse$/i.test(written) && number.value <= 1) return undefined;
  // `five newtons on the faceplate`: what is fastened is told without its metres.
  if (first.symbol === 'N' && number.value <= 200 && isTightened(said, to)) return heard(unitOf('torque', 'N·m'));
  // `a volt drop of 6.9 volts`.
  if (number.article && first.symbol === 'V' && tokens[to]?.lower === 'drop') return undefined;
  if (first.symbol === 'in' && /^in/i.test(written) && /\bvacuum\b/.test(`${said.earlier} ${said.before}`))
    return heard(unitOf('pressure', 'inHg'));
  if (first.symbol === 'in' && !isInch(written, number, tokens, from, to)) return undefined;
  // Revs of an engine are said without their minute; nobody turns a screw so often.
  if (
    first.symbol === 'turn' &&
    number.value >= (/^revs?$/i.test(written) ? SLOWEST_REVS : ENGINE_SPEED) &&
    /^(revs?|revolutions)$/i.test(written)
  )
    return heard(unitOf('turning-speed', 'rpm'));
  if (first.symbol === 'thou') return thousandths(written, tokens, to, heard(first));
  if (first.kind === 'angle' && first.symbol === '°') return degrees(heard(first), said, number.value);
  if (first.kind === 'temperature')
    return heard(unitOf(isDifference(said, to) ? 'temperature-difference' : 'temperature', first.symbol));
  return heard(first);
}

/** Of these a couple are some. */
const SOME = /^(?:day|week|month|year|mi|km|lb|%|turn)$/;
/** `an hour, maybe two`. */
const ONE_OR_MORE = /^,? (?:maybe|perhaps|possibly|or|or maybe) (?:two|three|a (?:bit|little) more|more)\b/;
/** `a foot or so`, `a foot of cable`. */
const A_FOOT_OF = /^\W*(or so|of (?!the|my|your)\w+|apart|long|deep|wide|off|above|below|back)\b/;
/** A unit said apart from its number, as it would have been understood beside it. */
export function asSaidOf(unit: UnitHeard, said: Said, value: number): UnitHeard {
  if (unit.symbol === '°') return degrees(unit, said, value);
  // `Sealant, a hundred in a wide one. Mil, I mean.`
  if (unit.symbol === 'mm' && unit.readings.length > 1)
    return (
      mil('mil', unit.to, value, {
        ...said,
        before: `${said.earlier} ${said.before}`,
        earlier: said.earlier,
        after: said.after,
        beyond: said.beyond,
      }) ?? unit
    );
  if (unit.symbol === 'N' && isTightened(said, unit.to))
    return { ...unit, ...unitHeard(unitOf('torque', 'N·m'), unit.to, true) };
  if (unit.symbol === 'kg' && TENSION.test(`${said.earlier} ${said.before}`))
    return { ...unit, ...unitHeard(unitOf('force', 'kgf'), unit.to, true) };
  return unit.symbol === 'turn' && value >= ENGINE_SPEED
    ? { ...unit, ...unitHeard(unitOf('turning-speed', 'rpm'), unit.to, true) }
    : unit;
}

const ENGINE_SPEED = 200;
const SLOWEST_REVS = 60;

/** `a hundred and twenty C`; of small numbers a capital is a label. */
function isScaleOfHeat(written: string, number: NumberRead): boolean {
  return /^[CF]$/.test(written) && !number.article && number.value >= 20;
}

const MORE_OF_A_NUMBER =
  /^(hundred|thousand|million|point|half|oh|zero|and|or|to|one|two|three|four|five|six|seven|eight|nine|ten|[a-z]+teen|[a-z]+ty)$/;

/** True where `one` after `to` is the start of a longer number, or counts a unit: `fifty to one hundred`, `to one inch`. */
function countsOn(tokens: readonly Token[], to: number): boolean {
  const next = tokens[to];
  if (!next) return false;
  if (next.type === 'number' || /^[-–/]$/.test(next.text)) return next.start <= (tokens[to - 1]?.end ?? 0) + 1;
  if (next.type !== 'word') return false;
  // `fifty to one forty to one`: the next ratio, in captions without marks.
  if (tokens[to + 1]?.lower === 'to' && /^(one|1)$/.test(wordAt(tokens, to + 2))) return false;
  if (next.lower === 'and') return /^(a|an|half|\d.*)$/.test(wordAt(tokens, to + 1));
  return (
    MORE_OF_A_NUMBER.test(next.lower) ||
    (next.lower !== 'in' && next.text.length > 1 && unitsWritten(next.text).length > 0)
  );
}

/** `it's a seven-tooth sprocket` says how many, `pull the forty-tooth off` which one. */
const SAID_TO_HAVE = /(\b(is|are|was|so|with)|['’]s)( an?)? $|, $/;
/** `thousandths` alone are of an inch. */
function thousandths(written: string, tokens: readonly Token[], to: number, thou: UnitHeard): UnitHeard | undefined {
  if (/^thou$/i.test(written) && /^(miles?|kilomet(er|re)s?|km|mi)$/.test(wordAt(tokens, to))) {
    const unit = unitOf('distance', /^m/.test(wordAt(tokens, to)) ? 'mi' : 'km');
    return { ...unitHeard(unit, to + 1, true), times: 1000 };
  }
  const [of, article, unit] = [tokens[to]?.lower, tokens[to + 1]?.lower, wordAt(tokens, to + 2)];
  if (of !== 'of' || article !== 'a' || !/^(mm|millimet(er|re)s?)$/.test(unit)) return thou;
  const mm = unitOf('length', 'mm');
  return { ...thou, symbol: 'mm', readings: [mm], to: to + 3, times: 0.001 };
}

/** A word `in` is an inch only where it cannot be a preposition. */
function isInch(written: string, number: NumberRead, tokens: readonly Token[], from: number, to: number): boolean {
  const key = written.toLowerCase();
  if (key.startsWith('inch')) return true;
  if (!number.figures) return false;
  if (/^["″]$/.test(written)) return tokens[from - 1]?.end === tokens[from]?.start;
  if (tokens[from - 1]?.text === '-') return true;
  const next = tokens[to];
  if (!next || next.type === 'mark' || next.type === 'number') return true;
  // `less than 0.1 in a minute`.
  if (/^(an?|the|one|each|every|this|that|my|under|about|less|ten|five|\d+)$/.test(next.lower)) return false;
  return (
    !Number.isInteger(number.value) ||
    /^(of|or|deep|long|wide|thick|high|apart|below|above|from|to|socket|wrench|bolt|drive|maximum|minimum|max|min|at)$/.test(
      next.lower,
    )
  );
}
