import { sideBefore } from '../limits/before.ts';
import type { Said } from '../said.ts';
import type { InContext } from './trap.ts';

const CLOCK_AFTER =
  /^[\s-]{0,2}(past|to (one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b|o'?clock|ago|earlier|late\b|early\b|left|into|in(?= *(,|$))|from now|(before|after) (the )?(class|lunch|lesson|break|session)|to go(?= *($|,|until|till|before|and|then|on\b))|behind|ahead|old\b|in(?:to)? (?:the|this|that|my) (?:\w+ )?(?:video|film|clip|recording|episode)|(of|for) (class|video|footage|break|lunch|coffee|tea|discussion|introductions|talk|talking|questions|your time|my life|experience))/;
const CLOCK_BEFORE =
  /\b(give (?:me|us|him|her|yourself|yourselves)|hang on|hold on|wait up|back in|be back|see you in|take|just|last|first|next|another|in the last|for the next|in about|class runs|(?:take|takes) (?:me|us|him|her|them|you)|running|we have|we've got|you have|you've got|there are|(?:you|you'll|we|we'll|i|i'll) need|got)\s*(about|around|a|the|maybe)?\s*$/;
/** `you've got ten minutes before it skins over`. */
const BEFORE_IT =
  /^\W*(?:before|till|until) (?:it|they|the(?! (?:van|bus|boss|train|shop|customer|next|class|break|bell|owner))|that|this)\b/;
const LIFE =
  /\b(i|i've|i'd|we|we've|he|he's|she|she's|they|they've|has|have|had|been|was|were)\b[^.]*\bfor\s+(over|about|almost|nearly|more than|the last|the past)?\s*$/;
/** `petrol that has stood for more than`: of a thing, and how long it may. */
const KEPT_SO_LONG =
  /\b(?:that|which)(?:['’]s| has| have)(?: been)? (?:stood|sat|standing|sitting|stored|open|opened|left|lying)\b[^,;.]*\b(?:over|more than|longer than|beyond|past|under|less than)\s+$/;
/** `I've spent twenty years`: of years behind somebody, not ahead of a part. */
const LIVED =
  /\b(been|spent|(?:['’]s|has|have|had) had|('ve|have|has|had) (\w+ed|had|done|run|ridden|built|kept|taught))\b[^.,;]*(?<!\b(every|each|after|within|than|least|over|under|past|beyond|to|the)\s+)$/;
/** `Twenty years I used one`. */
const SOMEBODY_DID =
  /^ and (?:i|he|she|we|they)(?:['’]\w+)? (?:still|never|always|only|haven['’]t|have|had)\b|^\W*(?:i|we|he|she|they|my \w+)(?:['’]ve|['’]d| have| had)? (?:used|had|ran|run|worked|did|done|rode|kept|been|was|were)\b/;
/** `after eleven years in a hedge`: where a machine stood. */
const PUT_AWAY =
  /^\W*(?:sat |sitting |lying |stood |standing )?(?:in|under|behind|out in) (?:a|an|the|my|his|her|their|somebody['’]s) (?!oven|bath|clamp|vice|press)\w+/;
/** `my uncle ran one for eleven years`. */
const KEPT_FOR =
  /\b(?:ran|used|had|kept|rode|owned|lived|worked|taught|raced)\b[^.,;]*\bfor (?:about |over |nearly |almost )?$/;
const ABOUT_CLASS = /\b(talk|class|lesson|session|video|lunch|course|film|clip|recording|workshop|demo|break)\b[^,;]*$/;
const LONG = new Set(['week', 'month', 'year']);
/** What parts and fluids do, or is done to them, for a time. */
const WORK =
  '(?:wait|dwell|settl|soak|cur|dry|dri|set|sett|hold|held|run|idl|leav|left|sit|rest|stand|replac|chang|heat|cook|bak|cool|warm|drain|drip|charg|bleed|torqu|squeez|appl|harden|steep|expand|temper|anneal|go off|goes off|go hard|clamp|press|simmer|freez|shak)(?:e|es|s|y|ies|ed|ing)?';
const PROCESS = new RegExp(
  String.raw`\b(?:${WORK}|every|each|after|within|interval|give (?:it|them|that|this|each|the|both|those|these)|lasts|lasted|(?!(?:the|at|in|for|this|that|these|those|my|our|your|his|her|their|its|and|over|during|of|was|is|very)\b)[\w']+ last)\b`,
);
/** `chapter two starts at nine minutes`. */
const ON_FILM =
  /\b(?:chapter|part|video|film|clip|recording|timestamp|skip|jump|rewind|fast[- ]forward)\b[^.;]* (?:at|to|from)(?: about)? $/;
/** `the class runs two hours`. */
const CLASS_LASTS =
  /\b(class|lesson|course|session|talk|break|video|lunch|workshop|meeting|demo|film|clip|job|warranty|guarantee|shift|trip|drive|bit)(?:['’]s|\W+(?:(?:starts?|begins?|opens?|kicks off) [^,;]{1,25} and )?(?:\w+ly |only |will |should )?(runs?|lasts?|takes?|took|goes on|went on|is|was))\b(\W+(for|about|around|only))*\W*$/;
/** `a day to dry`, `ten minutes to go hard`: work said after its time. */
const TO_WORK = new RegExp(
  String.raw`^\W*(?:for (?:it|them|that|the \w+) )?to (?:${WORK}(?! up\b)|go (?:off|dull|hard|tacky|clear))\b`,
);
const OF_WORK =
  /^ (?:of )?(?:work(?:ing)?|open|pot|clamp\w*|cur\w+|drying|soak\w*|cool\w*|warm\w*|run|charg\w+)[ -](?:time|life|down|up)\b/;
/** People spoken to: a time that stands alone before them is theirs. */
const ADDRESSED =
  /^\W*,\s*(people|everyone|everybody|folks|guys|all|all of you|ladies|gentlemen|lads|friends|class|team|please)\b/;
/** `ten minutes and we're done`. */
const WE_ARE_DONE = /^\W*(and|then|and then)\s+(we|i)('re|'ll|'m| are| will| can)\b/;
const ALONE = /^(\W|okay|ok|right|so|well|now|just|another|about)*$/;
/** `we'll start in ten minutes`: what people do. */
const PEOPLE_MEET =
  /\b(be|come|get|head) back\b[^,;:]*\bin( about)?\s+$|\b(i|we|you|he|she|they|us|me|let's)\b[^,;:]*\b(be|back|see|start|begin|meet|resume|break|stop|finish|continue|return|join|eat|go on|carry on|talk)\b[^,;:]*\bin(\s+(about|around|maybe|another|the next))?\s+$/;

/** `soak for about`, before an article. */
const WORK_FOR = new RegExp(`\\b${WORK}\\b[^.,;]*\\b(for|about|around)\\s+$`);
/** `keeps its charge for about`: what a part does by itself. */
const KEEPS_FOR = /\b(keeps|stays|remains|holds|retains)\b[^.,;]*\bfor( about| around| at least)?\s+$/;
const WORK_STRAIGHT = new RegExp(`\\b${WORK}( it| them)?\\s+$`);

/**
 * True where `a minute`, `an hour` counts as one: `soak it for an hour`, `at least a day`, `a day to dry`. Elsewhere it
 * is a way of speaking.
 *
 * @param unit symbol of a unit of time
 */
export function isCounted(unit: string, { before, after }: Said, to: number): boolean {
  if (/\b(hold|hang|wait) on\b/.test(before)) return false;
  const next = after(to);
  return (
    // `a week later`.
    (/^(h|day|week|month)$/.test(unit) && /^\W?later\b/.test(next)) ||
    // `or once a month`: how often.
    (/^(day|week|month|year)$/.test(unit) && /\bonce\s+$/.test(before) && /^\W*(,|$)/.test(next)) ||
    (/^(s|min|h|day)$/.test(unit) && KEEPS_FOR.test(before)) ||
    /\b(at least|within|inside|in under|(less|more|longer|older) than)( about)?\s+$/.test(before) ||
    // `goes stale in about a month`.
    /\bgoes \w+ in( about)?\s+$/.test(before) ||
    (/^(min|h|day)$/.test(unit) &&
      /\b(lasts|lasted|(cures|sets|dries|hardens|charges|drains|cools)( \w+)? in)( about)?\s+$/.test(before)) ||
    // `and a day before you machine it`.
    (/^(h|day|week)$/.test(unit) &&
      /\b(and|then|for|it|them|that)\s+$/.test(before) &&
      /^ before (you|it|we|i)\b/.test(next)) ||
    (/\bwait (about )?$/.test(before) && /^\W*(then|and|before|between|for (it|the))\b/.test(next)) ||
    WORK_FOR.test(before) ||
    // `thirty seconds, a minute if it is cold`.
    (/\b(seconds|minutes|hours)( of \w+)?, $/.test(before) && /^\W*(if|when|for|on|in)\b/.test(next)) ||
    // `for about a second`: a time that is estimated is one.
    (/^(s|min|h)$/.test(unit) && /\bfor (about|around|roughly|nearly|almost)\s+$/.test(before)) ||
    // `wait a minute` is a way of speaking, `wait an hour` none.
    (/^(h|day|week)$/.test(unit) && WORK_STRAIGHT.test(before)) ||
    TO_WORK.test(next)
  );
}

/** Clock times, lessons and lives: how long people talk, ride, work or live is no spec. */
export function isTalkOfTime({ said: { before, after }, to, number, unit }: InContext): boolean {
  // Nobody lives or talks for milliseconds.
  if (unit.kind !== 'time' || unit.symbol === 'ms') return false;
  const next = after(to);
  // `four minutes of working time`.
  const process = PROCESS.test(before) || TO_WORK.test(next) || OF_WORK.test(next);
  // `over six years old`: a limit of age, not somebody's age.
  if (CLOCK_AFTER.test(next) && !(/\bevery $/.test(before) && /^ into\b/.test(next)))
    return !(/^\W{0,2}old\b/.test(next) && sideBefore(before, 'time') !== undefined);
  // `we let it soak for ten minutes` is work; `I have had it for six years` is a life.
  if (/\bonce\s+$/.test(before)) return false;
  if (KEPT_SO_LONG.test(before)) return false;
  if (
    LONG.has(unit.symbol) &&
    /^ (?:of )?(?:designing|teaching|working|running|doing|building|riding|fixing|mending|selling|making|felling|in the trade)\b/.test(
      next,
    )
  )
    return true;
  if (LIFE.test(before) && (LONG.has(unit.symbol) || (!process && /\bbeen\b/.test(before)))) return true;
  if (LONG.has(unit.symbol) && (LIVED.test(before) || KEPT_FOR.test(before))) return true;
  if (LONG.has(unit.symbol) && /(?:^\W*|, )$/.test(before) && SOMEBODY_DID.test(next)) return true;
  if (LONG.has(unit.symbol) && /\bafter\s+$/.test(before) && (PUT_AWAY.test(next) || /^ (?:i|he|she)\b/.test(next)))
    return true;
  if (/\b(in|at|around|about|by)\s+$/.test(before) && /^\W{0,2}(o'?clock|sharp)/.test(next)) return true;
  if (
    number.value === 1 &&
    !number.figures &&
    // `an hour, maybe two`.
    to - number.to <= 1 &&
    // `wants a full day`.
    number.to - number.from === 1 &&
    !process &&
    !KEEPS_FOR.test(before) &&
    !/\b(for|within|inside|after|every|about|least|than|of|wait|up to)\s+$/.test(before)
  )
    return true;
  if (CLASS_LASTS.test(before) || ON_FILM.test(before)) return true;
  // `a quarter of an hour later it tripped again`: told.
  if (/^ later,? (?:it|he|she|they|i) (?:\w+ed|was|came|went|had)\b/.test(next)) return true;
  if (process) return false;
  if (
    /^in $/.test(before) &&
    (LONG.has(unit.symbol) ? /^\W*(we|i|there)\b/ : /^\W*(we|i)('ll|'re|'m| will)\b/).test(next)
  )
    return true;
  return (
    (LONG.has(unit.symbol) && /\btook\b/.test(before)) ||
    (CLOCK_BEFORE.test(before) && !BEFORE_IT.test(next)) ||
    ABOUT_CLASS.test(before) ||
    PEOPLE_MEET.test(before) ||
    (ALONE.test(before) && (ADDRESSED.test(next) || WE_ARE_DONE.test(next)))
  );
}
