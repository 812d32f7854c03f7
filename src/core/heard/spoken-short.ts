import { type SimpleKind, unitOf } from '../spec/index.ts';
import type { Said } from './said.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

const PRESSURE =
  /\b(pressures?|tyres?|tires?|inflate\w*|pump(ed)?|psi|deflate\w*|air up|aired|compressor|regulator|(?:drop|lower|raise|set|put) the air|sprayer|spray gun|compression|(?<!\b(?:an|by|in the) )air,|popped off|pop-?off|sidewalls?|decompressor|what['’]s she running|reseat\w*|needle and seat|diaphragm|crankcase|(?<!\b(?:an|by) )air (?:at|in|to|line|hose|down))\b/;
/** Straight after: `thirty pounds in the front tyre`, `thirty pounds cold`. */
const INFLATED =
  /^\W*on (?:the|my|your) (?:\w+ )?(?:gauge|tester)\b|^\W*((in|for|at)\s+)?((the|both|each|all)\s+)?((front|rear|back)\s+)?(tyres?|tires?|cold\b|hot\b|all (a?round)\b|pressure)|^\W*(in|for|at)\s+(the\s+)?(front|rear|back)\b(?! of)/;
const PUSH = /\b(pull|pulls|push|pushes|press|presses|preload|force|tension|squeeze|tug|load|deflect\w*|spring)\b/;
const WEIGHT =
  /\b(weigh\w*|mass|heavy|heavier|lift\w*|carr(y|ies)|rack|shelf|toolbox|payload|chandelier|fixture|casting|balance weights?|lighter|hang|cabinet|blank|log|bale|kit weight)\b/;
/** Of somebody, and of how a thing is weighed. */
const SOMEBODY = /\b(she|he)('s|’s| is| was)( (a|about|around|only|over|under|nearly))*\s+$/;
/** What is said of a burden: `so bring a friend`, `with her kit on`, `mind your back`. */
const BURDEN =
  /^[^.;]{0,60}\b(bring (a|your) (friend|mate|helper)|two (of (us|you)|people)|(a|your) back\b(?! (wheel|tyre|tire|brake))|by yourself|on your own|to lift|heavy|(her|his|my|your|their) (kit|gear|leathers|boots)|with (kit|gear|luggage|fuel)|fully loaded|ready to ride|dry|wet|soaking)\b/;
const FASTENED = /\b(bolts?|nuts?|screws?|studs?|plugs?|caps?|torque\w*|tighten\w*|snug|set)\b/;
const OF_A_THING =
  /(?:\b(?:rated|is|was|are|were|weigh\w*|good for|thing|another)|['’]s)(?: (?:about|around|only|over|nearly|a good|at|for|like))*\s+$/;
/** Pounds that are paid: what is new, or cheap. */
const BOUGHT = /\b(?:a new (?:one|set|pair)|replacements?|cheap\w*|expensive|dear|dearer|price|quid|money)\b/;
/** Pounds that are paid. */
const MONEY =
  /\b(?:costs?|paid|pays?|paying|prices?|priced|spend|spent|sells?|sold|bought|buys?|quid|pence|bill|invoice|charged?|cheap\w*|worth|saves?|saved)\b[^.;]*$/;
const PAID =
  /^\W*(?:each|apiece|a (?:pop|go|day|metre|meter|foot|litre|pair|set|box|piece)|an? hour|plus vat|from|sterling)\b/;
/** Ounces of what is poured, or said beside another volume. */
const OF_LIQUID =
  /\b(pour\w*|fill\w*|refill\w*|drain\w*|holds|sealant|oil|fuel|coolant|fluid|quarts?|pints?|gallons?|lit(re|er)s?|millilit(re|er)s?|mls?|ccs?|capacity|crankcase|sump|tank)\b/;
const FLUID =
  /^\W*of\s+([\w-]+\s+){0,2}(\w+-w-?\w+|oil|fluid|coolant|fuel|petrol|gasoline|water|additive|cleaner|solvent|stabili[sz]er|degreaser)\b/;

/** `an ounce for every two gallons`, `two ounces to the litre`. */
const TO_A_VOLUME =
  /^\W*(to|per|for|in|into)\s+(?:(?:a|an|the|one|each|every)\s+)?(?:(?!and\b(?! a (?:half|quarter))|then\b)[\w.½¼¾/-]+\s+){0,5}?(gallons?|lit(re|er)s?|quarts?|pints?)\b/;

/**
 * Pounds and ounces, by what is said of them. Of a torque they stay unknown: nobody says which pounds.
 */
export function poundsOrOunces(
  key: string,
  to: number,
  plural: boolean,
  { before, earlier, after }: Said,
): UnitHeard | undefined {
  const next = after(to);
  const reading = (kind: SimpleKind, ...symbols: string[]): UnitHeard => ({
    symbol: symbols.length > 1 ? 'oz' : (symbols[0] ?? ''),
    kind,
    readings: symbols.map((symbol) => unitOf(kind, symbol)),
    to,
    plural,
  });
  if (/^o/.test(key)) {
    if (
      FLUID.test(next) ||
      TO_A_VOLUME.test(next) ||
      /^, [^.;]{0,25}\b(?:oil|fluid|sealant|coolant|fuel)\b/.test(next) ||
      (OF_LIQUID.test(before) && !WEIGHT.test(before) && !/^\W*of\b/.test(next))
    )
      return reading('volume', 'US fl oz', 'imp fl oz');
    return /^\W*of\s+(force|pressure|torque)\b/.test(next) ? undefined : reading('mass', 'oz');
  }
  if (/^\W*of\s+(torque|twist)\b/.test(next) || /\btorque/.test(before)) return undefined;
  if (/^\W*(of\s+(\w+\s+)?(force|pull|push|tension|preload|load|weight on|effort|drag)|pull|push|preload)\b/.test(next))
    return reading('force', 'lbf');
  if (/^\W*of\s+pressure\s+(on|at|against)\s+(the\s+)?(\w+\s+)?(pedal|lever|rod|end|arm|shaft|handle)\b/.test(next))
    return reading('force', 'lbf');
  if (/^\W*of\s+(\w+\s+)?(pressure|air|boost|vacuum)\b/.test(next) || PRESSURE.test(before) || INFLATED.test(next))
    return reading('pressure', 'psi');
  // The same in other units: `two kilos, four and a half pounds`.
  if (/\b(kilos?|kilograms?)(,| or| that['’]s)[^.;]{0,12}$/.test(before)) return reading('mass', 'lb');
  if (SOMEBODY.test(before)) return reading('mass', 'lb');
  // The same pull, said in newtons before.
  if (PUSH.test(before) || /\bnewtons\b(?! ?-?met)/.test(before)) return reading('force', 'lbf');
  if (/\bholds?\s+$/.test(before) || (BURDEN.test(next) && !FASTENED.test(before))) return reading('mass', 'lb');
  if (WEIGHT.test(before) || /^\W*of\s+\w+/.test(next) || WEIGHT.test(next.slice(0, 30))) return reading('mass', 'lb');
  // `that bandsaw's three hundred and forty pounds`: said of a thing, it is what that weighs.
  if (
    !OF_A_THING.test(before) ||
    FASTENED.test(before) ||
    MONEY.test(before) ||
    PAID.test(next) ||
    BOUGHT.test(before + next)
  )
    return undefined;
  return PRESSURE.test(earlier) || /\btorque|\bpounds?\b/.test(earlier) ? undefined : reading('mass', 'lb');
}

const POURED =
  /\b(pour\w*|inject(?:s|ed|ing)?|squirt\w*|syringe|draw(?! (?:it|them) (?:back|out))|drew|suck\w*|drain\w*|fill\w*|top(ped)? (it )?up|add(s|ed)?|holds|goes in|mix(?!er)\w*|bleed)\b[^,;]*$|\b(sealant|fork oil|brake fluid|two-stroke oil|bar oil|cupful|capful|jugful|stabili[sz]er|additive|antifreeze)\b[^;.]*$/;
/** `Sealant. Sixty mil in a gravel tyre`: named in a sentence of its own. */
const FLUID_NAMED = /(^\s*|[.!?]\s)(so |now |and )?(the )?(sealant|brake fluid|(?:[a-z-]+ )?oil|coolant)[.!?,:]\s*$/;
const ACROSS = /\b(gap|depth|level|height|clearance|distance)\b/;
const LIQUID =
  /^\W*(of\s+(?!the\b)(\w+\s+){0,2}(oil|fluid|coolant|fuel|petrol|gasoline|water|additive|cleaner|solvent|sealant|antifreeze|liquid|thinner|paint)|(in|into) (the|a|your|each) (syringe|cup|jug|bottle|tank|sump|fork|leg|tyre|tire|crankcase)\b|(it|that|this|she) (holds|takes)\b|for (the )?(fuel|oil|petrol|gas|water|coolant|sealant)\b|(syringe|bottle|can|jug|beaker|cup|tub|tube)s?)\b/;

/** Lengths are not said in hundreds of these, fills are: `six hundred mil a side`. */
const FILL = /^\W*(of|a|per|each|in each|in either|either|in) (the )?\w+/;
const MUCH = 100;
/** What a length is of: `a hundred and fifty mil of tail`. */
const OF_A_LENGTH =
  /^\W*of (the )?(\w+ )?(tail|travel|clearance|cable|wire|conduit|flex|pipe|hose|post|seatpost|steerer|stroke|slack|play|thread|drop|overlap|insertion|cover|space|room|gap|timber|board|wood|rope|chain|stickout|sheath|insulation|deflection|snipe|sag|float|lift|end float|meat|movement|reach|overhang|fall|drop|set)\b|^\W*(of|off|from|below|above|behind) (the|a|an|your|each|its|that|this)\b|^\W*(out|away|back|up|down|apart|across|clear|proud)\b/;

const MOST_MILS = 50;
const COATED = /\b(?:coats?|films?|varnish|lacquer|finish|paint|layer|tape|plastic|sheeting)\b/;

/** `two mil`: millilitres of what is poured, else millimetres; in inches a mil is a thousandth. */
export function mil(key: string, to: number, value: number, { before, earlier, after }: Said): UnitHeard | undefined {
  if (/^\W*(a|per) min(ute)?\b/.test(after(to))) return unitHeard(unitOf('flow', 'mL/min'), to + 2, true);
  // `point seven two of a mil`: nobody measures a drop so.
  const partOfOne = /\bof a\s+$/.test(before) || value < 1;
  // `within six hundred mil of where it comes in`.
  const near = /\bwithin (?:about )?$/.test(before) && key === 'mil';
  if (near) return unitHeard(unitOf('length', 'mm'), to, false);
  if (
    LIQUID.test(after(to)) ||
    TO_A_VOLUME.test(after(to)) ||
    (value >= MUCH && /\b(takes|holds|drinks)( about)?\s+$/.test(before) && !OF_A_LENGTH.test(after(to))) ||
    (value >= MUCH && OF_LIQUID.test(`${earlier} ${before}`) && !ACROSS.test(before) && !OF_A_LENGTH.test(after(to))) ||
    (value >= MUCH &&
      (key === 'mils' || FILL.test(after(to))) &&
      !ACROSS.test(before) &&
      !OF_A_LENGTH.test(after(to))) ||
    (!partOfOne &&
      (POURED.test(before) || FLUID_NAMED.test(earlier) || FLUID_NAMED.test(before)) &&
      !ACROSS.test(before) &&
      !OF_A_LENGTH.test(after(to)) &&
      !/^\W*(of (\w+ )?(play|slack|sag|gap)|deep|thick|long|wide)\b/.test(after(to)))
  )
    return unitHeard(unitOf('volume', 'mL'), to, key === 'mils');
  // `three mils each, wet`: how thick a coat is.
  if (key === 'mils' && COATED.test(`${earlier} ${before} ${after(to)}`))
    return unitHeard(unitOf('length', 'thou'), to, true);
  // `ninety mils in the front`: nobody counts so many thousandths of an inch.
  if (key === 'mils' && value >= MOST_MILS) return unitHeard(unitOf('volume', 'mL'), to, true);
  if (key === 'mils') return undefined;
  const readings = [unitOf('length', 'mm'), unitOf('length', 'thou')];
  return { symbol: 'mm', kind: 'length', readings, to, plural: false };
}
