import { type SimpleKind, type Unit, unitOf } from '../spec/index.ts';
import type { Bare } from './bare.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** Numbers of one size, of what is told in one unit. */
interface Scale {
  readonly units: readonly [Unit, ...Unit[]];
  readonly least: number;
  readonly most: number;
  /** Only decimals, or only whole numbers, are told in it. */
  readonly only?: 'decimals' | 'whole';
}

/** What the talk is of, where it says the unit of a number that has none. */
interface Topic {
  readonly named: RegExp;
  readonly scales: readonly Scale[];
  /** What stands right before the number. */
  readonly behind?: RegExp;
  /** What stands right behind it. */
  readonly ahead?: RegExp;
  /** A unit said before tells more. */
  readonly weak?: true;
}

const scale = (kind: SimpleKind, symbol: string, least: number, most: number, only?: 'decimals' | 'whole'): Scale => ({
  units: [unitOf(kind, symbol)],
  least,
  most,
  ...(only ? { only } : {}),
});
const HEAT = (least: number, most: number): Scale => ({
  units: [unitOf('temperature', '°C'), unitOf('temperature', '°F')],
  least,
  most,
});
const MM = (least: number, most: number, only?: 'decimals' | 'whole') => scale('length', 'mm', least, most, only);
const of = (named: RegExp, ...scales: readonly Scale[]): Topic => ({ named, scales });

/** An instrument, or a thing that is told in one unit only, by the size of the number. Common practice, no source. */
const TOPICS: readonly Topic[] = [
  of(/\b(?:hub|dropout|axle|frame|rear) spacing\b|^\W*(?:so )?spacing\b/, MM(90, 200)),
  of(
    /\b(?:plug|spark|electrode|points?) gaps?\b|\bgap (?:it|the plug|them)\b/,
    scale('length', 'in', 0.01, 0.08, 'decimals'),
    MM(0.2, 1.6, 'decimals'),
    scale('length', 'thou', 10, 60, 'whole'),
  ),
  of(
    /\b(?:chain|belt|clutch|throttle|cable) (?:slack|free ?play|tension)\b|\b(?:slack|sag)['’]s\b/,
    MM(15, 60, 'whole'),
  ),
  of(/\b(?:reach|stack|wheelbase)\b(?! for)/, MM(300, 1500, 'whole')),
  of(/\bchain ?line\b/, MM(38, 60)),
  {
    named:
      /\b(?:taper|run-?out|end (?:play|float)|gaps?|clearances?|valves?|tappets?|free length|backlash|ovality|parallel|projection|protrusion|depth gauges?|rakers?|(?:in|out)feed|fence|guides|knife|knives)\b/,
    scales: [MM(0.01, 60, 'decimals')],
    weak: true,
  },
  of(/\b(?:brake )?(?:pads?|linings?|shoes)\b/, MM(1, 12)),
  of(/\btread\b/, MM(1, 12)),
  of(
    /\b(?:sockets?|switch(?:es)?|outlets?)\b.*\b(?:floor|heights?)\b|\bheights?\b.*\b(?:sockets?|switch(?:es)?|outlets?)\b/,
    MM(300, 1500, 'whole'),
  ),
  {
    named: /./,
    scales: [MM(0.005, 3, 'decimals')],
    behind: /\b(?:low|high|proud|out|off|shy|cupped|bowed) by(?: about)?\s+$/,
  },
  {
    named: /./,
    scales: [scale('angle', '°', 15, 60)],
    behind: /\b(?:grind|ground|hone|honed|(?<!\b(?:low|high) )cut|cutting)(?: it| them| that)? at(?: about)?\s+$/,
  },
  of(
    /\b(?:top plate|side plate|filing|grinding|sharpening|hook|rake|bevel|mitre|miter|fleam|seat tube|head tube|cutting) angles?\b/,
    scale('angle', '°', 3, 90),
  ),
  of(/\b(?:clamp meter|clamp-?on|ammeter|i clamp it|clamped round)\b/, scale('current', 'A', 0.5, 200)),
  {
    named:
      /\b(?:breaker|circuit|heater|fuse|cable|motor|oven|shower|kettle|compressor|welder|load|socket|appliance)s?\b/,
    scales: [scale('current', 'A', 0.5, 100)],
    behind:
      /\b(?:pulling|drawing|pulls|draws|drew|pulled)(?: (?:about|around|maybe|nearly|only|over|up to|a good))*\s+$/,
  },
  of(/\b(?:table|fence|jointer) (?:to|and) (?:the )?(?:blade|fence|table)\b/, scale('angle', '°', 89, 91)),
  { named: /./, scales: [MM(100, 6000, 'whole')], ahead: /^ (?:wide|long|thick|deep|high|tall|across)\b/, weak: true },
  {
    named: /./,
    scales: [MM(0.01, 3, 'decimals')],
    ahead: /^ (?:below|above|proud|behind|ahead|high|low|out|shy|under|over)\b/,
    weak: true,
  },
  { named: /./, scales: [scale('current', 'A', 0.1, 200)], behind: /\bcurrent(?:['’]s| is)(?: about)?\s+$/ },
  of(/\b(?:watt-?meter|plug-in meter|energy meter|power meter)\b/, scale('power', 'W', 0.5, 4000)),
  of(/\b(?:moisture meter|hygrometer|moisture(?: content)?|humidity)\b/, scale('ratio', '%', 4, 100)),
  of(/\b(?:across the battery|battery voltage|cranking|voltmeter)\b/, scale('voltage', 'V', 9, 60)),
  of(/\b(?:battery|batteries|charging|alternator|charger)\b/, scale('voltage', 'V', 9, 60, 'decimals')),
  of(/\b(?:megger|insulation (?:test|resistance|tester))\b/, scale('resistance', 'MΩ', 0.2, 1000)),
  of(
    /\b(?:primary|pick-?up coil|stator|field coil|rotor winding|windings?)\b/,
    scale('resistance', 'Ω', 0.05, 20, 'decimals'),
  ),
  of(/\bcompression(?:['’]s)?\b(?! (?:ratio|ring|fitting))/, scale('pressure', 'psi', 30, 300)),
  of(
    /\b(?:regulator|air ?line|line pressure|tank pressure|air pressure)\b/,
    scale('pressure', 'psi', 20, 200, 'whole'),
  ),
  of(/\b(?:fork oil|sealant)\b(?! (?:level|height))/, scale('volume', 'mL', 20, 1500, 'whole')),
  of(
    /\b(?:engine oil|oil capacity|coolant capacity|sump holds)\b/,
    scale('volume', 'L', 0.3, 9, 'decimals'),
    scale('volume', 'mL', 200, 2000, 'whole'),
  ),
  {
    named:
      /\b(?:thermostat|stat|immersion|boiler|oven|hot water|water heater|heat gun|soldering iron|kiln|hot plate)\b/,
    scales: [HEAT(15, 700)],
    behind:
      /\b(?:set|turned|up|down|back)(?: (?:it|that|them|mine))?(?: (?:to|at))(?: about)?\s+$|\b(?:thermostat|stat|gun|iron|oven)(?:['’]s| is)? (?:\w+ )?(?:to|at)\s+$|\bscalded at\s+$/,
  },
  {
    named: /\b(?:mixture|pilot|idle|needle|jet|low speed|high speed|air) ?screws?\b|\bjets?\b|\bseats\b/,
    scales: [scale('angle', 'turn', 0.5, 6)],
    behind: /\b(?:back|wind|turn|screw|open)(?: it| that| them)? (?:back )?(?:out|open)(?: about)?\s+$/,
  },
  {
    named: /./,
    scales: [scale('angle', '°', 5, 60)],
    behind: /\b(?:micro-?bevel|bevel|rake|hook|fleam)(?:['’]s| is)?(?: about)?\s+$/,
  },
  {
    named: /./,
    scales: [MM(200, 1500, 'whole')],
    ahead: /^ (?:up |down )?(?:off|from|above|below) the (?:finished )?(?:floor|ceiling|worktop|counter)\b/,
  },
  {
    named:
      /\b(?:bevel|mitre|miter|tilt|tilted|protractor|angle (?:finder|gauge)|trunnions?|(?:hook|rake)(?: angle|['’]s| is| of)|kickback angle)\b/,
    scales: [scale('angle', '°', 10, 90)],
    behind:
      /(?:\b(?:says|reads|reading|shows|showing|at|actually|is|be)|['’]s)(?: (?:about|exactly|dead|bang on))?\s+$/,
  },
  {
    named: /\b(?:carb|carburet+ors?|needles?|jets?|mixture|pilot)\b/,
    scales: [scale('angle', 'turn', 0.25, 6)],
    ahead: /^ (?:out|open)\b|^ (?:on the )?(?:low|high)(?: side)?\b/,
  },
];
/** Units that the talk is of, instead. */
const OTHERWISE =
  /\b(?:mm|mils?|millimet(?:re|er)s?|inch(?:es)?|thou|teeth|milliamps?|amps?|volts?|watts?|ohms?|megs?|megohms?|kilowatts?|percent|psi|bar|rpm|turns?|degrees|hundred|thousand|minutes?|hours?)\b/;

/** `Clamp meter on the tail... twelve point seven`: what the talk is of says the unit. */
export function unitOfTopic({ low, high, said, to }: Bare, talked: string, since = false): UnitHeard | undefined {
  const size = Math.abs(high?.value ?? low.value);
  const whole = Number.isInteger(low.value) || (low.denominator ?? low.parts) !== undefined;
  if (OTHERWISE.test(talked)) return undefined;
  for (const { named, behind, ahead, scales, weak } of TOPICS) {
    if (
      (weak && since) ||
      !named.test(talked) ||
      !(behind?.test(said.before) ?? true) ||
      !(ahead?.test(said.after(to)) ?? true)
    )
      continue;
    const fits = scales.find(
      ({ least, most, only }) => size >= least && size <= most && only !== (whole ? 'decimals' : 'whole'),
    );
    if (!fits) continue;
    const [unit, ...others] = fits.units;
    const heard = unitHeard(unit, to, true);
    return others.length === 0 ? heard : { ...heard, symbol: '°', readings: fits.units };
  }
  return undefined;
}

/** `the rip's thirteen and five eighths`: nobody says eighths of anything else that is not turned. */
export function inEighths({ low, to, said }: Bare): UnitHeard | undefined {
  const turned = /\b(?:turns?|turned|carb\w*|screws?|needles?|jets?|hours?|miles?|gallons?|pounds?)\b/.test(
    `${said.earlier} ${said.before}`,
  );
  return [8, 16, 32, 64].includes(low.parts ?? 0) && !turned ? unitHeard(unitOf('length', 'in'), to, true) : undefined;
}
