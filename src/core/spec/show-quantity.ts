import { ENGLISH, english, inFigures, type Locale, wording } from '../locale/index.ts';
import { type Converted, convert, convertAmount } from './convert.ts';
import { compare, decimals, divide, type Exact, exact, minus, powerOfTen, toNumber } from './exact.ts';
import type { Amount, Quantity, SimpleKind } from './kinds.ts';
import { type System, type Unit, unitOf } from './units.ts';

/** A quantity in words, in the shop's two unit systems. */
export interface Shown {
  readonly primary: string;
  /** Absent where both systems say the same, as for volts and degrees. */
  readonly secondary?: string;
}

/** The unit a system uses for a kind; with a limit, the smaller unit below it (in the unit before). */
const PREFERRED: Readonly<Record<SimpleKind, Readonly<Record<System, readonly [string, ...string[]]>>>> = {
  torque: { metric: ['N·m'], us: ['lbf·ft', 'lbf·in'], imperial: ['lbf·ft', 'lbf·in'] },
  force: { metric: ['N'], us: ['lbf'], imperial: ['lbf'] },
  pressure: { metric: ['kPa'], us: ['psi'], imperial: ['psi'] },
  length: { metric: ['mm'], us: ['in'], imperial: ['in'] },
  volume: { metric: ['L', 'mL'], us: ['US qt', 'US fl oz'], imperial: ['imp pt', 'imp fl oz'] },
  mass: { metric: ['kg', 'g'], us: ['lb', 'oz'], imperial: ['lb', 'oz'] },
  temperature: { metric: ['°C'], us: ['°F'], imperial: ['°F'] },
  'temperature-difference': { metric: ['°C'], us: ['°F'], imperial: ['°F'] },
  angle: { metric: ['°'], us: ['°'], imperial: ['°'] },
  voltage: { metric: ['V'], us: ['V'], imperial: ['V'] },
  current: { metric: ['A'], us: ['A'], imperial: ['A'] },
  resistance: { metric: ['Ω'], us: ['Ω'], imperial: ['Ω'] },
  power: { metric: ['W'], us: ['W'], imperial: ['W'] },
  charge: { metric: ['Ah'], us: ['Ah'], imperial: ['Ah'] },
  'turning-speed': { metric: ['rpm'], us: ['rpm'], imperial: ['rpm'] },
  flow: { metric: ['L/min', 'mL/min'], us: ['US gal/min'], imperial: ['imp gal/min'] },
  ratio: { metric: [':1'], us: [':1'], imperial: [':1'] },
  hardness: { metric: ['HRC'], us: ['HRC'], imperial: ['HRC'] },
  count: { metric: ['teeth'], us: ['teeth'], imperial: ['teeth'] },
  speed: { metric: ['km/h'], us: ['mph'], imperial: ['mph'] },
  time: { metric: ['s'], us: ['s'], imperial: ['s'] },
  distance: { metric: ['km'], us: ['mi'], imperial: ['mi'] },
};
/** Below this many of the larger unit the smaller one is shown. Common practice, no source. */
const SMALL: Readonly<Partial<Record<SimpleKind, number>>> = { torque: 5, volume: 1, mass: 1, flow: 1 };

/** Air is moved in cubic metres and cubic feet, and a blade in metres a second: the other unit of what is measured alike. */
const COUNTERPART: Readonly<Record<string, Readonly<Partial<Record<System, string>>>>> = {
  'm³/h': { us: 'ft³/min', imperial: 'ft³/min' },
  'ft³/min': { metric: 'm³/h' },
  'ft/min': { metric: 'm/s' },
};

const NARROW_SPACE = '\u202f';

/**
 * A quantity as pages, papers and messages show it: nominal with tolerance, range, limit, stages or interval.
 *
 * @param systems the shop's two unit systems, the first one first
 * @param locale decides words and the decimal sign; figures are the same in every language
 */
export function showQuantity(
  quantity: Quantity,
  systems: readonly System[] = ['metric', 'us'],
  locale: Locale = ENGLISH,
): Shown {
  return inBoth(systems, (system) => quantityText(quantity, (kind, amount) => unitFor(kind, amount, system), locale));
}

/**
 * A torque times a factor, such as the setting of a wrench that pulls through an extension, in the shop's two unit
 * systems. As many figures stay as in a converted spec.
 *
 * @param over, under the factor as a fraction, both parts above zero: a third or an eleventh is no decimal, and a limit that its
 *   rounding pushed past a figure would move by a whole one
 */
export function showTorqueTimes(
  amount: Amount,
  [over, under]: readonly [number, number],
  systems: readonly System[] = ['metric', 'us'],
  locale: Locale = ENGLISH,
): Shown {
  const by = divide(exact(over), exact(under));
  return inBoth(systems, (system) => amountText(amount, 'torque', unitFor('torque', amount, system), { locale, by }));
}

function inBoth(systems: readonly System[], text: (system: System) => string): Shown {
  const [primary = '', secondary] = systems.map(text);
  return secondary === undefined || secondary === primary ? { primary } : { primary, secondary };
}

/** A quantity in the units it was written in. */
export function writtenQuantity(quantity: Quantity): string {
  return quantityText(quantity, (_kind, amount) => amount.unit, ENGLISH);
}

/** An amount in the units it was written in, such as `20–100 N·m`. */
export function writtenAmount(amount: Amount, kind: SimpleKind, locale: Locale = ENGLISH): string {
  return amountText(amount, kind, amount.unit, { locale });
}

function quantityText(quantity: Quantity, unit: (kind: SimpleKind, amount: Amount) => string, locale: Locale): string {
  const { t } = wording(locale);
  const say = (kind: SimpleKind, amount: Amount, setting: Partial<Setting> = {}) =>
    amountText(amount, kind, unit(kind, amount), { locale, ...setting });
  switch (quantity.kind) {
    case 'torque-sequence':
      return quantity.stages.map((stage) => say(stageKind(stage), stage)).join(t(', then '));
    case 'thread':
    case 'viscosity-grade':
      return quantity.designation;
    case 'interval': {
      const { distance, time } = quantity;
      const sides = [
        ...(distance ? [say('distance', distance, { limitAfter: true })] : []),
        ...(time ? [say('time', time, { limitAfter: true })] : []),
      ];
      const [first = '', second] = sides;
      return second === undefined
        ? t('every {first}', { first })
        : t('every {first} or {second}, whichever comes first', { first, second });
    }
    default: {
      const value = say(quantity.kind, quantity.amount);
      if (quantity.kind === 'temperature-difference') return t('{value} difference', { value });
      return quantity.under ? t('{value} under {force}', { value, force: say('force', quantity.under) }) : value;
    }
  }
}

/** What a stage of a sequence turns by: an angle, or a torque. */
export function stageKind(stage: Amount): 'torque' | 'angle' {
  return stage.unit === '°' || stage.unit === 'turn' ? 'angle' : 'torque';
}

/** The unit a system shows an amount in; the written one where it belongs to the system. */
export function unitFor(kind: SimpleKind, amount: Amount, system: System): string {
  const written = unitOf(kind, amount.unit);
  if (written.systems.includes(system)) return written.symbol;
  const counterpart = COUNTERPART[written.symbol]?.[system];
  if (counterpart) return counterpart;
  const [large, small] = PREFERRED[kind][system];
  const limit = SMALL[kind];
  const most = Math.max(...[amount.nominal, amount.min, amount.max].filter((value) => value !== undefined));
  return small && limit !== undefined && convert(most, kind, written.symbol, large) < limit ? small : large;
}

/** How an amount is written. */
interface Setting {
  readonly locale: Locale;
  /** A factor that it is multiplied by. */
  readonly by?: Exact;
  /** A limit follows its value: "every 6 months at most". */
  readonly limitAfter?: boolean;
}

function amountText(amount: Amount, kind: SimpleKind, symbol: string, setting: Setting): string {
  const { locale, by, limitAfter = false } = setting;
  const { t } = wording(locale);
  const converted = convertAmount(amount, kind, symbol, by);
  const { nominal, min, max, place, unit } = converted;
  const limit = nominal || (min && max) ? undefined : (min ?? max);
  if (!limit) return withUnit(toleranceText(converted, locale), unit, locale);
  const one = toNumber(limit) === 1;
  const value = withUnit({ text: groupDigits(limit, place, locale), one }, unit, locale);
  if (limitAfter) return min ? t('{value} at least', { value }) : t('{value} at most', { value });
  return min ? t('at least {value}', { value }) : t('at most {value}', { value });
}

/** A number as it stands in a text: figures, grouped or not, with a decimal point or comma. */
const NUMBER = /\d+(?:[.,\u202f]\d+)*/g;

function withUnit({ text, one }: { text: string; one: boolean }, unit: Unit, locale: Locale): string {
  // The sign of degrees stands at each number: 90° (+5°/−3°).
  if (unit.symbol === '°') return text.includes('(') ? text.replaceAll(NUMBER, '$&°') : `${text}°`;
  if (unit.symbol === ':1') return text.replaceAll(NUMBER, '$&:1');
  return `${text} ${unitText(unit, one, locale)}`;
}

/** Units that are words, for one and for more; every other is a symbol and the same in all languages. */
const WORDS: Readonly<Record<string, readonly [one: string, more: string]>> = {
  turn: [english('turn'), english('turns')],
  day: [english('day'), english('days')],
  week: [english('week'), english('weeks')],
  month: [english('month'), english('months')],
  year: [english('year'), english('years')],
  teeth: [english('teeth'), english('teeth')],
  links: [english('links'), english('links')],
};

function unitText({ symbol }: Unit, one: boolean, locale: Locale): string {
  const words = WORDS[symbol];
  return words ? wording(locale).t(words[one ? 0 : 1]) : symbol;
}

/** Nominal value with tolerance, or a range. */
function toleranceText(converted: Converted, locale: Locale): { text: string; one: boolean } {
  const { t } = wording(locale);
  const { nominal, min, max, place, rounded, even } = converted;
  const say = (value: Exact) => groupDigits(value, place, locale);
  if (!nominal) {
    if (!min || !max) return { text: '', one: false };
    const text = min.num < 0n ? t('{from} to {to}', { from: say(min), to: say(max) }) : `${say(min)}–${say(max)}`;
    return { text, one: false };
  }
  const up = max && minus(max, nominal);
  const down = min && minus(nominal, min);
  const one = !up && !down && toNumber(nominal) === 1;
  if (up && down) {
    const smaller = compare(up, down) < 0 ? up : down;
    const text =
      compare(up, down) === 0 || (rounded && isHair(up, down, place))
        ? `${say(nominal)} ± ${say(smaller)}`
        : `${say(nominal)} (+${say(up)}/−${say(down)})`;
    return { text, one };
  }
  const value = say(nominal);
  if (up) return { text: t('{value}, at most {limit}', { value, limit: say(max) }), one };
  if (down) return { text: t('{value}, at least {limit}', { value, limit: say(min) }), one };
  // A size that comes out even is that size: 15.875 mm is 0.625 in, not 0.62500 in.
  return { text: even ? value.replace(/([.,]\d*?)0+$/, '$1').replace(/[.,]$/, '') : value, one };
}

/** Tolerances that rounding alone made unequal: the smaller one stands for both. */
function isHair(up: Exact, down: Exact, place: number): boolean {
  const apart = compare(up, down) < 0 ? minus(down, up) : minus(up, down);
  return compare(apart, powerOfTen(place)) <= 0;
}

/** Figures in groups of three from five figures on, a true minus sign, the decimal sign of the language. */
function groupDigits(value: Exact, place: number, locale: Locale): string {
  const [whole = '', fraction] = decimals(value, Math.max(0, -place)).replace('-', '−').split('.');
  const digits = whole.replace('−', '');
  const groups = digits.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, NARROW_SPACE) : whole;
  return fraction === undefined ? groups : `${groups}${inFigures(`.${fraction}`, locale)}`;
}
