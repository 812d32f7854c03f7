import type { SimpleKind } from '../spec/index.ts';
import type { NumberRead } from './number.ts';
import type { Said } from './said.ts';
import { isTalkOfTime } from './talk-of-time.ts';
import type { Token } from './tokens.ts';
import type { UnitHeard } from './unit-spoken.ts';

const words = (text: string) => new Set(text.split(/\s+/));

/** What is named by its size: a quantity before it tells which one, not what to set. */
const TOOLS = words(`socket sockets spanner spanners wrench wrenches key keys ratchet ratchets bit bits driver drivers
  drill drills tap taps pitch die dies punch punches drift drifts reamer reamers chisel crowfoot adapter adaptor adapters extension
  extensions feeler feelers blade blades shim shims gauge gauges micrometer mic caliper calliper calipers vernier rule ruler tape
  hammer mallet file grinder breaker puller jack jacks stand stands hoist vice vise clamp clamps press pliers pick hone
  bolt bolts screw screws nut nuts stud studs capscrew capscrews setscrew fastener fasteners washer washers dowel dowels
  rivet rivets thread threads end ends hex hexagon allen torx head heads flats hole holes hose hoses pipe pipes tube tubes tubing
  wire wires cable cables cord cords rod rods pin pins bearing bearings seal o-ring chain chains compressor
  hub hubs axle axles spindle spindles spacer spacers sleeve sleeves bush bushes bushing bushings collar collars steerer headset
  seatpost handlebar handlebars circlip circlips nail nails brush brushes plug plugs`);
const WHEELS = words('wheel wheels rim rims tyre tyres tire tires disc discs rotor rotors screen plate plates');
const DRIVES = words('drive drives sq square');
const CONTAINERS =
  words(`bottle bottles can cans jug jugs jar jars tub tubs tube tubes tin tins pack packs packet packets bag
  bags bucket buckets container containers cartridge cartridges drum drums pot pots syringe syringes canister tank tanks
  sachet sachets spray cup cups tray pan beaker beakers flask flasks funnel pail carton cartons box boxes jerrycan keg glass`);
const ELECTRIC =
  words(`battery batteries system systems socket bulb bulbs lamp lamps light lights supply charger chargers
  outlet circuit circuits fuse fuses tester relay relays adapter feed accessory starter bike motor line rail coil coils horn
  horns fan fans pump pumps regulator rectifier alternator generator heater heaters solenoid source plug pack packs cell cells`);
const ENGINES =
  words(`engine engines bike bikes motor motors motorcycle motorcycles single singles twin twins triple four scooter
  scooters machine machines model models class mill lump moped v-twin parallel`);
const SLOTS =
  words(`break breaks class classes lesson lessons session sessions video videos clip clips slot slots walk walks
  ride rides job jobs talk talks mark window windows rule timer epoxy glue drive warranty old-timer course courses chat
  lunch film recording recordings veteran apprenticeship deal task shift meeting countdown warning queue labour labor work notice`);
const BENDS = words(
  'bend bends elbow elbows fitting fittings adapter adaptor pick picks pliers valve valves stem head countersink twin v-twin',
);
/** Words that end a name: what comes after them is not named by the size. */
const STOPS =
  words(`a an the this that these those it its my your our his her their i you we he she they and or but so then than
  if when while because of on in at to for from with by into onto over under through off out up down per as about around between
  is are was were be been has have had do does did will would can could should must may might not no never yes there here
  now again before after until till each every all both just only also too very use grab take put set turn tighten loosen check
  get give go goes keep let make pull push hold which what who where how apart away back more less dry wet cold hot long wide
  deep thick high`);
/** Of these, some tools have their names: a 10 mm deep socket. */
const ADJECTIVES = words('deep long wide thick high hot cold');

const BY_KIND: Readonly<Partial<Record<SimpleKind, readonly ReadonlySet<string>[]>>> = {
  torque: [words('wrench wrenches screwdriver driver gun tool')],
  force: [words('gauge gauges scale scales')],
  pressure: [
    words(
      'gauge gauges compressor compressors pump pumps regulator bottle bottles cylinder cylinders cap caps line airline hose',
    ),
  ],
  length: [TOOLS, DRIVES, WHEELS],
  volume: [CONTAINERS, ENGINES],
  mass: [CONTAINERS, words('hammer hammers mallet jack jacks hoist weight weights bag bags scale scales spool')],
  angle: [BENDS, words('fastener fasteners')],
  voltage: [ELECTRIC],
  time: [SLOTS, TOOLS, DRIVES],
  distance: [words('ride rides trip trips walk race loop test road service services')],
};

const MEASURED =
  words(`thickness gap depth length play clearance travel width diameter wear runout run-out limit slack sag
  point points protrusion projection stretch float margin tolerance offset drop rise difference reading readings range
  minimum maximum min max turn turns twist rotation sweep hold wait soak cure pause interval overlap fill lift stroke
  torque pressure force preload dwell advance lead stop stops steps increments intervals overfill spread reach height size setting`);

/** What a machine carries is weighed, not named by its weight: an eighty kilogram rider. */
const BURDENS = words('rider riders passenger passengers pillion person load loads luggage payload cargo');

/**
 * True for a number with a unit that is no spec: the size of a tool, a fastener, a container or an engine, the number
 * behind "part number" or "page", a price, a clock time, a rate per something, an age, a way of speaking.
 *
 * @param to first token after the quantity
 */
export function isTrap(pieces: readonly Token[], number: NumberRead, unit: UnitHeard, to: number, said: Said): boolean {
  return (
    namesAThing(pieces, unit, to) ||
    standsForATool(pieces, number, unit, to) ||
    isSpelledSize(pieces, number, unit, to) ||
    (LABEL.test(said.before) && SHORT_UNIT.test(pieces[to - 1]?.lower ?? '')) ||
    SIZE.test(said.before) ||
    TOLERANCE_ALONE.test(said.before) ||
    (number.article && MONEY.test(said.before)) ||
    ((/^(lbf?|psi)$/.test(unit.symbol) || number.article) && PRICE.test(said.before)) ||
    isRate(pieces, number, unit, to) ||
    (number.article && NOT_EVEN_ONE.test(said.before)) ||
    isOneOfTwoSizes(pieces, to) ||
    (unit.kind === 'distance' &&
      (AWAY.test(said.after(to)) || ON_THE_CLOCK.test(said.after(to)) || RIDDEN.test(said.before))) ||
    (unit.kind === 'mass' && SOMEBODY.test(said.before)) ||
    (unit.kind === 'time' && isTalkOfTime(said, to, number, unit)) ||
    (unit.symbol === 'bar' && isBarOfSteel(number, unit, said, to)) ||
    (unit.symbol === 'turn' && isRevs(number, said, to)) ||
    (unit.symbol === 'ft' && /^\s*(on|flat|under|planted|off)\b/.test(said.after(to)) && number.value <= 2) ||
    IDIOM.test(`${said.before}|${said.after(to)}`)
  );
}

/** A size in front of what it names: `17 mm deep socket`, `500 ml bottle`, `12-volt battery`. */
function namesAThing(pieces: readonly Token[], unit: UnitHeard, to: number): boolean {
  const heads = BY_KIND[unit.kind] ?? [];
  // `ten minutes' break`.
  const possessive = unit.plural && /^['’]$/.test(pieces[to]?.text ?? '');
  if (unit.plural && !possessive && unit.kind !== 'torque') return false;
  for (let at = possessive ? to + 1 : to, passed = 0; passed < 4; at++, passed++) {
    const token = pieces[at];
    if (token?.text === '-') continue;
    if (token?.type !== 'word') return false;
    if (at === to && isThatOne(pieces, at)) return true;
    if (heads.some((names) => names.has(token.lower))) {
      // `disc thickness`, `tyre tread depth`: what follows the thing says that something else is meant.
      return !isMeasured(pieces, at + 1);
    }
    if (STOPS.has(token.lower) && !ADJECTIVES.has(token.lower)) return false;
  }
  return false;
}

/** `the 8 mm ones`, `the 24 mm one`: a word for the thing itself; `3 mm one side` is none. */
function isThatOne(pieces: readonly Token[], at: number): boolean {
  const next = pieces[at + 1];
  return (
    pieces[at]?.lower === 'ones' ||
    (pieces[at]?.lower === 'one' &&
      next?.type !== 'number' &&
      !/^(side|way|end|time|hand|turn|more|further|in|by|of|and|each)$/.test(next?.lower ?? ''))
  );
}

/** True where the name that goes on here ends up as something measured. */
function isMeasured(pieces: readonly Token[], from: number): boolean {
  for (let at = from; at < from + 3; at++) {
    const token = pieces[at];
    if (token?.type !== 'word') return false;
    if (MEASURED.has(token.lower)) return true;
    if (STOPS.has(token.lower)) return false;
  }
  return false;
}

const SIZED = new Set<SimpleKind>(['length', 'volume', 'mass', 'voltage', 'time', 'angle']);
/** `twelve-volt fan`, `two-litre jug`: a unit spelled out in the singular after more than one, with a noun to follow. */
function isSpelledSize(pieces: readonly Token[], number: NumberRead, unit: UnitHeard, to: number): boolean {
  const last = pieces[to - 1]?.lower ?? '';
  const spelled =
    /^(millimet|centimet|met|lit|millilit)(re|er)$|^(inch|foot|volt|minute|second|hour|day|week|month|year|degree|gram|kilo|kilogram|quart|pint|gallon|ounce)$/;
  if (!SIZED.has(unit.kind) || !spelled.test(last) || number.value <= 1) return false;
  for (let at = to; at < to + 3; at++) {
    const token = pieces[at];
    if (token?.text === '-') continue;
    if (token?.type !== 'word' || STOPS.has(token.lower)) return at > to && pieces[at - 1]?.type === 'word';
    if (MEASURED.has(token.lower) || (unit.kind === 'mass' && BURDENS.has(token.lower))) return false;
  }
  return true;
}

/** `grab a 17 mm and ...`, `the ten millimetre on the nut`: a size that stands for the tool itself. */
function standsForATool(pieces: readonly Token[], number: NumberRead, unit: UnitHeard, to: number): boolean {
  // `a 1.6 litre`: an engine.
  if (unit.symbol === 'L' && /^lit(re|er)$/.test(pieces[to - 1]?.lower ?? '') && number.value > 1)
    return /^(an?|the|my|his|her)$/.test(pieces[number.from - 1]?.lower ?? '') && pieces[to]?.type !== 'word';
  if (unit.kind !== 'length' || unit.plural || !/^(mm|in)$/.test(unit.symbol)) return false;
  const before = pieces[number.from - 1]?.lower ?? '';
  const next = pieces[to];
  if (/^(m|size|sizes)$/.test(before)) return true;
  // `the thirteen mil's in the drawer`.
  if (before === 'the' && /['’]s$/.test(pieces[to - 1]?.lower ?? '') && next?.type === 'word') return true;
  if (!/^(a|an|the|your|my|our|that|another|one)$/.test(before) || number.article) return false;
  if (!next || next.type === 'mark')
    return next?.text !== '(' && !/gap|clearance|slack|play|limit/.test(next?.text ?? '');
  return /^(and|on|for|from|with|then|here|there|will|goes|fits|if|or|so|into|onto|through)$/.test(next.lower);
}

const LABEL =
  /\b(part|number|numbers|no|nr|item|code|ref|reference|page|pages|figure|fig|table|step|steps|chapter|section|lesson|bay|row|grade|class|dot|sae|iso|serial|model|version|type|room|bin|shelf)[.#]?\s{0,2}$/;
/** `a tolerance of plus or minus two`: of what, it does not say. */
const TOLERANCE_ALONE = /(\bplus(,| or|\/)? minus|±|\+\/[-−–])\s*$/;
/** `a fiver a metre`. */
const MONEY = /\b(quid|pounds?|dollars?|bucks?|euros?|cents?|pence|tenner|fiver)\s+$/;
const SIZE = /\bsize\W{0,3}$/;
/** What a label's number may run into: "page 12 in the manual"; nothing longer is taken for a unit by chance. */
const SHORT_UNIT = /^(in|m|g|l|n|v|s|h|k|c|f)$/;
const PRICE = /[$£€]\s?$|\b(costs?|price|priced|paid|pay|charged?s?|worth)\s+(\w+[\s-]+){0,3}$/;

const PER = /^(per|a|an|each|every|\/)$/;
const RATE_OF =
  /^(minute|min|hour|hr|h|second|sec|s|gallon|litre|liter|l|foot|metre|meter|m|inch|mile|kilometre|kilometer|km|kg|rev|revolution|day)$/;
/** Of these `every` and `each` say when, and `a` says how often. */
const CALENDAR = /^(week|month|year|season|shift)$/;
/** What a rate may count in tens: per thousand miles. */
const MANY = /^(hundred|thousand|\d+)$/;
/** A quantity per something is another kind of quantity: revolutions a minute, millimetres per metre, hours a day. */
function isRate(pieces: readonly Token[], number: NumberRead, unit: UnitHeard, to: number): boolean {
  if (pieces[number.from - 1]?.lower === 'per') return true;
  const [per, of] = [pieces[to]?.lower ?? '', pieces[to + 1]?.lower ?? ''];
  if (per === 'to' && of === 'the' && RATE_OF.test(pieces[to + 2]?.lower ?? '')) return true;
  if (!PER.test(per)) return false;
  if (CALENDAR.test(of)) return per !== 'every' && per !== 'each';
  if (unit.kind === 'length' && /^(turn|click)$/.test(of)) return true;
  if (per === 'per' && MANY.test(of)) return true;
  if (!RATE_OF.test(of)) return false;
  // `swap it for two minutes every day`, `10 km each hour of the test`: how often, still a length of time or way.
  return !(unit.kind === 'time' || unit.kind === 'distance') || (per !== 'every' && per !== 'each');
}

/** `not an ounce of grease`: the least there could be is not even there. */
const NOT_EVEN_ONE =
  /\b(not( even)?|without( even)?|never|hardly|barely|scarcely|(is|was|are|were|have|has|had|do|does|did)(n't| not|n't got| not got| not have|n't have|n't see|n't get| not see)( even)?)\s+$/;

const AWAY = /^\W{0,2}(away|off|from here|down the|up the|home|yesterday|today|to the next|out of town)\b/;
/** Ways ridden, and what an odometer has come to; `when you have done 500 miles` is an interval. */
const ON_THE_CLOCK = /^\W{0,2}on the (clock|odometer)\b/;
const RIDDEN =
  /\b(i|we|he|she|they)('ve|'d|'s)?( have| had| has)?( just| only| already)? (done|did|rode|ridden|drove|driven|covered|clocked|came|come|walked|pushed it)( over| about| almost| nearly| some| another| maybe)?\s+$/;
/** Somebody's own weight; a motorcycle is often a she. */
const SOMEBODY = /\b(i|you|he)('m|'re|'s| am| are| is| was| weigh| weighs)( about| around| only| over)?\s+$/;
/** `10 mm by 1.25`: a size. */
function isOneOfTwoSizes(pieces: readonly Token[], to: number): boolean {
  return /^(by|x|×)$/.test(pieces[to]?.lower ?? '') && pieces[to + 1]?.type === 'number';
}

/** Something held at, brought to or lost from. */
const HELD_AT =
  /\b(at|to|of|hold|holds|held|holding|lose|loses|lost|exceed|exceeds|reach|reaches)\s+((about|around|only|just|over|under)\s+)?$/;
/** Bars of steel: `one bar`, `two bars`, unless the talk is of pressure. */
function isBarOfSteel(number: NumberRead, unit: UnitHeard, { before, after }: Said, to: number): boolean {
  if (
    /\b(pressures?|tyres?|tires?|inflat\w+|pump\w*|air|gauge|psi|kpa|blow|boost|leak\w*|cold|compression|front|rear|vacuum|suction)\b/.test(
      `${before} ${after(to)}`,
    )
  )
    return false;
  return unit.plural || (!number.figures && number.value === 1 && !HELD_AT.test(before));
}

/** Revolutions that an engine makes a minute, said short. */
function isRevs(number: NumberRead, { before, after }: Said, to: number): boolean {
  return (
    number.value >= 200 ||
    /^\W{0,2}(a|per) min/.test(after(to)) ||
    /\b(idles?|idling|ticks over|tickover)\s+(at|of|is|to)\b/.test(before)
  );
}

/** `inch by inch`. */
const IDIOM = /\|\W*by inch\b|\binch by \|/;
