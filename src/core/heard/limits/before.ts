import type { SimpleKind } from '../../spec/index.ts';
import { clauseOf, isNegated } from './clause.ts';
import { type Comparison, comparisonBefore, withoutVague } from './comparison.ts';
import { otherWay, sideTowards } from './degree.ts';
import { limitNamed } from './names.ts';
import type { Side } from './side.ts';
import { isTarget } from './up-to.ts';
import { WEARS_WIDE } from './wear.ts';

const AT_LEAST = /\b(as (?:low|little|few) as|at(?: the very)? least|a minimum of|min\.?)\W*$/;
/** `within the first hundred miles` ends where they end. */
const AT_MOST =
  /\b((?:you|it|they|we)['’]?(?:re|s| are| is) allowed|at most|a maximum of|max\.?|(?<!\b(?:twice|half|times|same) )as (?:much|many|high|far|long|deep|wide|big|hot|fast|hard|tight|bad) as|up to( and including)?|(limited|restricted|capped) (to|at)|(within|inside( of)?)( the (first|next|following))?)\W*$/;
/** `it should not pass fifteen`: to pass it is to exceed it. */
const NOT_PASS = /(?:\b(?:not|never|cannot)|n['’]t) pass\s*$/;
/** `it mustn't sag past nine and a half`: what falls past a value is below it. */
const FALLS_PAST = /\b(?:sag|drop|fall|dip|sink|droop|come down|go down)(?:s|ped)? (?:past|beyond)\s*$/;
/** `keep it to eighty percent`, `cap the pressure on those rims at`, `hold the load down to`. */
const KEPT_TO =
  /\b(?:(?:(?:(?<![\w'’] )|(?<=\b(?:to|you|we|i|and|please|should|must|['’]d) ))cap|capped|limit|limited|restrict|restricted|confined?)(?: [\w'’-]+){1,7}? (?:at|to)|(?:keep|keeping|kept|hold|holding|held)(?: (?:it|them|that|this|these|things|yourself|(?:the|your|my|each|every)(?: [\w'’-]+){1,4}?))(?: down)? to)\s*$/;
const KEPT_BY =
  /\b(?:close|near|next|square|parallel|set|pumped|topped|tight|right|up|flush|true|flat|level|tilted|angled|aligned|over) to\s*$/;
const NEEDS =
  "(?:has to|have to|must|should|needs? to|ought to|(?:['’]s|['’]ve|has|have)? ?got to|gotta|supposed to|better)";
/** `the blade has to be stopped by`, `must let go before the gauge sees`. */
const DONE_BY = new RegExp(
  `\\b${NEEDS}\\b[^,;:]{0,50}\\b(?:quit|stop|stopped|gone|go|off|open|trip|tripped|out|done|cut|release|released|rest|dead|shut|over|finished)\\b[^,;:]{0,15}\\b(?:by|before)(?: (?:the \\w+|it|you|we) (?:sees?|gets? to|hits?|reaches|reach|reads|shows))?\\s*$`,
);
/** `I want a good two metres between`: and no less. */
const A_GOOD = /\b(?:want|need|needs|keep|leave|allow)(?: \w+){0,2} a good $/;
/** `at least two tree lengths back; in this paddock that's`: a limit in another measure, and what it comes to. */
const OWN_MEASURE =
  /\b(?:(at least|no less than|no (?:closer|nearer|tighter|lower) than|(?:don['’]t|never) [\w ]{1,25}(?:closer|nearer|tighter|lower|less) than)|at (?:the )?most|no (?:more|further|higher) than)(?: [a-z'’]+){2,8}[,;:]+ (?:so |and )?(?:(?:in|on|for|with) [\w' ’-]{1,25},? )?(?:(?:so )?(?:that['’]s|which is|call it)|so for [\w ]{1,20},)(?: about)? $/;
/** `it's got to stay lit for`, `must hold a full`, `has to keep up`: no less will do. */
const MUST_LAST = new RegExp(
  `\\b${NEEDS} (?:\\w+ly )?(?:(?:stay|last|survive|keep|remain)\\b[^,;:]{0,25}?\\s(?:for )?|hold\\b[^,;:]{0,15}?\\s(?:for )?(?=a (?:full|good) ))(?:a full |the full |a good )?$`,
);
const MUST_REACH = new RegExp(
  `\\b${NEEDS} (?:\\w+ly )?(?:add up to|keep up|make|manage|withstand|survive|support|carry)\\s*$`,
);

/** Who lets it be so much. */
const WHO_ALLOWS =
  '(?:maker|trade|manufacturer|makers|manual|book|table|standard|code|rules?|regs?|regulations|spec|label|nameplate|plate|drawing|they|it|he|she)';
/** `the maker allows eight`, `allowed is four`, `she's allowed twelve amps`. */
const GOOD_TO =
  /\bgood (?:to|up to)\s*$|\bonly (?:reads|goes) (?:up )?to\s*$|\b(?:lets?|allows?|may|can)\b[^,;:]{0,20} (?:wander|vary|drift|differ|stray) by\s*$|\b(?:book|manual|chart|table|spec|scale) (?:stops|ends|finishes) at\s*$/;
/** `this rack's good for`: what it bears. */
const GOOD_FOR = /\b(?:good|rated) (?:for|to)\s*$/;
const BORNE = new Set<SimpleKind>(['mass', 'force']);
/** `not until the meter's fallen to`, `refuses till it's come down to`: what is waited for, and from which side it comes. */
const NOT_UNTIL =
  /\b(?:not|never|no|nothing|nobody|refuses?|wait|don['’]t|won['’]t|can['’]t|isn['’]t|mustn['’]t)\b[^;]{0,60}\b(?:until|till)\b[^,;:]{0,40}?\b(?:(fallen|falls?|dropped|drops?|down|cooled|dried|dries|cools)|(risen|rises?|climbed|climbs?|up|warmed|reached|reaches|hits?|gets?|got|comes?|sees?|shows?|reads?))(?: (?:down|back|up))?(?: to)?\s*$/;
const ALLOWED = new RegExp(
  `\\b(?:allowed|permitted|allowable)(?: (?:is|are|was|here is))?[:,]?\\s*$|\\b${WHO_ALLOWS}(?: (?:on|for|in|of) (?:the|this|that|its) \\w+)? (?:only )?(?:allows?|permits?|tolerates?|puts up with)(?: (?:me|you|us|it|for))?(?: up to)?\\s*$`,
);
/** `it has crept past two hundred`: where something has come to is what it is, and no limit. */
const COME_PAST =
  /\b(?:gone|went|came|come|climbed|climbing|risen|crept|creeping|dropped|dropping)(?: up| down)? (?:over|above|under|below|past|beyond)\s*$/;
/** What is asked for, or told of a case: `if it reads over`. */
const ASKED_FOR =
  /\b(?:if|when|once|whenever|until|till|unless|where|anything|anyone|any|should|must|want|wants|need|needs|like|never|not|no|nobody|don['’]t|can['’]t|to (?:see|be|read|show)|has to|have to|which|that|one|ones|or|let)\b[^,;:]*$/;
/** Of a force, `under` says what something is measured under; of a length, `over` says along what. */
const UNDER = /\bunder(neath)?\W*(about|around|roughly|a load of|a force of)?\W*$/;
const LIMIT_OF_THE_LAST =
  /\b(?:psi|bar|mil|mm|cm|thou|rpm|nm|percent|per cent|foot|[a-z]{2,}s) (?:max|maximum|min|minimum|tops|at (?:the )?(?:most|least)), (?:and |but |with )?$/;
const PUSHED =
  /\b(?:load|force|deflect\w*|moves?|measure[ds]?|play|flex\w*|gives?|stretch\w*|sags?|holds?|drops?|bends?|compress\w*|travel|length|height|slack) [^,;:]*under|\bunder(?:neath)?\W*(?:a load of|a force of)/;
/** `bend each tooth over eight thou`: which way it goes. */
const OVER_AS_WAY =
  /\b(bend|bends|bent|bending|tip|tips|tipped|lean|leans|swing|fold|push|pushed|slide|roll|tilt|shift|knock|set|kick) ((it|them|that|this|each|every|the|one|both)( [\w-]+){0,2} )?over\s*$/;
/** `a quarter inch of deflection over six inches`: along so much. */
const ALONG =
  /\b(mil|millimet(?:re|er)s?|inch(?:es)?|thou|flat|straight|true|deflection|drop|fall|rise|runout|bow|twist|sag|tenth|hundredth|carr(?:y|ies|ied) (?:it|them|that))( of \w+| out| off| high| low| proud| down| up)?,? over\s*$/;
/** `I use the thick oil above forty degrees`: the weather says which to use, and is none to keep to. */
const WHEN_TO_USE = /\b(i|we|you) (use|run|put|go with|switch to)\b[^,;:]* (above|below|over|under)\s*$/;
/** `a bit over three hundred`: nearly that. */
const NEARLY =
  /\b(just|a (?:bit|hair|touch|tad|shade|little|whisker)|slightly|fractionally) (over|under|above|below|more than|less than|(?:shy|short|north|south)(?: of)?)\s*$/;
/** `the pass mark's two`: reached or failed. */
const PASS_MARK =
  /\bpass(?: ?mark| level| figure)(?:['’]s| is| was)?(?: at)?\s*$|\b(?:a|the) pass(?:['’]s| is)\s*$|, pass(?:['’]s| is)\s*$/;
/** `the wear mark's at six`. */
const WEAR_MARK =
  /\b(?:wear|reject|scrap|discard) (?:mark|line|point|figure|size)(?:['’]s| is| are| was)?(?: at| of)?\s*$/;

/** True where a word of comparison says a way, a length along, a target or nearly so much, and parts nothing. */
export function partsNothing(before: string, kind: SimpleKind): boolean {
  const said = withoutVague(before);
  return (
    (kind === 'force' && UNDER.test(said) && PUSHED.test(said)) ||
    LIMIT_OF_THE_LAST.test(said) ||
    // `the nut goes up to five newton metres`: so tight.
    (kind === 'torque' && /\b(?:nuts?|bolts?|screws?|caps?|plugs?) goe?s? up to\s*$/.test(said)) ||
    isTarget(said) ||
    OVER_AS_WAY.test(said) ||
    (kind === 'length' && ALONG.test(said))
  );
}

/** A limit by words that need no comparison: `no socket within`, `you're allowed`, `the pass mark's`. */
function boundAlone(before: string, said: string, kind: SimpleKind, earlier: string): Side | undefined {
  if (KEPT_TO.test(said) && !KEPT_BY.test(said)) return 'max';
  const own = OWN_MEASURE.exec(`${earlier.slice(-80)} ${before}`);
  if (own) return own[1] === undefined ? 'max' : 'min';
  if (DONE_BY.test(said)) return 'max';
  if (A_GOOD.test(before)) return 'min';
  if (/\bcan afford(?: to \w+)? $|\blet (?:you|it|them|him|her) have $|\bonly fit for $/.test(said)) return 'max';
  if (BORNE.has(kind) && GOOD_FOR.test(said)) return 'max';
  const until = NOT_UNTIL.exec(said);
  if (until) return until[1] === undefined ? 'min' : 'max';
  if (MUST_REACH.test(said) || (kind === 'time' && MUST_LAST.test(said))) return 'min';
  // `up to two-fifty and down to two-sixteen`.
  if (/\bup to\b[^;:]{1,60}\band (?:as low as|down to) $/.test(said)) return 'min';
  // `anything down to 228 I'd live with`.
  if (/\banything (?:\w+ )?down to $/.test(said)) return 'min';
  // `I'd live with ten`: and no more.
  if (
    /(?:['’](?:d|ll)|\b(?:could|would|will|might)) (?:live with|put up with|stretch to|allow(?: (?:you|it|them|that))?|tolerate|accept) $/.test(
      said,
    )
  )
    return 'max';
  // `you don't want four-fifty`: so far and no further.
  if (/\b(don['’]t|never|wouldn['’]t) want (it )?(to (see|be at|go to|reach|hit) )?$/.test(said)) return 'max';
  if (NOT_PASS.test(said) || ALLOWED.test(said) || GOOD_TO.test(said)) return 'max';
  if (PASS_MARK.test(said)) return 'min';
  if (WEAR_MARK.test(said)) return WEARS_WIDE.test(`${earlier} ${before}`) ? 'max' : 'min';
  return undefined;
}

/** A comparison that is asked for leaves its own side, a denied one the other; what is waited for is asked for. */
function sideCompared({ way, lead }: Comparison): Side {
  const { joint, main, inner } = clauseOf(lead);
  const denied =
    isNegated(inner) !== (joint === 'if' && isNegated(main)) || (joint === 'until' && NO_MATTER.test(main));
  return sideTowards(denied ? otherWay(way) : way);
}
/** `don't worry unless it's over`: what is let pass up to there. */
const NO_MATTER = /\b(?:worry|fret|panic|bother|fine|okay|good|happy|live with|leave (?:it|them)|ignore)\b/;

/**
 * The side that the words before a number leave to it, as `max` for "no more than".
 *
 * @param earlier the end of what was said before this sentence
 */
export function sideBefore(before: string, kind: SimpleKind, earlier = ''): Side | undefined {
  const said = withoutVague(before);
  if (partsNothing(before, kind)) return undefined;
  const reads = COME_PAST.exec(said);
  if (reads && !ASKED_FOR.test(said.slice(0, reads.index))) return undefined;
  const alone = boundAlone(before, said, kind, earlier);
  if (alone) return alone;
  // `climbed from two up to three`.
  if (/\bfrom [^,;]{1,40} up to\s*$/.test(said)) return undefined;
  const falls = FALLS_PAST.exec(said);
  if (falls) return isNegated(said.slice(0, falls.index)) ? 'min' : 'max';
  if (NEARLY.test(said) && !isNegated(said)) return undefined;
  if (kind === 'temperature' && WHEN_TO_USE.test(said)) return undefined;
  for (const text of [before, said]) {
    if (AT_LEAST.test(text)) return 'min';
    // `no socket within two metres of the bath`.
    if (/\b(?:no|nothing|never|nobody|none) [^,;:]{0,40}\b(?:within|inside)\W*$/.test(text)) return 'min';
    if (AT_MOST.test(text)) return 'max';
  }
  const compared = comparisonBefore(before, kind);
  if (compared) return sideCompared(compared);
  // `half a megohm minimum at five hundred volts`: said of what stood before.
  if (/\b(minimum|maximum|min|max|limit) (at|with|on|for)\s*$/.test(said)) return undefined;
  return limitNamed(before, kind, earlier);
}
