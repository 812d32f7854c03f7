import { type SimpleKind, unitOf } from '../spec/index.ts';
import type { NumberRead } from './number.ts';
import type { Phrase } from './number-and-unit.ts';
import type { Said } from './said.ts';
import { numberAfter } from './second-number.ts';
import type { Talk } from './talk.ts';
import type { Token } from './tokens.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** A quantity whose unit a number near it can do without. */
export interface Neighbour {
  readonly unit: UnitHeard;
  /** The number said. */
  readonly value: number;
  /** Offset behind it in the text. */
  readonly end: number;
}

/** A number that may take the unit of a neighbour. */
export interface Bare {
  readonly low: NumberRead;
  readonly high?: NumberRead;
  readonly to: number;
  readonly said: Said;
  /** Its sentence ends behind it. */
  readonly ends?: boolean;
}

/** So many characters apart nobody leaves a unit out. */
export const FURTHEST_APART = 120;
/** A value and its neighbour lie no further apart than this, as a ratio. */
const LIKE = 12;
const ALIKE = 3.5;
/** So near, it is the same thing again. */
const CLOSE = 1.25;

/** What ends a number that counts nothing: a preposition, a conjunction, a clause. */
const NO_NOUN =
  /^(in|on|for|at|if|when|while|and|or|but|so|then|before|after|because|cold|hot|dry|wet|too|either|again|instead|each|apiece|maximum|max|minimum|min|tops|now|there|here|with|without|as|though|unless|once|until|till|up|down|over|under|round|around|the|your|my|where|which|that|it|i|you|we|they|he|she|(?:it|i|you|we|they|he|she)['’](?:s|d|ll|m|re|ve)|is|are|was|plus|give|exactly|same|outside|inside|today|right|and-a-bit|flat|straight|tall|wide|deep|thick|high|long|all|through|not|from|per|means|works|does|will|would|should|feels|comes|gets|makes|front|rear|back|left|inlet|outlet|intake|exhaust|ex|running|next|later|today|tomorrow|afterwards|first|[a-z]{3,}(?<!bear|bush|spr|fitt|r|str|cas|lin|coupl)ing|to|between|across|neutral|live|total|altogether|overall|overnight|most|least)$/;
/** Words before a number that say it is a value. */
const VALUE_FOLLOWS =
  /(\b(and|or|but|then|to|at|is|isn['’]t|are|was|were|be|been|gets?|getting|got|takes?|took|wants?|needs?|for|with|than|like|see|seen|says?|said|reads?|reading|shows?|showed|showing|measures?|measured|measuring|say,|gave|gives?|giving|hits?|hit|settles?|settled|under|over|above|below|past|exceed|minimum|maximum|min|max|least|most|every|after|about|around|roughly|nearly|almost|maybe|perhaps|say|exactly|only|just|stays?|runs?|ran|run|use|using|go|goes|going|went|have|had|has|until|reach|reaches|from|between|make|makes|make this|make that|this|by|drop|drops|dropped|up|down|off|so|there|within|another|within|of|still|probably|closer|holds?|set|draws?|drew|pulls?|pulled|pulling|came|comes|not|even|it|prefer|want|call|target|tops|called)|['’](s|d|ve|re|ll)|[,:–—(])\s*$/;
/** Ages, and numbers that are only counted out. */
const OF_SOMEBODY =
  /\b((he|she|i|you|we|they)(['’](s|m|re)| (is|am|are|was|were))|count(ed|ing)? (up |down )?to|paid|costs?|worth)( (about|only|nearly|over))?\s*$/;
/** What is named by a number, or picked out by it. */
const NAMED_BY_NUMBER =
  /\b(step|stage|pass|part|number|numbers|no|nr|item|code|page|pages|figure|fig|table|chapter|section|lesson|bay|row|grade|class|dot|sae|iso|model|version|type|room|bin|shelf|size|torx|gear|speed|bolt|hole|position|click|clicks|setting|mark|gauge|awg|grit|zone|slot|station|channel|terminal|pin|circuit|cylinder|line|the|these|those|this|all|both|first|last|next|other|any|my|your|our|a|an|every other|(?<!(?:small|smaller|big|bigger|other|left|right|front|rear|back|long|short|upper|lower|top|bottom|inner|outer|new|old|inlet|exhaust|intake) )one|w|(?<!\b(?:minimum|maximum|limit) )of|in|on|(?<=\d )by|m|t)[.#]?\s*$/;
const PREDICATE =
  /(\b(is|are|was|be|says?|reads?|reading|at|to|minimum|maximum|max|min|measures?|gets?|wants?|takes?|go|run|put|like)|['’]s)(\s+(about|around|roughly|only|just|probably|supposed to be))*\s+$/;
/** Of times and ways only these leave the unit out: `then every fifty`, `ten minutes, twelve if it is cold`. */
const OF_TIMES =
  /(\b(every|after|for|or|least|most|than|maybe|perhaps|say|another|about|not|just|need|needs|give|wait|under|over|within|below|above)|,)\s*$/;
const IN_METRIC = /^\W*(if (you['’]re|you are|it['’]s)( working| thinking)? (in )?metric|in metric|metric)\b/;
const METRIC: Readonly<Record<string, readonly [SimpleKind, string]>> = {
  thou: ['length', 'mm'],
  in: ['length', 'mm'],
  lbf·ft: ['torque', 'N·m'],
  lbf·in: ['torque', 'N·m'],
  psi: ['pressure', 'bar'],
  '°F': ['temperature', '°C'],
};

/** `around one.`: nobody rounds a thing. */
const ROUGHLY =
  /^(?!.*\b(meet|lunch|break|class|clock)\b).*\b(about|around|roughly|nearly|almost|under|below|over|above)\s+$/;
const endsThere = (token: Token | undefined) => !token || /^[,.;:?!]$/.test(token.text);
/** `a side`, `each end`: what each of them gets. */
const EACH_GETS = /^(a|per|each|every|either)$/;
const SHARER =
  /^(side|sides|end|ends|tooth|cutter|wheel|leg|arm|corner|edge|face|pass|piece|blade|cylinder|flank|way)$/;

/** `fifteen degrees of rake and twenty-five of fleam`; `two of them` are counted. */
const OF_WHAT =
  /^\W*of (?!(?:them|us|you|those|these|the|my|your|our|all|it|each|his|her|their|which|what|an?)\b)[a-z]+(?<!s)\b/;

/** Measures that the table does not hold. */
const OTHER_UNIT =
  /^(hertz|hz|k?hz|megahertz|cycles?|farads?|microfarads?|picofarads?|µf|decibels?|db|points?|lumens?|lux|dollars?|bucks?|quid|euros?|pence|cents?|times|percent|per|and|joules?|kva|va|henr(?:y|ies)|octane|ka|k)$/;

/** A number, or two of a range, that stands like a value and has no unit of its own. */
export function bareAt(talk: Talk, low: NumberRead, said: Said): Bare | undefined {
  // `one` is the thing more often than the number; an article counts only its noun.
  if (low.article || low.value <= 0) return undefined;
  if (low.value === 1 && !((ROUGHLY.test(said.before) || LIMIT_IS.test(said.before)) && endsThere(talk.pieces[low.to])))
    return undefined;
  const second = numberAfter(talk, low.to, /\bbetween\W+(?:about )?$/.test(said.before) ? 'between' : undefined);
  const high = second && !second.article && second.value > low.value ? second : undefined;
  // Decimals and ranges count nothing and name little: `a window of four to six`.
  const whole = Number.isInteger(low.value) && !high;
  const made = /\bmake (this|that|it)( one)?( about)? $/.test(said.before);
  if (!made && NAMED_BY_NUMBER.test(said.before) && (whole || !/\b(in|of|on|all|both)\s*$/.test(said.before)))
    return undefined;
  if (OF_SOMEBODY.test(said.before)) return undefined;
  const to = high?.to ?? low.to;
  const next = talk.pieces[to];
  // A whole number counts things: eight a side.
  const shared = !whole && EACH_GETS.test(next?.lower ?? '') && SHARER.test(talk.pieces[to + 1]?.lower ?? '');
  if (OF_WHAT.test(said.after(to)) && /\b\w+ of [^.;]*$/.test(said.before))
    return { low, ...(high ? { high } : {}), to, said };
  // Decimals count nothing.
  const decimal = !Number.isInteger(low.value) && low.denominator === undefined && VALUE_FOLLOWS.test(said.before);
  if (decimal && next?.type === 'word' && !OTHER_UNIT.test(next.lower))
    return { low, ...(high ? { high } : {}), to, said };
  if (next?.type === 'mark' ? !/^[,.;:?!)–—…]$/.test(next.text) : next && !shared && !NO_NOUN.test(next.lower))
    return undefined;
  if (next?.type === 'number' || /^o['’]?clock$/.test(next?.lower ?? '')) return undefined;
  // `exhaust nine to eleven`, `rear thirty.`: the thing itself right before it.
  const afterThing = /[a-z]\s+$/.test(said.before) && (high !== undefined || !whole || !next || next.type === 'mark');
  const alone = BEGINS.test(said.before) && IN_WHICH_CASE.test(said.after(to));
  if (!VALUE_FOLLOWS.test(said.before) && !afterThing && !alone) return undefined;
  return { low, ...(high ? { high } : {}), to, said, ends: !next || /^[.?!]$/.test(next.text) };
}

/** `and the maximum is`: a limit is of what was just measured, however far it lies from it. */
const LIMIT_IS =
  /\b(maximum|minimum|limit|max|min|most|least)(?:( \w+)? (is|was|are|were)|['’]s| of)( (about|around|only))?\s+$/;
const FAR_FROM_LIMIT = 100;
const A_PLAY = 2000;
/** `an hour in the clamps, and no load for twenty-four`: as many as there are hours in a day. */
const A_DAY = 24;
/** Insulation is said in anything from one to hundreds of megohms. */
const likeness = (kind: SimpleKind) => (kind === 'resistance' ? 300 : kind === 'time' ? A_DAY : LIKE);
const ratio = (one: number, other: number) => (one > other ? one / other : other / one);

/** The unit of the nearest neighbour that a bare number is like; nearest first. */
export function unitOfNeighbour(bare: Bare, neighbours: readonly Neighbour[]): UnitHeard | undefined {
  const { low, to, said } = bare;
  const may = neighbours.filter(({ unit, value }) => {
    if (unit.kind === 'time' || unit.kind === 'distance') {
      if (!OF_TIMES.test(said.before) && !LIMIT_IS.test(said.before)) return false;
    }
    if (unit.kind === 'count' && !Number.isInteger(low.value)) return false;
    // A year is none of a handful.
    if (low.figures && low.value >= 1950 && low.value <= 2040 && Number.isInteger(low.value) && value < 400)
      return false;
    // Small whole numbers count people and things unless the talk is of numbers as small.
    if (Number.isInteger(low.value) && low.value <= 4 && (value > 12 || !/[a-z,’']\s*$/.test(said.before)))
      return false;
    // Said again, for stress.
    return value > 0 && (value !== low.value || bare.high !== undefined);
  });
  const metric = IN_METRIC.test(said.after(to)) ? METRIC[may[0]?.unit.symbol ?? ''] : undefined;
  if (metric) return unitHeard(unitOf(...metric), to, true);
  const most = bare.high?.value ?? low.value;
  // `parallel to within point one`: a play is small beside what it is a play of.
  const furthest = /\bwithin( about)?\s+$/.test(said.before) ? A_PLAY : LIMIT_IS.test(said.before) ? FAR_FROM_LIMIT : 0;
  // A test of insulation is told with its voltage; what it reads is a resistance.
  const [last] = may;
  if (last?.unit.symbol === 'MΩ' && ratio(most, last.value) <= likeness('resistance'))
    return { ...last.unit, to, plural: true };
  const found =
    may.find(({ value }) => ratio(most, value) <= CLOSE) ??
    may.find(({ value }) => ratio(most, value) <= ALIKE) ??
    may.find(({ unit, value }) => ratio(most, value) <= Math.max(furthest, likeness(unit.kind)));
  return found && { ...found.unit, to, plural: true };
}

/** What was just spoken of is measured, set or limited again: `The gauge says ten. Limit's twelve.` */
const SAME_AGAIN =
  /(\b(reads?|reading|rated (?:for|at)|at least|at most|no more than|no less than|under|over|below|above|[a-z]+er than|limit|maximum|minimum|max|min|spec|got|getting|get|see|measures?|measured|(?:drop|set|bring|take|turn|back|run|wind|put|raise|lower) (?:it|this|that|them|the \w+)(?: back| up| down)? (?:to|at)|down to|up to|now at|should be|wants?|make (?:it|this)|came (?:out )?(?:to|at|in at)|shows?|says|needs?)\b|\b(limit|this one|mine|that one|yours|max|minimum|maximum|spec)['’]s|\b(?:i['’]m|we['’]re) at)(\W+(is|at|to|for|about|around|only|of|er|um|uh|this|it|be|closer))*\W*$/;
/** `Stage two, twenty.`, `For the kettle, thirteen.` */
const NAMED_ALONE =
  /^\W*(?!(?:so|well|okay|ok|right|now|yeah|yes|no|oh|and|then)\b)[a-z][a-z'’-]+(?: [a-z'’-]+){0,3}, (about |around )?$|^\W*(and |then |so )?((stage|step|pass|round) \w+|(for|on|in) (the|a|an) [\w'’ -]{2,30}|(rear|front|exhaust|intake|inlet|outlet))[,:] (about |around |to |at )?$/;
/** `Crosscut's thirty.`: the same of another thing. */
const OF_ANOTHER =
  /^\W*(?!(?:it|he|she|that|there|this|class|lunch|mine|what|who|i|we|you|they)\b)(?:the )?[a-z]+(?: [a-z]+){0,2}(?:['’]s| is| are| gets?| wants?| takes?) (?:about |around )?$/;
const BEGINS = /^\W*(and |then |so |or |maybe |about |around |say |call it |actually )*$/;
const IN_WHICH_CASE = /^\W*((if|for|on|when|in) \w+|or (less|more|better|under|over|above|below|lower|higher)\b)/;

/** The unit of a quantity in the sentence before, for a number that says the same thing again. */
export function unitOfSentenceBefore(bare: Bare, neighbours: readonly Neighbour[]): UnitHeard | undefined {
  const { said, to, low } = bare;
  const decimal = !Number.isInteger(low.value) && low.denominator === undefined;
  const again =
    SAME_AGAIN.test(said.before) ||
    (NAMED_ALONE.test(said.before) && bare.ends) ||
    (OF_ANOTHER.test(said.before) && bare.ends && neighbours.some(({ value }) => ratio(low.value, value) <= ALIKE)) ||
    (bare.high !== undefined && /\b(from|between|of)\s+$/.test(said.before)) ||
    (decimal && VALUE_FOLLOWS.test(said.before));
  const close = PREDICATE.test(said.before) && neighbours.some(({ value }) => ratio(low.value, value) <= CLOSE);
  if (!again && !close && !(BEGINS.test(said.before) && IN_WHICH_CASE.test(said.after(to)))) return undefined;
  const near = neighbours.filter(
    ({ unit, value }) =>
      !/^(time|distance|count)$/.test(unit.kind) && ratio(low.value, value) <= (again ? LIKE : ALIKE),
  );
  return unitOfNeighbour(bare, near.slice(0, decimal ? 4 : 1));
}

function isDecimalValue({ low, said }: Bare): boolean {
  return !Number.isInteger(low.value) && low.denominator === undefined && VALUE_FOLLOWS.test(said.before);
}

/** The unit said later, of a number that a verb or a limit gives as a value: `the bevel is twenty-five, then thirty degrees`. */
export function unitSaidLater(bare: Bare, { unit, value }: Neighbour, listed = false): UnitHeard | undefined {
  if (
    /^(time|distance|count|ratio)$/.test(unit.kind) ||
    !(listed || PREDICATE.test(bare.said.before) || isDecimalValue(bare))
  )
    return undefined;
  return value > 0 && ratio(bare.low.value, value) <= (listed || !Number.isInteger(bare.low.value) ? LIKE : ALIKE)
    ? { ...unit, to: bare.to, plural: true }
    : undefined;
}

/** A bare number with the unit it takes. */
export function withUnit({ low, high, to }: Bare, unit: UnitHeard): Phrase {
  return { low, ...(high ? { high } : {}), unit, to };
}

const COUNTED =
  /\bcount(?:ed|ing|s)?\b[^.;?!]*?\b(teeth|links)\b[^.;?!]*(?:\b(?:get|got|gets|make|makes|made|have|is|are|be|find|see)|['’]s)\s+$/;

/** `count the teeth, you should get thirty-four`: what is counted is said before its number. */
export function countedBefore(bare: Bare): UnitHeard | undefined {
  const symbol = COUNTED.exec(bare.said.before)?.[1];
  if (symbol === undefined || !Number.isInteger(bare.low.value)) return undefined;
  return unitHeard(unitOf('count', symbol), bare.to, true);
}
