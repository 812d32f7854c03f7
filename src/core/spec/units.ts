import { type Exact, exact } from './exact.ts';
import type { SimpleKind } from './kinds.ts';

export const SYSTEMS = ['metric', 'us', 'imperial'] as const;
/** A shop's way of measuring; `us` and `imperial` differ in volumes only. */
export type System = (typeof SYSTEMS)[number];

/** A unit of the trade. A value in the kind's base unit is `value * factor + offset`, without rounding. */
export interface Unit {
  /** As it is printed, such as `N·m`; the name it goes by everywhere inside. */
  readonly symbol: string;
  readonly kind: SimpleKind;
  readonly factor: Exact;
  readonly offset: Exact;
  readonly systems: readonly System[];
  /** Other ways people write it; capitals, dots, hyphens and blanks make no difference. */
  readonly spellings: readonly string[];
}

const METRIC: readonly System[] = ['metric'];
const INCH: readonly System[] = ['us', 'imperial'];
const ANY: readonly System[] = ['metric', 'us', 'imperial'];

function unit(
  kind: SimpleKind,
  symbol: string,
  factor: string,
  systems: readonly System[],
  spellings: string,
  offset = '0',
): Unit {
  return {
    symbol,
    kind,
    factor: exact(factor),
    offset: exact(offset),
    systems,
    spellings: spellings
      .split(',')
      .map((spelling) => spelling.trim())
      .filter((spelling) => spelling !== ''),
  };
}

/** Each thing at each rate: `litre per minute`, `litre a minute`. */
const spellings = (things: readonly string[], rates: readonly string[]) =>
  things.flatMap((thing) => rates.map((rate) => `${thing} ${rate}`)).join(', ');
const A_MINUTE = ['per minute', 'a minute', 'per min'];
const AN_HOUR = ['per hour', 'an hour'];
const A_SECOND = ['per second', 'a second'];
const REVS = ['rev', 'revs', 'revolution', 'revolutions', 'turns'];
const LITRES = ['litre', 'litres', 'liter', 'liters', 'L'];
const CUBIC_METRES = ['cubic metre', 'cubic metres', 'cubic meter', 'cubic meters'];

/**
 * Every unit a spec may be written in; the first of a kind is the one the others are counted in.
 * Source: NIST SP 811 (2008), B.8, exact factors; gallons, quarts, pints and ounces from NIST Handbook 44, App. C
 * (US gallon 231 in³, imperial gallon 4.546 09 L). Ampere, volt, ohm and their prefixes: SI Brochure, 9th edition, tables 4
 * and 7; 1 Ah is 3600 C. Hardness scales: ISO 6506-1, 6507-1, 6508-1, ISO 868; none converts to another. A year counts as 365 days (SP 811, B.8), a month as a twelfth of it.
 */
export const UNITS: readonly Unit[] = [
  unit(
    'torque',
    'N·m',
    '1',
    METRIC,
    'Nm, newton metre, newton metres, newton meter, newton meters, newtonmeter, newtons metre, newtons metres, newtons meter, newtons meters',
  ),
  unit(
    'torque',
    'lbf·ft',
    '1.3558179483314004',
    INCH,
    'ft lb, ft lbs, foot lb, foot lbs, foot lbf, ft pound, ft pounds, lb foot, lbs foot, ft lbf, lb ft, lbs ft, lbf ft, ft #, foot pound, foot pounds, pound foot, pound feet, pounds feet, foot pound force, pound force foot, pound force feet, pounds force feet, ft/lb, ft/lbs, lb/ft, lbs/ft',
  ),
  unit(
    'torque',
    'lbf·in',
    '0.1129848290276167',
    INCH,
    'in lb, in lbs, inch lbf, in pound, in pounds, lb inch, lbs inch, in lbf, lb in, lbs in, lbf in, inch lb, inch lbs, inch pound, inch pounds, in/lb, in/lbs, pound inch, pound inches, inch pound force',
  ),
  unit(
    'torque',
    'kgf·m',
    '9.80665',
    METRIC,
    'kg m, kgm, m kg, mkp, kp m, kilogram metre, kilogram metres, kilogram meter, kilogram meters, kilogram force metre, kilogram force metres, kilogram force meter, kilogram force meters',
  ),
  unit('torque', 'kgf·cm', '0.0980665', METRIC, 'kg cm, cm kg'),
  unit(
    'torque',
    'cN·m',
    '0.01',
    METRIC,
    'cNm, N cm, Ncm, newton centimetre, newton centimetres, newton centimeter, newton centimeters',
  ),
  unit(
    'torque',
    'ozf·in',
    '0.00706155181422604375',
    INCH,
    'oz in, in oz, inch ounce, inch ounces, ounce inch, ounce inches',
  ),

  unit('force', 'N', '1', METRIC, 'newton, newtons'),
  unit('force', 'kN', '1000', METRIC, 'kilonewton, kilonewtons'),
  unit(
    'force',
    'lbf',
    '4.4482216152605',
    INCH,
    'pound force, pounds force, pound of force, pounds of force, lb force, lbs force',
  ),
  unit(
    'force',
    'kgf',
    '9.80665',
    METRIC,
    'kp, kilos force, kilo force, kilogram force, kilograms force, kilograms of force, kilo of force, kilos of force, kg of force, kgs of force, kilopond',
  ),

  unit('pressure', 'kPa', '1', METRIC, 'kilopascal, kilopascals'),
  unit('pressure', 'psi', '8896443230521/1290320000000', INCH, 'lbf/in², lb/in2, lbs/in2, pounds per square inch'),
  unit('pressure', 'bar', '100', METRIC, 'bars'),
  unit('pressure', 'mbar', '0.1', METRIC, 'millibar, millibars, hPa'),
  unit('pressure', 'MPa', '1000', METRIC, 'megapascal, megapascals'),
  unit(
    'pressure',
    'kgf/cm²',
    '98.0665',
    METRIC,
    'kg/cm2, kgf/cm2, kg/cm², kg per square centimetre, kg per square centimeter, kgs per square centimetre, kgs per square centimeter, kilos per square centimetre, kilos per square centimeter, kilograms per square centimetre, kilograms per square centimeter',
  ),
  unit('pressure', 'inHg', '3.386389', INCH, 'in Hg, inches of mercury, inch of mercury'),

  unit('length', 'mm', '1', METRIC, 'mms, millimetre, millimetres, millimeter, millimeters'),
  unit('length', 'cm', '10', METRIC, 'centimetre, centimetres, centimeter, centimeters'),
  unit('length', 'm', '1000', METRIC, 'metre, metres, meter, meters'),
  unit('length', 'µm', '0.001', METRIC, 'um, μm, micron, microns, micrometre, micrometres, micrometer, micrometers'),
  unit('length', 'in', '25.4', INCH, 'inch, inches, ", ″'),
  unit('length', 'thou', '0.0254', INCH, 'thousandth, thousandths, thousandths of an inch, thousandth of an inch'),
  unit('length', 'ft', '304.8', INCH, 'foot, feet, ′'),

  unit('volume', 'mL', '1', METRIC, 'millilitre, millilitres, milliliter, milliliters, mls'),
  unit('volume', 'L', '1000', METRIC, 'litre, litres, liter, liters, ltr, ltrs'),
  unit(
    'volume',
    'cc',
    '1',
    METRIC,
    'ccs, ccm, cm3, cm³, cubic centimetre, cubic centimetres, cubic centimeter, cubic centimeters',
  ),
  unit('volume', 'US fl oz', '29.5735295625', ['us'], 'fl oz US, US fluid ounce, US fluid ounces, US ounce, US ounces'),
  unit('volume', 'US pt', '473.176473', ['us'], 'pt US, US pint, US pints'),
  unit('volume', 'US qt', '946.352946', ['us'], 'qt US, US quart, US quarts'),
  unit('volume', 'US gal', '3785.411784', ['us'], 'gal US, US gallon, US gallons'),
  unit(
    'volume',
    'imp fl oz',
    '28.4130625',
    ['imperial'],
    'fl oz imp, UK fl oz, imperial fl oz, imperial fluid ounce, imperial fluid ounces',
  ),
  unit('volume', 'imp pt', '568.26125', ['imperial'], 'pt imp, UK pt, imperial pt, imperial pint, imperial pints'),
  unit('volume', 'imp qt', '1136.5225', ['imperial'], 'qt imp, UK qt, imperial qt, imperial quart, imperial quarts'),
  unit(
    'volume',
    'imp gal',
    '4546.09',
    ['imperial'],
    'gal imp, UK gal, imperial gal, imperial gallon, imperial gallons',
  ),

  unit('mass', 'g', '1', METRIC, 'gram, grams, gramme, grammes'),
  unit('mass', 'kg', '1000', METRIC, 'kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes'),
  unit('mass', 'mg', '0.001', METRIC, 'milligram, milligrams'),
  unit('mass', 'lb', '453.59237', INCH, 'lbs, pound, pounds, lbm'),
  unit('mass', 'oz', '28.349523125', INCH, 'ounce, ounces, ozm'),

  unit(
    'temperature',
    '°C',
    '1',
    METRIC,
    'C, deg C, degree C, degrees C, celsius, degree celsius, degrees celsius, centigrade, degrees centigrade',
  ),
  unit(
    'temperature',
    '°F',
    '5/9',
    INCH,
    'F, deg F, degree F, degrees F, fahrenheit, degree fahrenheit, degrees fahrenheit',
    '-160/9',
  ),
  unit('temperature', 'K', '1', METRIC, 'kelvin, kelvins', '-273.15'),

  unit('temperature-difference', 'K', '1', METRIC, 'kelvin, kelvins'),
  unit(
    'temperature-difference',
    '°C',
    '1',
    METRIC,
    'C, deg C, degree C, degrees C, celsius, degrees celsius, centigrade',
  ),
  unit('temperature-difference', '°F', '5/9', INCH, 'F, deg F, degree F, degrees F, fahrenheit, degrees fahrenheit'),

  unit('angle', '°', '1', ANY, 'deg, degs, degree, degrees, º'),
  unit('angle', 'turn', '360', ANY, 'turns, rev, revs, revolution, revolutions, rotation, rotations'),

  unit('voltage', 'V', '1', ANY, 'volt, volts, VDC, V DC'),
  unit('voltage', 'mV', '0.001', ANY, 'millivolt, millivolts'),
  unit('voltage', 'kV', '1000', ANY, 'kilovolt, kilovolts'),

  unit('current', 'A', '1', ANY, 'amp, amps, ampere, amperes, A DC, A AC'),
  unit('current', 'mA', '0.001', ANY, 'milliamp, milliamps, milliampere, milliamperes'),
  unit('resistance', 'Ω', '1', ANY, 'ohm, ohms'),
  unit('resistance', 'mΩ', '0.001', ANY, 'milliohm, milliohms'),
  unit('resistance', 'kΩ', '1000', ANY, 'kilohm, kilohms, kiloohm, kiloohms, kohm, k ohms'),
  unit('resistance', 'MΩ', '1000000', ANY, 'megohm, megohms, megaohm, megaohms, meg, megs'),
  unit('charge', 'Ah', '1', ANY, 'amp hour, amp hours, ampere hour, ampere hours, amps hour, A h'),
  unit('charge', 'mAh', '0.001', ANY, 'milliamp hour, milliamp hours, milliampere hour, milliampere hours'),

  unit('turning-speed', 'rpm', '1', ANY, `r/min, ${spellings(REVS, [...A_MINUTE, '/min'])}`),
  unit('turning-speed', '1/min', '1', ANY, 'min⁻¹, min-1, /min'),
  unit('turning-speed', '1/s', '60', ANY, `s⁻¹, rps, ${spellings(REVS, A_SECOND)}`),

  unit('flow', 'L/min', '1', METRIC, spellings(LITRES, A_MINUTE)),
  unit(
    'flow',
    'mL/min',
    '0.001',
    METRIC,
    `${spellings(['millilitre', 'millilitres', 'milliliter', 'milliliters', 'mL'], A_MINUTE)}, cc/min, ccs a minute, cc a minute`,
  ),
  unit('flow', 'L/h', '1/60', METRIC, spellings(LITRES, AN_HOUR)),
  unit('flow', 'm³/h', '50/3', METRIC, `m3/h, m3/hr, ${spellings(CUBIC_METRES, AN_HOUR)}`),
  unit('flow', 'US gal/min', '3.785411784', ['us'], 'US gallons per minute, US gallons a minute, US gpm'),
  unit(
    'flow',
    'imp gal/min',
    '4.54609',
    ['imperial'],
    'imperial gallons per minute, imperial gallons a minute, imp gpm',
  ),
  unit(
    'flow',
    'ft³/min',
    '28.316846592',
    INCH,
    `cfm, ft3/min, ${spellings(['cubic feet', 'cubic foot'], [...A_MINUTE, '/min'])}`,
  ),

  unit('flow', 'L/s', '60', METRIC, spellings(LITRES, A_SECOND)),

  unit('ratio', ':1', '1', ANY, 'to 1, to one'),
  unit('ratio', '%', '1', ANY, 'percent, per cent'),

  unit('power', 'W', '1', ANY, 'watt, watts'),
  unit('power', 'kW', '1000', ANY, 'kilowatt, kilowatts'),
  // 550 ft·lbf/s, of the exact pound and foot. Source: NIST SP 811 (2008), B.8.
  unit('power', 'hp', '745.69987158227022', INCH, 'horsepower, horse'),

  unit('hardness', 'HRC', '1', ANY, 'Rockwell C, C Rockwell, on the Rockwell C scale, Rc'),
  unit('hardness', 'HRB', '1', ANY, 'Rockwell B, HRBW, on the Rockwell B scale'),
  unit('hardness', 'HBW', '1', ANY, 'HB, Brinell, BHN'),
  unit('hardness', 'HV', '1', ANY, 'Vickers'),
  unit('hardness', 'Shore A', '1', ANY, 'on the Shore A scale, A Shore'),
  unit('hardness', 'Shore D', '1', ANY, 'on the Shore D scale, D Shore'),

  unit('count', 'teeth', '1', ANY, ''),
  unit('count', 'links', '1', ANY, 'drive links, chain links'),

  unit(
    'speed',
    'km/h',
    '1',
    METRIC,
    'kph, kmh, kmph, kilometres per hour, kilometers per hour, kilometres an hour, kilometers an hour, km per hour, km an hour, k an hour, ks an hour, kay an hour, k per hour, kay per hour',
  ),
  unit('speed', 'mph', '1.609344', INCH, 'mi/h, miles/h, miles per hour, miles an hour, mile per hour'),
  unit('speed', 'ft/min', '0.018288', INCH, 'feet per minute, feet a minute, foot per minute, sfm, fpm'),
  unit('speed', 'm/min', '0.06', METRIC, 'metres per minute, meters per minute, metres a minute, meters a minute'),
  unit('speed', 'm/s', '3.6', METRIC, 'metres per second, meters per second, metres a second, meters a second'),

  unit('time', 'ms', '0.001', ANY, 'millisecond, milliseconds, msec'),
  unit('time', 's', '1', ANY, 'sec, secs, second, seconds'),
  unit('time', 'min', '60', ANY, 'mins, minute, minutes'),
  unit('time', 'h', '3600', ANY, 'hr, hrs, hour, hours'),
  unit('time', 'day', '86400', ANY, 'days, d'),
  unit('time', 'week', '604800', ANY, 'weeks, wk, wks'),
  unit('time', 'month', '2628000', ANY, 'months, mo, mos, mth, mths'),
  unit('time', 'year', '31536000', ANY, 'years, yr, yrs'),

  unit('distance', 'km', '1', METRIC, 'kms, kilometre, kilometres, kilometer, kilometers'),
  unit('distance', 'mi', '1.609344', INCH, 'mile, miles'),
];

/** The units a kind may be written in, the base unit first. */
export function unitsOf(kind: SimpleKind): readonly Unit[] {
  return UNITS.filter((each) => each.kind === kind);
}

const bySymbol = new Map(UNITS.map((each) => [`${each.kind} ${each.symbol}`, each]));

/**
 * The unit with a symbol.
 *
 * @param symbol as the table prints it
 * @throws RangeError when the kind has no such unit; `findUnit` reads what people write
 */
export function unitOf(kind: SimpleKind, symbol: string): Unit {
  const found = bySymbol.get(`${kind} ${symbol}`);
  if (!found) throw new RangeError(`${symbol} is no unit of ${kind}`);
  return found;
}
