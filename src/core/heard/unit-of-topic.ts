import { type Unit, unitOf } from '../spec/index.ts';
import type { Bare } from './bare.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** What the talk is of, where it says the unit of a number that has none. */
interface Topic {
  readonly named: RegExp;
  readonly units: readonly [Unit, ...Unit[]];
  /** The smallest whole number, and the largest number, that is one of its values; fewer may be things. */
  readonly least: number;
  readonly most: number;
  /** What stands right before the number. */
  readonly behind?: RegExp;
}

/** An instrument, or a thing that is told in one unit only. Common practice, no source. */
const TOPICS: readonly Topic[] = [
  { named: /\b(?:hub|dropout|axle|frame) spacing\b/, units: [unitOf('length', 'mm')], least: 90, most: 200 },
  {
    named: /./,
    units: [unitOf('angle', '°')],
    least: 15,
    most: 60,
    behind: /\b(?:grind|ground|hone|honed)(?: it| them| that)? at(?: about)?\s+$/,
  },
  {
    named: /\b(?:clamp meter|clamp-?on|ammeter|i clamp it|clamped round)\b/,
    units: [unitOf('current', 'A')],
    least: 5,
    most: 200,
  },
  {
    named: /\b(?:watt-?meter|plug-in meter|energy meter|power meter)\b/,
    units: [unitOf('power', 'W')],
    least: 5,
    most: 4000,
  },
  { named: /\b(?:moisture meter|hygrometer)\b/, units: [unitOf('ratio', '%')], least: 5, most: 100 },
  {
    named: /\b(?:across the battery|battery voltage|cranking|voltmeter)\b/,
    units: [unitOf('voltage', 'V')],
    least: 9,
    most: 60,
  },
  { named: /\bcompression(?:['’]s)?\b/, units: [unitOf('pressure', 'psi')], least: 30, most: 300 },
  {
    named: /\b(?:thermostat|stat|immersion|boiler|oven|hot water|water heater)\b/,
    units: [unitOf('temperature', '°C'), unitOf('temperature', '°F')],
    least: 15,
    most: 500,
    behind:
      /\b(?:set|turned|up|down|back)(?: (?:it|that|them|mine))?(?: (?:to|at))(?: about)?\s+$|\b(?:thermostat|stat)(?:['’]s)? (?:set )?(?:to|at)\s+$|\bscalded at\s+$/,
  },
  {
    named: /\b(?:mixture|pilot|idle|needle|jet|low speed|high speed|air) ?screws?\b|\bjets?\b|\bseats\b/,
    units: [unitOf('angle', 'turn')],
    least: 1,
    most: 6,
    behind: /\b(?:back|wind|turn|screw|open)(?: it| that| them)? (?:back )?(?:out|open)(?: about)?\s+$/,
  },
  {
    named:
      /\b(?:bevel|mitre|miter|tilt|tilted|protractor|angle (?:finder|gauge)|trunnions?|hook|rake|kickback angle)\b/,
    units: [unitOf('angle', '°')],
    least: 10,
    most: 90,
    behind:
      /(?:\b(?:says|reads|reading|shows|showing|at|actually|is|be)|['’]s)(?: (?:about|exactly|dead|bang on))?\s+$/,
  },
];
/** Units that the talk is of, instead. */
const OTHERWISE =
  /\b(?:mm|mils?|millimet(?:re|er)s?|inch(?:es)?|thou|teeth|milliamps?|amps?|volts?|watts?|ohms?|megs?|megohms?|kilowatts?|percent|psi|bar|rpm|turns?|degrees|hundred|thousand|minutes?|hours?)\b/;

/** `Clamp meter on the tail... twelve point seven`: what the talk is of says the unit. */
export function unitOfTopic({ low, said, to }: Bare): UnitHeard | undefined {
  const talked = `${said.earlier} ${said.before}`;
  const topic = TOPICS.find(({ named, behind }) => named.test(talked) && (behind?.test(said.before) ?? true));
  const size = Math.abs(low.value);
  if (!topic || size < 0.5 || size > topic.most || OTHERWISE.test(`${talked} ${said.after(to)}`)) return undefined;
  const decimal = !Number.isInteger(low.value) && low.denominator === undefined;
  if (!(decimal || low.value < 0 || low.value >= topic.least)) return undefined;
  const [unit, ...others] = topic.units;
  const heard = unitHeard(unit, to, true);
  return others.length === 0 ? heard : { ...heard, symbol: '°', readings: topic.units };
}
