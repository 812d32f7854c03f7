import { type SimpleKind, unitOf } from '../spec/index.ts';
import { type Bare, LIMIT_IS, VALUE_FOLLOWS } from './bare.ts';
import { FEWEST } from './counted-before.ts';
import { isDifference } from './degrees.ts';
import type { Phrase } from './number-and-unit.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** A quantity whose unit a number near it can do without. */
export interface Neighbour {
  readonly unit: UnitHeard;
  /** The number said. */
  readonly value: number;
  /** 100 or 1000 where the number ended in `hundred` or `thousand`. */
  readonly scale?: number;
  /** Two numbers were said: a range. */
  readonly span?: boolean;
  /** It only names a thing: its unit is taken by decimals alone. */
  readonly named?: boolean;
  /** Offset behind it in the text. */
  readonly end: number;
}

/** So many characters apart nobody leaves a unit out. */
export const FURTHEST_APART = 120;
/** A value and its neighbour lie no further apart than this, as a ratio. */
const LIKE = 12;
const ALIKE = 3.5;
/** So near, it is the same thing again. */
const CLOSE = 1.25;

const PREDICATE =
  /(\b(is|are|was|be|says?|reads?|reading|at|to|minimum|maximum|max|min|measures?|gets?|wants?|takes?|go|run|put|like)|['’]s)(\s+(about|around|roughly|only|just|probably|supposed to be))*\s+$/;
/** Of times and ways only these leave the unit out: `then every fifty`, `ten minutes, twelve if it is cold`. */
const OF_TIMES =
  /(\b(?:first|next|again|then) at|\b(every|after|for|or|least|most|than|maybe|perhaps|say|another|about|not|only|just|need|needs|give|wait|under|over|within|below|above|(?:wound|set|turned|cut|clocked|timed) (?:it|this|that|them)(?: back| down| up)? (?:to|at)|call it|make it|more like|say|took|takes|let it go|leave it)|,)\s*$/;
const IN_METRIC = /^\W*(if (you['’]re|you are|it['’]s)( working| thinking)? (in )?metric|in metric|metric)\b/;
/** `if you only own metric feelers that's`. */
const OF_METRIC = /\b(?:in metric|metric [a-z]+)[, ](?:\w+ )?(?:that['’]s|it['’]s|is)\s+$/;
const METRIC: Readonly<Record<string, readonly [SimpleKind, string]>> = {
  thou: ['length', 'mm'],
  in: ['length', 'mm'],
  lbf·ft: ['torque', 'N·m'],
  lbf·in: ['torque', 'N·m'],
  psi: ['pressure', 'bar'],
  '°F': ['temperature', '°C'],
};

const FAR_FROM_LIMIT = 100;
const A_PLAY = 2000;
/** `an hour in the clamps, and no load for twenty-four`: as many as there are hours in a day. */
const A_DAY = 24;
/** Insulation is said in anything from one to hundreds of megohms. */
const likeness = (kind: SimpleKind) => (kind === 'resistance' ? 3000 : kind === 'time' ? A_DAY : LIKE);
const ratio = (one: number, other: number) => Math.max(one / other, other / one);

/** True for a bare number about as large as another. */
export const isClose = ({ low }: Bare, value: number) => ratio(low.value, value) <= ALIKE / 2;

/** `leaves four either side`: measured, not counted. */
const EACH_SIDE = /^ (either|each|a|per|every|both) (side|end|way|edge)s?\b|^ all round\b/;
/** `four of slop`. */
const PLAY = /^ of (?:travel|slop|play|clearance|slack|lift|movement|runout|run-out|wear|error|float)\b|^ to spare\b/;
/** Parts by which what is measured in millimetres is told more finely. */
const FINE = new Set([10, 20, 50, 100]);
const ACROSS = /^ (thick|wide|deep|high|long|tall|across)\b/;
const closest = (near: readonly Neighbour[], value: number) =>
  near.toSorted((a, b) => ratio(value, a.value) - ratio(value, b.value))[0];
/** What breaks a circuit is told by its time. Source: IEC 61008-1, table 1 (300 ms at the rated current); from memory. */
const TRIPPED = /\b(?:rcds?|rcbo|gfci|trip|trips|tripped|tripping)\b/;
const SLOWEST_TRIP = 100;
const HOW_HIGH = /\b(?:level|height|depth)(?:['’]s| is| at| of| to| set| should be| about){0,3} $/;
/** `drops to two`: far below. */
const DROPS_TO =
  /\b(?:drops?|dropped|falls?|fell|sags?|sagged|collapses?|sits|settles|settled|down)(?: back| down| right| straight)? (?:to|at)\s+$/;
const READ = /\b(read|reads|reading|get|gets|getting|got|see|seeing|shows?|showing)\s+$/;

/** The unit of the nearest neighbour that a bare number is like; nearest first. */
export function unitOfNeighbour(bare: Bare, neighbours: readonly Neighbour[]): UnitHeard | undefined {
  const { low, to, said } = bare;
  const more = /\banother\s+$/.test(said.before);
  const may = neighbours.filter(({ unit, value, span, named }) => {
    // `three percent, which is six point nine`: in the unit of what it is a share of.
    if (
      unit.kind === 'ratio' &&
      /\b(?:which|that)(?:['’]s| is)(?: about| around)? $/.test(said.before) &&
      neighbours.some((each) => each.unit.kind !== 'ratio')
    )
      return false;
    // Eighths and sixteenths are of an inch.
    if ((low.parts ?? 0) >= 8 && /^(mm|cm|m)$/.test(unit.symbol)) return false;
    if (named && (Number.isInteger(low.value) || low.denominator !== undefined)) return false;
    // Milliseconds are read off an instrument, and no way to spend one's time.
    if ((unit.kind === 'time' && unit.symbol !== 'ms') || unit.kind === 'distance') {
      const read = !Number.isInteger(low.value) && low.denominator === undefined && unit.symbol === 's';
      if (
        !low.scale &&
        !read &&
        !OF_TIMES.test(said.before) &&
        !/^ say\b/.test(said.after(to)) &&
        !LIMIT_IS.test(said.before)
      )
        return false;
    }
    // `485 cc each leg, with the level a hundred and ten from the top`.
    if (unit.kind === 'volume' && HOW_HIGH.test(said.before)) return false;
    // A chain is counted in links, what drives it in teeth.
    if (unit.symbol === 'links' && /\b(?:sprockets?|chainrings?|rings?|cogs?|cassette)\b/.test(said.before))
      return false;
    if (unit.kind === 'count' && !Number.isInteger(low.value)) return false;
    if (low.value < 0) return unit.kind === 'temperature' || unit.kind === 'angle';
    // A year is none of a handful.
    if (low.figures && low.value >= 1950 && low.value <= 2040 && Number.isInteger(low.value) && value < 400)
      return false;
    // Small whole numbers count people and things unless the talk is of numbers as small.
    if (
      !bare.high &&
      !more &&
      !DROPS_TO.test(said.before) &&
      unit.symbol !== 'MΩ' &&
      !EACH_SIDE.test(said.after(to)) &&
      !PLAY.test(said.after(to)) &&
      Number.isInteger(low.value) &&
      low.value <= 4 &&
      (value > 12 || !/[a-z,’']\s*$/.test(said.before))
    )
      return false;
    // Said again, for stress.
    return value > 0 && (more || value !== low.value || bare.high !== undefined || span === true);
  });
  const metric =
    IN_METRIC.test(said.after(to)) || OF_METRIC.test(said.before) ? METRIC[may[0]?.unit.symbol ?? ''] : undefined;
  if (metric) return unitHeard(unitOf(...metric), to, true);
  const most = bare.high?.value ?? low.value;
  // `parallel to within point one`: a play is small beside what it is a play of.
  const furthest = DROPS_TO.test(said.before)
    ? FAR_FROM_LIMIT
    : PLAY.test(said.after(to)) || /\b(within|(out|off) by)( about)?\s+$/.test(said.before)
      ? A_PLAY
      : LIMIT_IS.test(said.before)
        ? FAR_FROM_LIMIT
        : 0;
  // `cupped three mil over two hundred`: along so much.
  const [over] = may;
  if (over?.unit.kind === 'length' && /\bover (about )?$/.test(said.before) && most > over.value * LIKE)
    return { ...over.unit, to, plural: true };
  // A test of insulation is told with its voltage; what it reads is a resistance.
  // `1200 long, 32 thick`: a thing is far less thick than long.
  const side = ACROSS.test(said.after(to)) ? may.find(({ unit }) => unit.kind === 'length') : undefined;
  if (side) return { ...side.unit, to, plural: true };
  const last = may[0]?.unit.kind === 'voltage' && READ.test(said.before) ? may[1] : may[0];
  if (last?.unit.symbol === 'MΩ' && ratio(most, last.value) <= likeness('resistance'))
    return { ...last.unit, to, plural: true };
  // `five hundredths of clearance`, where the talk is in millimetres.
  const parts = FINE.has(low.denominator ?? 0);
  const inParts = parts ? may.find(({ unit }) => unit.kind === 'length') : undefined;
  if (inParts) return { ...inParts.unit, to, plural: true };
  // `secondary I get six thousand two hundred`: far more than the primary.
  const wound = may.find(({ unit }) => unit.kind === 'resistance');
  if (wound && low.value >= 100 && /\b(?:secondary|hot to ground|plug wire|plug lead)\b[^.;]*$/.test(said.before))
    return { ...wound.unit, to, plural: true };
  const [nearest] = may;
  // `tripped in twenty-two milliseconds at thirty milliamps, and the limit's three hundred`: how long it may take.
  const tripped = may.find(({ unit }) => unit.symbol === 'ms');
  if (tripped && low.value >= SLOWEST_TRIP && TRIPPED.test(`${said.earlier} ${said.before}`))
    return { ...tripped.unit, to, plural: true };
  // `the diff is two degrees, so set at twenty`: a temperature, by its scale.
  if (nearest?.unit.kind === 'temperature-difference' && /\b(at|to|reads?|is)\s+$/.test(said.before)) {
    const scales = nearest.unit.readings.map(({ symbol }) => unitOf('temperature', symbol));
    return { ...nearest.unit, kind: 'temperature', readings: scales, to, plural: true };
  }
  // `sixty Celsius, differential about six`.
  if (nearest?.unit.kind === 'temperature' && isDifference(said, to)) {
    const scales = nearest.unit.readings.map(({ symbol }) => unitOf('temperature-difference', symbol));
    return { ...nearest.unit, kind: 'temperature-difference', readings: scales, to, plural: true };
  }
  if (more && nearest) return { ...nearest.unit, to, plural: true };
  const found =
    may.find(({ value }) => ratio(most, value) <= CLOSE) ??
    may.find(({ value }) => ratio(most, value) <= ALIKE) ??
    closest(
      may.filter(({ value }) => ratio(most, value) <= LIKE),
      most,
    ) ??
    may.find(({ unit, value }) => ratio(most, value) <= Math.max(furthest, likeness(unit.kind)));
  return found ? { ...found.unit, to, plural: true } : inThousandths(may, most, to);
}

const SMALLER: Readonly<Record<string, readonly [SimpleKind, string]>> = {
  L: ['volume', 'mL'],
  m: ['length', 'mm'],
  kg: ['mass', 'g'],
};
/** `a litre from dry, and eight fifty on a change`: hundreds are of the unit a thousand times smaller. */
function inThousandths(may: readonly Neighbour[], value: number, to: number): UnitHeard | undefined {
  const small =
    value >= 100 && value < 1000 && Number.isInteger(value) ? SMALLER[may[0]?.unit.symbol ?? ''] : undefined;
  return small && ratio(value / 1000, may[0]?.value ?? 1) <= ALIKE ? unitHeard(unitOf(...small), to, true) : undefined;
}

/** What was just spoken of is measured, set or limited again: `The gauge says ten. Limit's twelve.` */
const SAME_AGAIN =
  /(^\W*(about|around|roughly|maybe|nearly|nearer|call it|say)|\b(live with|settle for|happy with|accept|put up with|reads?|reading|rated (?:for|at)|at least|at most|no more than|no less than|under|over|below|above|past|beyond|[a-z]+er than|pass|allowed|limit|maximum|minimum|max|min|spec|got|getting|get|see|measures?|measured|(?:drop|set|bring|take|turn|back|run|wind|put|raise|lower) (?:it|this|that|them|the \w+)(?: back| up| down)? (?:to|at)|down to|up to|now at|should be|wants?|make (?:it|this)|came (?:out )?(?:to|at|in at)|shows?|says|needs?)\b|\b(limit|this one|mine|that one|yours|max|minimum|maximum|spec)['’]s|\b(?:i['’]m|we['’]re) at)(\W+(is|at|to|for|about|around|only|of|er|um|uh|this|it|be|closer))*\W*$/;
/** `Stage two, twenty.`, `For the kettle, thirteen.` */
const NAMED_ALONE =
  /^\W*(?!(?:so|well|okay|ok|right|now|yeah|yes|no|oh|and|then)\b)[a-z][a-z'’-]+(?: [a-z'’-]+){0,3}, (about |around )?$|^\W*(and |then |so )?((stage|step|pass|round) \w+|(for|on|in) (the|a|an) [\w'’ -]{2,30}|(rear|front|exhaust|intake|inlet|outlet))[,:] (about |around |to |at )?$/;
/** `Crosscut's thirty.`: the same of another thing. */
const OF_ANOTHER =
  /^\W*(?!(?:it|he|she|that|there|this|class|lunch|mine|what|who|i|we|you|they)\b)(?:the )?[a-z]+(?: [a-z]+){0,2}(?:['’]s| is| are| gets?| wants?| takes?) (?:about |around )?$/;

/** Counts, times and ways are left without their unit only where something says that they are told again. */
function isAskedAgain({ low, said }: Bare, kind: SimpleKind, value: number): boolean {
  if (kind === 'count') return low.value >= FEWEST && ratio(low.value, value) <= 2.5;
  return (
    !/^(time|distance)$/.test(kind) ||
    low.scale !== undefined ||
    (kind === 'time' && !Number.isInteger(low.value) && low.denominator === undefined) ||
    SAME_AGAIN.test(said.before) ||
    /\bevery\s+$/.test(said.before)
  );
}

/** The unit of a quantity in a sentence before, for a number that says the same thing again. */
export function unitOfSentenceBefore(bare: Bare, neighbours: readonly Neighbour[]): UnitHeard | undefined {
  const { said, low } = bare;
  const decimal = !Number.isInteger(low.value) && low.denominator === undefined;
  const again =
    SAME_AGAIN.test(said.before) ||
    /\bevery\s+$/.test(said.before) ||
    (NAMED_ALONE.test(said.before) && bare.ends) ||
    (OF_ANOTHER.test(said.before) && bare.ends && neighbours.some(({ value }) => ratio(low.value, value) <= ALIKE)) ||
    (bare.high !== undefined && /\b(from|between|of)\s+$/.test(said.before)) ||
    (decimal && VALUE_FOLLOWS.test(said.before));
  const near = neighbours.filter(
    ({ unit, value }) =>
      unit.symbol === 'MΩ' ||
      (unit.kind === 'length' && FINE.has(low.denominator ?? 0)) ||
      (isAskedAgain(bare, unit.kind, value) &&
        (DROPS_TO.test(said.before) || ratio(low.value, value) <= (again ? LIKE : ALIKE))),
  );
  return unitOfNeighbour(bare, near);
}

function isDecimalValue({ low, said }: Bare): boolean {
  return !Number.isInteger(low.value) && low.denominator === undefined && VALUE_FOLLOWS.test(said.before);
}

/** What is said between a number and the quantity behind it. */
export interface SaidBetween {
  /** Nothing but a list goes on. */
  readonly listed: boolean;
  /** The quantity is the difference of what was said before. */
  readonly concluded: boolean;
  readonly ofAnother: boolean;
}
/** `big ring fifty, little ring thirty-four`. */
const RING = /\b(?:chainrings?|rings?|cogs?|sprockets?)(?:['’]s| is| has)? $/;
/** How small a difference of two values may be. */
const A_DIFFERENCE = 300;

/** The unit said later, of a number that a verb or a limit gives as a value: `the bevel is twenty-five, then thirty degrees`. */
export function unitSaidLater(
  bare: Bare,
  { unit, value }: Neighbour,
  { listed, concluded, ofAnother }: SaidBetween,
): UnitHeard | undefined {
  const inches = unit.symbol === 'in' && (bare.low.denominator ?? 0) >= 8;
  if (
    (/^(time|distance|count|ratio)$/.test(unit.kind) &&
      unit.symbol !== 'ms' &&
      !(unit.symbol === 'teeth' && RING.test(bare.said.before) && Number.isInteger(bare.low.value))) ||
    !(
      inches ||
      listed ||
      (concluded && value < bare.low.value) ||
      PREDICATE.test(bare.said.before) ||
      isDecimalValue(bare) ||
      ratio(bare.low.value, value) <= ALIKE
    )
  )
    return undefined;
  // `Nine. Nine newton metres`: said again.
  if (value === bare.low.value && !bare.high && !ofAnother) return undefined;
  const furthest =
    concluded && value < bare.low.value ? A_DIFFERENCE : listed || !Number.isInteger(bare.low.value) ? LIKE : ALIKE;
  return value > 0 && ratio(bare.low.value, value) <= (inches ? LIKE : furthest)
    ? { ...unit, to: bare.to, plural: true }
    : undefined;
}

/** A bare number with the unit it takes. */
export function withUnit({ low, high, to }: Bare, unit: UnitHeard): Phrase {
  return { low, ...(high ? { high } : {}), unit, to };
}
