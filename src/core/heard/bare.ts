import { countsNothing, NO_NOUN } from './no-noun.ts';
import type { NumberRead } from './number-read.ts';
import { anyOf } from './patterns.ts';
import { pastRoughly } from './roughly.ts';
import type { Said } from './said.ts';
import { numberAfter, OPENED } from './second-number.ts';
import { HEDGE, isNumberWord } from './side-by-side.ts';
import type { Talk } from './talk.ts';
import { type Token, textAt, wordAt } from './tokens.ts';

/** A number that may take the unit of a neighbour. */
export interface Bare {
  readonly low: NumberRead;
  readonly high?: NumberRead;
  readonly to: number;
  readonly said: Said;
  /** Its sentence ends behind it. */
  readonly ends?: boolean;
}

/** What joins it to what went before. */
const JOINTS = 'and or but then so there still not even it this another';
/** Where it lies, or what it is held against. */
const NEARBY =
  'to at for with than under over above below past after about around on beyond against from between by within of up down off out until';
/** It is so, comes to it, stays there. */
const BEING = `is isn['’]t are was were be been have had has came comes go goes going went stays? runs? ran holds? start starts
  finish reach reaches settles? settled hits? hit drop drops dropped pass exceed worn`;
/** What somebody reads, wants or gets. */
const READING = `gets? getting got takes? took take taking wants? want wanted needs? see seen use using allowed gave gives? giving
  says? said say, reads? reading shows? showed showing measures? measured measuring check checks checked counted rated
  feels lose lost last lasts lasted prefer likes? call called target aim try wanted`;
/** What somebody makes it. */
const MAKING = String.raw`make makes make\sthis make\sthat makes\sit making gives\syou leaves\syou do did doing set draws? drew
  pulls? pulled pulling cut cutting trim trimming skim shave put leave leaves pour add pump`;
/** How surely, and at which end. */
const HOW_SURELY = `minimum maximum min max least most every roughly nearly almost maybe perhaps exactly only just probably closer
  tops`;
/** Words before a number that say it is a value. */
export const VALUE_FOLLOWS = new RegExp(
  String.raw`(\b${anyOf(JOINTS, NEARBY, BEING, READING, MAKING, HOW_SURELY)}|['’](s|d|ve|re|ll)|[,:–—(])\s*$`,
);
/** Ages, and numbers that are only counted out. */
const OF_SOMEBODY =
  /\b((he|she|i|you|we)(['’](s|m|re)| (is|am|are|was|were))|count(s|ed|ing)? (up |down )?to|paid|costs?|worth)( (about|only|nearly|over))?\s*$/;
/** `the class has twelve`, `the fee is two hundred`: people and money. */
const OF_PEOPLE =
  /\b(class|course|fee|price|cost|bill|invoice|quote|lunch|meeting|team|group|crew|customers?|students?|people(?! (?:want|say|ask|like|allow|recommend)s?\b))\b[^,;.]{0,25}$/;
/** What bears a number as its name. */
const NUMBERED = String.raw`ph(?:['’]s|\sis|\sof)? step stage pass part number numbers no nr item code page pages figure fig table chapter
  section lesson bay row grade class dot sae iso model version type room bin shelf size torx gear speed bolt hole position
  click clicks notch notches setting mark gauge awg grit zone slot station channel terminal pin times circuit cylinder line w m t`;
/** What picks out some of several. */
const PICKED_OUT = String.raw`the these those this all both first last next other any my your our a an every\sother`;
/** `the left one` is a thing, `one four` a name. */
const THE_ONE_THAT_IS = anyOf(
  'small smaller big bigger little large other left right front rear back long short upper lower top bottom inner outer new old thin thick wide narrow first second last next inlet exhaust intake',
);
/** `a bevel of thirty` is a value, `three of thirty` a choice. */
const MEASURE = anyOf(
  `minimum maximum limit bevel angle gap depth clearance setting torque pressure reading rake fleam pitch width thickness height
  drop speed kerf set travel sag plate ratio voltage current resistance temperature tension overhang reveal`,
);
/** `the dial sits on thirty` is a value, `the bike on thirty` a place. */
const SHOWN_ON = anyOf(
  String.raw`it['’]s sat sit sits sitting wrench dial gauge regulator thermostat stat set\sit leave\sit`,
);
/** What is named by a number, or picked out by it. */
const NAMED_BY_NUMBER = new RegExp(
  String.raw`\b(${[
    anyOf(NUMBERED, PICKED_OUT, 'in'),
    String.raw`(?<!${THE_ONE_THAT_IS} )one`,
    String.raw`(?<!\b(?:${MEASURE}|short|shy|north|south|side|excess|upwards) )of`,
    String.raw`(?<!\b${SHOWN_ON} )on`,
    String.raw`(?<=\d )by`,
  ].join('|')})[.#]?\s*$`,
);
const BY_THE_CLOCK =
  /^ to a (?:box|pack|bag|set)\b|^ past (one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b|^\W*(in the (morning|afternoon|evening)|at night|tonight|sharp|[ap]\.?m\b)/;
/** `anything over four floods it`: what it does. */
const ANYTHING_PAST = /\b(anything|everything|much) (over|under|above|below|past|beyond)( about)?\s+$/;
/** `a tenth of slop`. */
const PARTS_OF =
  /^ of (travel|slop|play|clearance|slack|lift|give|sag|flex|droop|movement|runout|run-out|wear|error|float)\b/;
/** `reading six high`, `that's eight short`. */
const OFF_BY =
  /^ (?:high|low|short|hotter|colder|cooler|warmer|shy|proud|too (?:high|low|much|many|long|short))\b(?! (?:volt|speed|gear|beam|end|side|range|the))/;
const CLOSES_CLAUSE = /^[,.;:?!)–—…]$/;
/** `around one.`: nobody rounds a thing. */
const ROUGHLY =
  /^(?!.*\b(meet|lunch|break|class|clock)\b).*\b(about|around|roughly|nearly|almost|under|below|over|above|less than|more than|within|at most|at least)\s+$/;
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
  /^(pounds?|lbs?|ounces?|oz|square|cable|flex|twin|ply|tenths?|hundredths?|thousandths?|hertz|hz|k?hz|megahertz|cycles?|farads?|microfarads?|picofarads?|µf|decibels?|db|points?|lumens?|lux|dollars?|bucks?|quid|euros?|pence|cents?|times|percent|per|and|joules?|kva|va|henr(?:y|ies)|octane|ka|k)$/;

/** `ten, even eleven`, `two, two and a half`: the second is the same guess, larger. */
export function guessBehind({ pieces, numbers }: Talk, low: NumberRead): NumberRead | undefined {
  const past = pieces[low.to]?.text === ',' ? low.to + 1 : low.to;
  const hedged = HEDGE.test(wordAt(pieces, past));
  if ((past === low.to && !hedged) || pieces[low.from - 1]?.text === ',') return undefined;
  const second = numbers.at(past + (hedged ? 1 : 0));
  if (!second || second.article || second.value <= low.value || second.value > low.value * (hedged ? 2.5 : 1.3))
    return undefined;
  const next = pieces[second.to];
  const ends = endsThere(next) || (hedged && NO_NOUN.test(next?.lower ?? ''));
  return ends && !numbers.at(second.to + 1) ? second : undefined;
}

/** `At one I'd change it`, `leaves one above the mark`: no thing is meant. */
const ONE_REACHED =
  /\b(at|leaves|past|hits|(?:down|up|off|back) to|under|over|above|below|than|about|around|nearly)\s+$/;
const ONE_ENDS = /^([,.;:?!–—…]|and|i['’]d|you['’]d|above|below|it|if|when|by|in|on|at|['’]s)$/;

/** Nobody numbers so many: `the flywheel nut's fifty-five foot-pounds and the blade bolt thirty-five`. */
const MOST_BOLTS = 15;
/** `second pass sixty`: what is numbered by small numbers only. */
const COUNTED_OUT =
  /\b(?:bolts?|steps?|stages?|pass|gear|hole|circuit|cylinder|row|chapter|lesson|section|setting|mark|notch|click|speed)\s+$/;

/** `big one twelve`: the thing, not a number. */
const THE_THING = new RegExp(String.raw`\b${THE_ONE_THAT_IS} one\s+$`);
const POINTS_OUT = /^(the|an?|this|that|these|those|my|your|our|his|her|regular)$/;
/** `the twenty-nineteen and later ones`, `the Pellan 300 takes`, `ten-W-thirty`: a number that is a name, or the end of one. */
function isAName({ pieces }: Talk, low: NumberRead, next: Token | undefined): boolean {
  const before = pieces[low.from - 1];
  if (before?.text === '-' && before.end === pieces[low.from]?.start) return true;
  if (POINTS_OUT.test(before?.lower ?? '') && low.scale === undefined) return next?.type === 'word';
  // `a type B thirty-two`.
  if (/^[A-HJ-Z]$/.test(before?.text ?? '')) return true;
  const begins = pieces[low.from - 2];
  return /^\p{Lu}\p{Ll}+$/u.test(before?.text ?? '') && begins !== undefined && !/^[.?!:"“]$/.test(begins.text);
}

/** A number, or two of a range, that stands like a value and has no unit of its own. */
export function bareAt(talk: Talk, low: NumberRead, said: Said): Bare | undefined {
  // `one` is the thing more often than the number; an article counts only its noun.
  if (low.article || low.couple) return undefined;
  const behind = talk.pieces[low.to];
  const reached =
    !/\bbetter than\s+$/.test(said.before) &&
    ONE_REACHED.test(said.before) &&
    // `we meet at one.`, or what was said at that time.
    !(/\bat\s+$/.test(said.before) && endsThere(behind)) &&
    !/\b(meet|lunch|break|clock|back)\b/.test(said.before) &&
    (!behind || ONE_ENDS.test(behind.lower));
  const onlyOne =
    /^ is (?:the|your) (?:\w+ )?limit\b/.test(said.after(low.to)) ||
    reached ||
    (/,\s+$/.test(said.before) && /^(if|when|tops|max)$/.test(behind?.lower ?? ''));
  if (low.value === 1 && !onlyOne && !((ROUGHLY.test(said.before) || LIMIT_IS.test(said.before)) && endsThere(behind)))
    return undefined;
  const second = numberAfter(talk, low.to, OPENED.exec(said.before)?.[1]);
  const high = second && !second.article && second.value > low.value ? second : guessBehind(talk, low);
  if (low.value === 0 && !high) return undefined;
  // `eleven nine`: the rest of the number before.
  if (!low.figures && isNumberWord(talk.pieces[low.from - 1]) && !THE_THING.test(said.before)) return undefined;
  // `one to eight in the book`: the end of what was no quantity.
  if (talk.pieces[low.from - 1]?.lower === 'to' && isNumberWord(talk.pieces[low.from - 2])) return undefined;
  // `there's eight, so forty watts`: counted.
  if (/\bat\s+$/.test(said.before) && low.value <= 12 && /\bo['’]?clock\b/.test(said.before)) return undefined;
  const left = /^ (?:left|remaining|to go|to spare)\b/.test(said.after(low.to));
  if (!left && /\bthere(['’]s| are| were)\s+$/.test(said.before) && Number.isInteger(low.value) && low.value <= 20)
    return undefined;
  if (PARTS_OF.test(said.after(low.to))) return { low, to: low.to, said };
  // Decimals and ranges count nothing and name little: `a window of four to six`.
  const whole = Number.isInteger(low.value) && !high;
  const made = /\bmake (this|that|it)( one)?( about)? $/.test(said.before);
  if (
    !made &&
    NAMED_BY_NUMBER.test(said.before) &&
    !/^ (?:permitted|allowed)\b/.test(said.after(low.to)) &&
    !/\b(?:did it|tripped|trips?|stops?|stopped) in $/.test(said.before) &&
    !(low.value >= MOST_BOLTS && COUNTED_OUT.test(said.before)) &&
    (whole || !/\b(in|of|on|all|both)\s*$/.test(said.before)) &&
    (whole || high || !/\b(a|an)\s+$/.test(said.before) || CLOSES_CLAUSE.test(textAt(talk.pieces, low.to)))
  )
    return undefined;
  // `a healthy set of three`.
  if (whole && /\ba (?:\w+ )?set of $/.test(said.before)) return undefined;
  // `thirty metres of 2.5`: which cable.
  if (/\b(?:met(?:re|er)s?|feet|foot|run|length|reel|drum|roll|bit|piece) of $/.test(said.before)) return undefined;
  if (OF_SOMEBODY.test(said.before) || OF_PEOPLE.test(said.before)) return undefined;
  const to = pastRoughly(talk.pieces, high?.to ?? low.to);
  const bare: Bare = { low, ...(high ? { high } : {}), to, said };
  const next = talk.pieces[to];
  // A whole number counts things: eight a side.
  const shared = !whole && EACH_GETS.test(next?.lower ?? '') && SHARER.test(wordAt(talk.pieces, to + 1));
  if (OF_WHAT.test(said.after(to)) && /\b\w+ of [^.;]*$/.test(said.before)) return bare;
  // Decimals count nothing.
  const tenths = low.denominator === undefined || [10, 20, 50, 100].includes(low.denominator);
  // `it leaves a three point two kerf`.
  const kerf =
    !Number.isInteger(low.value) &&
    /\ban?\s+$/.test(said.before) &&
    /^ (?:kerf|gap|reveal|step|overlap)\b/.test(said.after(to));
  if (kerf) return bare;
  const decimal = !Number.isInteger(low.value) && tenths && VALUE_FOLLOWS.test(said.before);
  if (
    decimal &&
    next?.type === 'word' &&
    (low.denominator === undefined || next.lower !== 'of') &&
    !OTHER_UNIT.test(next.lower)
  )
    return bare;
  const after = talk.pieces[to + 1];
  const ends =
    !next ||
    ANYTHING_PAST.test(said.before) ||
    OFF_BY.test(said.after(to)) ||
    (low.denominator === undefined && /^ of (it|that|those|the (old|new)(?: \w+)?)\b/.test(said.after(to))) ||
    (next.type === 'mark'
      ? CLOSES_CLAUSE.test(next.text)
      : shared || countsNothing(talk.pieces, to) || /^(up|down)wards?$/.test(next.lower));
  // `four by two` is a size, `four by hand` none.
  if (next?.lower === 'by' && talk.numbers.at(to + 1)) return undefined;
  // `two out of five`: so many of them.
  if (BY_THE_CLOCK.test(said.after(to))) return undefined;
  if (!ends || (next?.lower === 'out' && after?.lower === 'of' && talk.numbers.at(to + 2))) return undefined;
  if (next?.type === 'number' || /^o['’]?clock$/.test(next?.lower ?? '')) return undefined;
  if (whole && isAName(talk, low, next)) return undefined;
  return { ...bare, ends: !next || /^[.,?!]$/.test(next.text) };
}

/** `and the maximum is`: a limit is of what was just measured, however far it lies from it. */
export const LIMIT_IS =
  /\ballowed,? $|\b(maximum|minimum|limit|pass|max|min|most|least|allowed)(?:( [\w'’]+){0,4} (is|was|are|were)|['’]s| of)( (about|around|only))?\s+$/;
