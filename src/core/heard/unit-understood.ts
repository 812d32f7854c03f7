import { unitOf } from '../spec/index.ts';
import { bareAt } from './bare.ts';
import type { NumberRead } from './number-read.ts';
import type { Said } from './said.ts';
import { numberAfter } from './second-number.ts';
import type { Talk } from './talk.ts';
import { type Token, textAt } from './tokens.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** Ways a thing is measured along, and from what. */
const ALONG =
  /^(thick|wide|deep|high|long|tall|across|proud|shy|over|under|above|below|past|inside|outside|short|shallow|lower|higher|longer|shorter|thicker|thinner|wider|narrower|oversized?|undersized?|behind|ahead|clear)$/;
/** How much is taken off, or is left. */
const TAKEN_OFF =
  /^\W*(at a time|per (pass|side|end)|a (pass|side)|each (pass|side|end|way)|off|proud|from (the|each|either|its)|(up|down|in|out) (the|each)|(of [\w'’-]+( [\w'’-]+)? )?(left|remaining|showing|to go))\b/;
/** `of play`, `of material`: what is measured by it. */
const OF_LENGTH =
  /^\W*of (\w+ )?(shiny|play|slack|clearance|gap|travel|movement|lift|overhang|stickout|reveal|slop|deflection|runout|material|meat|stock|tread|lining|tooth|cutter|wood|thread|copper|conductor|sheath|jacket|insulation|exposed|overlap|set-?back)\b/;
/** Someone does it by so much: `raise it an eighth`, `no more than a sixteenth`. */
const BY_SO_MUCH =
  /\b(by|about|than|within|only|just|at least|at most|another|take|taking|leave|raise|lower|want|maybe|roughly|under|over|to)( a| an| the)? ?$/;
const TURNS =
  /\b(turn(?:s|ing)?|spins?|spinning|idles?|idling|idle|ticks? over|revs?|revving|revved|(?:disc|sander|grinder|buffer|mop|wheel) at(?= )|runs?|running|governed|governor|tops? out|maxe[sd] out|wide[- ]open|full throttle|flat out|redlines?|lathe|router|spindle|drill(?: press)?|cutterhead|grinder|speed|tach|tachometer|horsepower|kilowatts)\b(?: (?!years?\b|since\b)[\w'’-]+[,:]?|:){0,7}? (?:is |are |be |at|to|gives you|around|about|near|down to|up to|like|says|reads|of|for|over|under|above|below|past|beyond)(?: (?:at|about|around|nearly|roughly|like|maybe))*\s*$/;
/** Nothing said to turn at fewer is said in revolutions a minute without them. */
const SLOWEST = 400;
const FASTEST = 40_000;
const ENDS =
  /^(and|but|or|so|is|with|when|while|in|on|at|for|if|cold|hot|before|after|then|now|it|you|we|i|no|max|maximum|tops|flat|wide|unloaded|under|without|['’]s|that|that['’]s|give|plus|the|as)$/;

/**
 * The unit that a trade understands without its being said: `three sixteenths thick` is of an inch, a saw that idles at
 * twenty-eight hundred does so a minute.
 */
export function unitUnderstood(talk: Talk, low: NumberRead, said: Said): UnitHeard | undefined {
  const { pieces } = talk;
  const next = pieces[low.to];
  const parts = low.denominator ?? 0;
  const rest = said.after(low.to);
  // `a quarter turn, then maybe another eighth`: of what was just turned.
  if (
    (parts === 8 || parts === 16) &&
    JUST_TURNED.test(`${said.earlier} ${said.before}`) &&
    (!next || next.type === 'mark' || /^(and|or|then)$/.test(next.lower))
  )
    return unitHeard(unitOf('angle', 'turn'), low.to, true);
  const ends = !next || next.type === 'mark' || ENDS.test(next.lower);
  // Hundredths are of a millimetre; of an inch they count tens of thousandths.
  if (ends && parts === 100 && RUN_OUT.test(`${said.earlier} ${said.before} ${rest}`))
    return unitHeard(unitOf('length', 'mm'), low.to, true);
  if (isPartOfAnInch(low, next, rest, said.before) || (parts > 0 && isLowEndOfInches(talk, low, said)))
    return unitHeard(unitOf('length', 'in'), low.to, true);
  if (ends && low.value >= 1 && low.value <= 90 && !low.article && TILTED.test(said.before))
    return unitHeard(unitOf('angle', '°'), low.to, true);
  const year = low.figures && low.value >= 1950 && low.value <= 2040;
  if (
    low.value >= SLOWEST &&
    Number.isInteger(low.value) &&
    !year &&
    ((ends && TURNS.test(said.before)) || ON_THE_TACH.test(rest))
  )
    return unitHeard(unitOf('turning-speed', 'rpm'), low.to, true);
  if (isSpeed(talk, low, said)) return unitHeard(unitOf('turning-speed', 'rpm'), low.to, true);
  if (isOfLoop(talk, low, said)) return unitHeard(unitOf('resistance', 'Ω'), low.to, true);
  if (isOnCalipers(talk, low, said)) return unitHeard(unitOf('length', 'mm'), low.to, true);
  if (isMachined(talk, low, said)) return unitHeard(unitOf('length', 'in'), low.to, true);
  if (isOfGears(low, rest, said)) return unitHeard(unitOf('count', 'teeth'), low.to, true);
  if (isVoltage(low, ends, rest, said)) return unitHeard(unitOf('voltage', 'V'), low.to, true);
  if (
    low.value >= 5 &&
    low.value <= 150 &&
    ((TYRES.test(said.before || said.earlier.trimEnd().slice(0, -1)) &&
      AT_A_WHEEL.test(rest.replace(/^ (?:to|or) [\w-]+/, ''))) ||
      (low.value >= 18 && BOTH_WHEELS.test(rest)))
  )
    return unitHeard(unitOf('pressure', 'psi'), low.to, true);
  return undefined;
}

/** What turns, or shows how fast. */
const SPEED =
  /\b(rpm|top speed|chain (?:creeps|moves|stops|spins|turns|stays)|clutch (?:\w+ ){0,2}(?:grabs?|engages?)|(?:router|panel|moulding) bit|flywheel|no[- ]load|idles?|idling|choke|tick-?over|governor|governed|redline|tach|tachometer|rev counter|revs|spindle|spindle moulder|shaper|lathe|router|mandrel|collet|cutter|drill press|cutterhead(?:['’]s)?|cutter block(?:['’]s)?|wide[- ]open|full chat|full throttle|flat out|(?:blade|lathe|spindle|router|drum|belt|engine|idle|cutter|governed) speed|engine at|speed (?:chart|table|setting))\b/;
/** `seventeen horsepower at 8,500`. */
const OF_POWER = /\b(horsepower|kilowatts|horse|hp|kw)\b/;
/** So many characters behind a number say what turns. */
const SOON = 40;
/** `the motor's 1,440`. */
const TURNS_AT =
  /\b(?:motor|arbou?r|pulley)(?:['’]s| does| runs at)(?: about)? $|\b(?:spin|run) [^.;]* (?:faster|slower) than (?:about )?$/;
const SINCE = /\b(in|since|from|before|after|until|till|by|pre|early|late|year)[\s-]+(the )?$/;

/** `Tell me what the tach says. Thirty-six hundred?`: hundreds and thousands where the talk is of what turns. */
function isSpeed(talk: Talk, low: NumberRead, said: Said): boolean {
  const bare = bareAt(talk, low, said);
  const most = bare?.high ?? low;
  if (!bare || low.article || most.value < SLOWEST || most.value > FASTEST || most.value % 10 !== 0) return false;
  if (most.value >= 1950 && most.value <= 2040 && (most.figures || SINCE.test(said.before))) return false;
  // A band or a wheel is told by how far it goes.
  if (/\b(?:feet|foot|metres?|meters?) (?:a|per) minute\b|\bfpm\b/.test(`${said.earlier} ${said.before}`)) return false;
  const at =
    /\bat (?:about )?$/.test(said.before) && most.value >= 1000 && OF_POWER.test(`${said.earlier} ${said.before}`);
  return (
    at ||
    TURNS_AT.test(said.before) ||
    SPEED.test(`${said.earlier} ${said.before} ${said.after(most.to).slice(0, SOON)}`)
  );
}

const MEASURED_IN_MM =
  /\b(kerf(?:['’]s)?|plate(?:['’]s| is)|callipers?|calipers?|vernier|rotors?|brake discs?|discs?)\b/;
const MACHINED = /\b(bore|bores|crankpin|journal|piston|gudgeon|liner|big end)\b/;
/** `Put the calliper across the disc. One point six two.`: callipers show millimetres unless inches are spoken of. */
function isOnCalipers(talk: Talk, low: NumberRead, said: Said): boolean {
  if (
    Number.isInteger(low.value) ||
    low.denominator !== undefined ||
    low.parts !== undefined ||
    low.value < 1 ||
    low.value > 200
  )
    return false;
  const talked = `${said.earlier} ${said.before}`;
  const measured =
    MEASURED_IN_MM.test(talked) || /^ kerf\b/.test(said.after(low.to)) || (low.value >= 10 && MACHINED.test(talked));
  return measured && !/\b(inch|inches|thou)\b/.test(talked) && !!bareAt(talk, low, said);
}

/** `the bore's 2.562`: to a thousandth, what is so small is told in inches. */
function isMachined(talk: Talk, low: NumberRead, said: Said): boolean {
  const written = textAt(talk.pieces, low.from);
  const fine = low.figures ? /^\d?\.\d{3,4}$/.test(written) : !Number.isInteger(low.value * 100);
  if (low.value >= 10 || low.denominator !== undefined || !fine) return false;
  const talked = `${said.earlier} ${said.before}`;
  return (
    (MACHINED.test(talked) || FINE.test(talked)) &&
    !/\b(?:mm|mil|millimet(?:re|er)s?)\b/.test(talked) &&
    !!bareAt(talk, low, said)
  );
}

/** What is told in thousandths. */
const FINE = /\b(?:gaps?|clearances?|taper|play|float|run-?out|lash|valves?|tappets?|ovality|depth gauges?|rakers?)\b/;

/** `if your loop's above one point four four`: an earth loop and a conductor are told in ohms. */
function isOfLoop(talk: Talk, low: NumberRead, said: Said): boolean {
  if (Number.isInteger(low.value) || low.denominator !== undefined || low.value <= 0 || low.value > 50) return false;
  const words = `${said.earlier} ${said.before} ${said.after(low.to)}`;
  return LOOP.test(words) && !/\b(?:chain|cutters?|saw|rakers?)\b/.test(words) && bareAt(talk, low, said) !== undefined;
}
const LOOP = /\b(ring main|ring final|end to end|loop|zs|ze|cpc|continuity|r1|r2)\b/;

const GEARS = /\b(cassette|single-?speed|one-by|chainrings?|chainset|crankset|sprockets?|cogs?|freewheel)\b/;
const AT_AN_END = /^ (?:teeth )?(up front|out back|at the back|in the back|on the back|at the rear)\b/;
/** `a forty-four up front and a sixteen out back`: gears are told by their teeth. */
function isOfGears(low: NumberRead, rest: string, { before, earlier }: Said): boolean {
  return (
    Number.isInteger(low.value) &&
    low.value >= 9 &&
    low.value <= 62 &&
    (AT_AN_END.test(rest) || (/(\bis|['’]s) an? $/.test(before) && /^(,|$)/.test(rest))) &&
    GEARS.test(`${earlier} ${before}`)
  );
}

/** Eighths and smaller are of an inch where they are measured along something, taken off, left, or done by so much. */
function isPartOfAnInch(low: NumberRead, next: Token | undefined, rest: string, before: string): boolean {
  const parts = low.denominator ?? 0;
  if (parts === 4)
    return /^(thick|wide|deep|long|tall|above|below|over|proud)$/.test(next?.lower ?? '') && !TURNED.test(before);
  if (parts < 8 || ![8, 16, 32, 64].includes(parts)) return false;
  if (parts >= 16 && TAKEN_OFF.test(rest)) return true;
  // `three-sixteenths for the middling one`: which file.
  if (
    THING.test(before) ||
    (A_FRACTION.test(before) && (!next || next.type === 'mark' || next.lower === 'and')) ||
    (/\bfile\b/.test(before + rest) && /^ for (?:the|this)\b/.test(rest))
  )
    return false;
  // Nobody says sixteenths of anything else.
  if (
    parts >= 16 &&
    (!GRABBED.test(before) || EACH_IS.test(before)) &&
    (!next || next.type === 'mark' || BEHIND_A_PART.test(next.lower))
  )
    return true;
  const ends = !next || next.type === 'mark' || ENDS.test(next.lower);
  return (
    ALONG.test(next?.lower ?? '') ||
    TAKEN_OFF.test(rest) ||
    OF_LENGTH.test(rest) ||
    AT_MOST.test(rest) ||
    (ends && (BY_SO_MUCH.test(before) || GAP_OF.test(before)))
  );
}

/** `an eighth to a quarter lower than the back`. */
function isLowEndOfInches(talk: Talk, low: NumberRead, said: Said): boolean {
  const between = /\bbetween\s+$/.test(said.before);
  const high = numberAfter(talk, low.to, between ? 'between' : undefined);
  if (!high?.denominator || high.value <= low.value || (low.denominator ?? 0) < 8) return false;
  return isPartOfAnInch({ ...high, denominator: 8 }, talk.pieces[high.to], said.after(high.to), said.before);
}

const GRABBED =
  /\b(file|drill|bit|socket|spanner|wrench|pitch|chain|rod|size|grab|use|using|fit|it['’]s|that['’]s|these are|is|are)( an?)?\s+$/;
/** `each crank of the handle is`: how far it goes. */
const EACH_IS = /\b(?:each|every) [^,;.]{1,30} (?:is|are)\s+$/;
const BEHIND_A_PART =
  /^(and|but|or|so|with|when|while|on|at|for|if|before|after|then|maybe|plus|tops|max|over|under|proud|same|all|gap|slack|reveal|out)$/;
/** `a gap to the auger of one sixteenth`. */
const GAP_OF = /\b(gap|clearance|overhang|reveal|depth|thickness|play|kerf|margin)\b[^.;]{0,30} of\s+$/;
const AT_MOST = /^\W*(at (the )?(most|least|outside)|max|maximum|minimum|tops)\b/;
/** The name of what is measured says its unit. */
const VOLTAGE =
  /\b(?:voltage|the volts)\b(?! drop\b)[^.;:]{0,60}(?:['’]s|,|\b(?:is|be|reads?|at|above|below|over|under|to|from|than|exceed|of|get|got|see|want))(?: (?:about|around|only))?\s*$/;
/** Between which wires: `two-forty hot to hot`. */
const FROM_WIRE_TO_WIRE =
  /^ on (?:this|that|the other|one|each|the (?:left|right|black|red|top|bottom|other)) (?:leg|phase)\b|^\W*((hot|line|live|phase|leg|neutral) to (neutral|ground|earth|hot|line|phase|leg|live)\b|(across|between) (the )?(two |both |any two )?(legs|phases|lines|hots)\b|across both\b|to (the )?(earth|neutral|ground|chassis)\b|between (the )?(live|line|hot|phase|neutral) and (the )?(neutral|earth|ground|cpc)\b)/;
/** `two thirty-one at the socket`. */
const AT_THE_SOCKET = /^ at the (?:socket|board|outlet|receptacle|panel|meter|tails|plug|light|switch|terminals)\b/;
/** `live to earth 232`. */
const WIRE_TO_WIRE =
  /\b(?:hot|line|live|phase|neutral) to (?:neutral|ground|earth|hot|line|phase)(?:['’]s| is|,|:)?(?: (?:i['’]ve got|i get|reads|says|about))? $/;
/** Voltages that networks have. Source: IEC 60038, tables 1 and A.1, and those of North America (ANSI C84.1); from memory. */
const NETWORK = new Set([100, 110, 115, 120, 127, 200, 208, 220, 230, 240, 277, 347, 400, 415, 480]);
/** So far a network strays from its voltage. Source: EN 50160, 4.2.2 (10 %); from memory. */
const STRAYS = 0.1;
const METERED =
  /\b(tester|meter|multimeter|voltmeter)\b[^.;]{0,40}\b(shows?|reads?|says|gives?|at|bars|terminals|got)[\s,]+$/;
/** `it's reading two twenty-eight, and with the shower on`. */
const READING =
  /\b(reading|reads|shows|showing|getting|got|see|seeing|is|was|['’]s|at|on)(?: (?:about|around|only))?[\s,]+$/;
/** Talk of other readings. */
const TESTED = /\b(megohms?|megs?|insulation|psi|bar|pressure|compression)\b/;
const WIRED = /\b(sockets?|shower|neutral|live|phase|breaker|consumer unit|kettle|volts?|outlet|panel|mains|cooker)\b/;
const POWER_FOLLOWS = /^\W*(that['’]s|it['’]s|you get|it draws|it pulls) [^.;]*\b(kilowatts?|watts|amps)\b/;
/** `three kilowatts, divide by two thirty`. */
const DIVIDED_BY = /\b(?:kilowatts?|watts?|amps?|ohms?)\b[^.;]{0,25}\b(?:divided?(?: it| that)? by|over|times)\s*$/;
const POWER_AT = /(?:\b(?:kilowatts?|watts?|amps?|ohms?|horsepower)|\d ?(?:k?w|a|hp))\b[^.;]{0,15} at\s*$/;

function isVoltage(low: NumberRead, ends: boolean, rest: string, { before, earlier }: Said): boolean {
  if (FROM_WIRE_TO_WIRE.test(rest) && !low.article && low.value !== 1) return true;
  if (low.value >= 9 && low.value < 60 && /^ across (?:it|the (?:posts|terminals|battery))\b/.test(rest)) return true;
  if (!ends || low.article) return false;
  if (WIRE_TO_WIRE.test(before) && low.value >= 20 && low.value <= 500) return true;
  const network = low.value > 105 && [...NETWORK].some((volts) => Math.abs(low.value - volts) <= STRAYS * volts);
  if (network && !Number.isInteger(low.value / 50) && AT_THE_SOCKET.test(rest)) return true;
  if (network && (METERED.test(before) || /\b(voltage|voltmeter)\b/.test(earlier))) return true;
  if (
    network &&
    READING.test(before) &&
    WIRED.test(`${earlier} ${before} ${rest}`) &&
    !TESTED.test(`${earlier} ${before}`)
  )
    return true;
  return (
    (VOLTAGE.test(before) && low.value > 0 && low.value <= 500) ||
    (NETWORK.has(low.value) &&
      (POWER_AT.test(before) ||
        DIVIDED_BY.test(before) ||
        /^ squared\b/.test(rest) ||
        (/\bat $/.test(before) && POWER_FOLLOWS.test(rest))))
  );
}
const ON_THE_TACH =
  /^\W*(on|by) the (tach|rev counter|tachometer|(\w+ )?(pulley|setting|speed))\b|^\W*(no[- ]load|at idle|idling|flat out|wide[- ]open)\b/;
/** What is told in hundredths. */
const RUN_OUT =
  /\b(?:run-?out|dial (?:gauge|indicator)|clock (?:gauge|on)|indicator|out of (?:true|round|flat|parallel)|wobble|end float|straightedge|coplanar|level|flat)\b/;
const TYRES = /\b(tyres?|tires?|tubeless)\b[^.;]*$/;
const AT_A_WHEEL = /^\W*(in |up |at )?(the )?(front|rear|back|cold)\b(?! home)|^ on the sidewall\b/;
/** `ninety-five in the back and ninety up front`. */
const BOTH_WHEELS =
  /^ (?:in (?:the )?|up )(?:front|rear|back)(?:,| and|, and) [\w-]+(?: [\w-]+)? (?:in (?:the )?|up )(?:front|rear|back)\b/;
/** `tilt it over to twenty-two and a half`. */
const TILTED =
  /\b(tilt(?:s|ed|ing)?|bevel|mitre|miter)(?:['’]s)?(?: (?!(?:click|notch|stop|hole|step|position|number)s?\b)[\w'’-]+){0,5} (?:to|at|is|reads|says)(?: (?:about|around|exactly))?\s*$/;
const JUST_TURNED = /\bturns?\b(?!.*\b(?:inch|inches|thou)\b)/;
/** What is picked out by its size. */
const THING = /\b(the|that|this|my|your|size|grab|use|using|number)\s+$/;
/** `a nine-sixteenths,`: a tool; of a length the article is left out. */
const A_FRACTION = /\ban?\s+$/;
/** Parts of a turn. */
const TURNED = /\b(turn|turns|turned|screw|back it|wind|unscrew|tighten)\b/;
