import { unitOf } from '../spec/index.ts';
import { anyOf } from './patterns.ts';
import type { Said } from './said.ts';
import type { UnitHeard } from './unit-spoken.ts';

/** What is tilted or turned, and by what it is measured. */
const TILTED =
  'square bevel\\w* tilt\\w* fence mitre miter vertical plumb parallel angle angles rake fleam hook chamfer camber caster lean swing filing file';
const TURNED = String.raw`turn(?!\s(?:it|them|that)\s(?:up|down|on|off)) turned rotate steer timing advance`;
const ANGLE = new RegExp(`\\b(?:${anyOf(TILTED, TURNED)}|before top|top plate|newton met(?:re|er)s|foot-?pounds)\\b`);

const HOT =
  'heat heats heated hot hotter warm warms warmer cold cool cools cooled temp temps temperature temperatures thermal overheat\\w* scald\\w* preheat\\w* celsius fahrenheit centigrade';
const DONE_BY_HEAT =
  'boil boils boiling boiled melt melts flash\\w* freez\\w+ cures? soldering temper\\w* anneal\\w* steam weld welds welded welding cook cooks cooked cooking bak\\w+ soak\\w* ultrasonic simmer\\w* burns? blisters? interpass cut-?out wash store storing stored';
const HEATS =
  'oven wax pot boiler radiator radiators rad kettle kiln grill hob fryer fuser sole-?plate nozzle bed hotend extruder immersion infrared heater';
const GETS_WARM =
  'fan fridge chiller tank tap bearings? housing windings? coolant antifreeze glue epoxy resin ink battery batteries soil exhaust';
const TELLS_HEAT = 'thermostat stat thermometer thermistor probe sensor camera imager shutdown';
const WEATHER = 'ambient outside room weather winter summer overnight garage tonight frost frosty forecast';
const HEAT = new RegExp(
  `\\b(?:${anyOf(HOT, DONE_BY_HEAT, HEATS, GETS_WARM, TELLS_HEAT, WEATHER)}|water heater|hot water|group head|legionella|water into|into (?:the|that) water|soldering|motor casing|in here|out there|in the (?:shop|shed|workshop)|(?:flow|return)(?:['’]s)?)\\b`,
);
/** The talk was of heat before this sentence. */
const HEATED = /\b(temp|temps|temperatures?|oven|boiler|thermostat|celsius|fahrenheit|centigrade)\b/;
const OF_HEAT =
  /\b(oil|fluid|water)( is| gets| reaches| comes (?:in|out)| goes (?:in|out))?( at| to)?( about| around)?\s+$/;
/** What rises or drops by degrees does so in heat. */
const BY_SO_MUCH =
  /\b(?:dropped|drops?|fell|falls?|fallen|rises?|rose|risen|raised|cooled|warmed)(?: (?:it|down|up))?(?: by| below| under| to)?(?: about| around| only)?\s+$/;
/** `that wire gets to seventy degrees`. */
const GETS_TO =
  /\b(?:wires?|cables?|terminals?|insulation|motors?|engine|cylinder|head|brake|rotor|disc|belt)\b[^;]* (?:gets|got|get|reach\w*|hits?|runs|ran|up) (?:up )?(?:to |at )?(?:about )?$/;
/** `the wiring's good for ninety degrees`. */
const RATED_FOR =
  /\b(?:wir(?:e|es|ing)|cables?|terminals?|insulation|conductors?|lugs?)\b[^;]* (?:good for|rated (?:for|at|to)|rated)(?: only)? $/;
/** What a thermostat does there. */
const SWITCHES = /\b(?:cuts?|kicks?|switches) (?:in|out|off|on)\b/;
/** What was spoken of before is told by its heat. */
const STAYS_HOT = /\b(?:immersion|thermostat|thermometer|thermal|infrared)\b/;
/** Nothing is tilted by more; what is turned further is turned by right angles. */
const MOST_TILTED = 180;

/** Degrees are an angle, unless the talk is of heat: then the scale stays open. */
export function degrees(angle: UnitHeard, said: Said, value: number): UnitHeard {
  const rest = said.after(angle.to).slice(0, 40);
  if (ANGLE.test(said.before) || /^ on the (?:file |filing |angle )?(?:guide|fence|protractor|jig)\b/.test(rest))
    return angle;
  const hot =
    OF_HEAT.test(said.before) ||
    HEAT.test(said.before) ||
    HEAT.test(rest) ||
    (value >= 50 && value !== 90 && GETS_TO.test(said.before)) ||
    (value >= 50 && RATED_FOR.test(said.before)) ||
    BY_SO_MUCH.test(said.before) ||
    /\b(?:minutes|hours?) at (?:about )?$/.test(said.before) ||
    SWITCHES.test(rest) ||
    /\bohms?\b/.test(rest) ||
    HEATED.test(said.earlier) ||
    (STAYS_HOT.test(said.earlier) && !ANGLE.test(said.earlier));
  if (!hot && (value <= MOST_TILTED || value % 90 === 0)) return angle;
  const kind = isDifference(said, angle.to) ? 'temperature-difference' : 'temperature';
  return { ...angle, kind, readings: [unitOf(kind, '°C'), unitOf(kind, '°F')] };
}

const HEDGES = '(?: about| around| only| nearly)?';
/** How far a thermostat lets it stray. */
const STRAYS = "(?:diff|differential|hysteresis|dead ?band)(?:['’]s| is| of)?";
/** What may stand between a difference and how much it is. */
const BETWEEN =
  '(?: (?:is|are|of|under|below|over|above|within|about|around|only|at|no|not|should|must|may|be|stay|less|more|than|most|least)){0,5}';
/** `keep the difference under`, `a rise of`, `drops by`, `it's dropped`; what rises above a temperature is one itself. */
const DIFFERENCE = new RegExp(
  `\\b(?:${STRAYS}${HEDGES}|differences?(?: between [^,;:]{1,30})?${BETWEEN}|(?:rise|drop|fall|increase|decrease|spread)(?: is| of)${HEDGES}|(?:rises?|rose|risen|drops?|dropped|falls?|fell|fallen|differs?|up|down|cooled|warmed)(?: down| up)? by${HEDGES}|(?:it['’]s|has|have|they['’]ve|had) (?:dropped|fallen|risen|cooled|warmed)${HEDGES})\\s+$`,
);

/** True for degrees that tell how far two temperatures are apart. */
export function isDifference({ before, after }: Said, to: number): boolean {
  return (
    /^\W*(of |degrees )?(difference|apart|hotter|colder|cooler|warmer|rise|drop|(?:above|over|below) (?:the )?(?:room|ambient|outside|air))\b/.test(
      after(to),
    ) || DIFFERENCE.test(before)
  );
}
