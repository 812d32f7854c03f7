import type { SimpleKind } from '../spec/index.ts';
import { isTarget } from './up-to.ts';

export type Side = 'min' | 'max';

/** Comparisons that let a value be greater, and those that let it be less. */
const GREATER =
  /\b(more than|in excess of|upwards of|(?<!\b(?:mile|town|street|road) )north of|anything (over|above)|over|above|past|beyond|exceed(s|ing)?|(great|larg|bigg|high|long|wid|thick|deep|old|hott|warm|fast|heavi|tight|strong|tall|lat|furth|farth)er(?: [\w'’-]+){0,3} than)[^\w,]*$|(>=?|≥)\s*$/;
const LESS =
  /\b(less than|fewer than|shy of|south of|under|below|beneath|(small|low|short|narrow|thinn|shallow|young|new|cold|cool|slow|light|loos|weak|earli|soon|clos|near)er(?: [\w'’-]+){0,3} than)[^\w,]*$|(<=?|≤)\s*$/;
const AT_LEAST = /\b(as (?:low|little|few) as|at(?: the very)? least|a minimum of|min\.?)\W*$/;
/** `within the first hundred miles` ends where they end. */
const AT_MOST =
  /\b((?:you|it|they|we)['’]?(?:re|s| are| is) allowed|at most|a maximum of|max\.?|as much as|as many as|(?:go|going) as (?:far|high) as|cap(?:ped)? (?:it|that|this|them) (?:at|to)|up to( and including)?|(limited|restricted|capped) (to|at)|(within|inside( of)?)( the (first|next|following))?)\W*$/;
/** A negation in the same clause turns a comparison round: nobody puts more than. */
const NEGATED =
  /\b(no|not|never(?:, ever)?|nothing|nobody|none|without|neither|nor|cannot|\w+n't|avoid|rather than)\b(?:[^,;:]|,(?= (?:or|nor) )){0,60}$/;
/** `it should not pass fifteen`: to pass it is to exceed it. */
const NOT_PASS = /(?:\b(?:not|never|cannot)|n['’]t) pass\s*$/;
/** `it mustn't sag past nine and a half`: what falls past a value is below it. */
const FALLS_PAST = /\b(?:sag|drop|fall|dip|sink|droop|come down|go down)(?:s|ped)? (?:past|beyond)\s*$/;
/** Who lets it be so much. */
const WHO_ALLOWS =
  '(?:maker|manufacturer|makers|manual|book|table|standard|code|rules?|regs?|regulations|spec|label|nameplate|plate|drawing|they|it|he|she)';
/** `the maker allows eight`, `allowed is four`, `she's allowed twelve amps`. */
const GOOD_TO =
  /\bgood (?:to|up to)\s*$|\bonly (?:reads|goes) (?:up )?to\s*$|\b(?:lets?|allows?|may|can)\b[^,;:]{0,20} (?:wander|vary|drift|differ|stray) by\s*$|\b(?:book|manual|chart|table|spec|scale) (?:stops|ends|finishes) at\s*$/;
const ALLOWED = new RegExp(
  `\\b(?:allowed|permitted|allowable)(?: (?:is|are|was|here is))?[:,]?\\s*$|\\b${WHO_ALLOWS}(?: (?:on|for|in|of) (?:the|this|that|its) \\w+)? (?:only )?(?:allows?|permits?|tolerates?)(?: (?:me|you|us|it|for))?(?: up to)?\\s*$`,
);

/** `this one is showing over two hundred`: what a meter shows is what it is, and no limit. */
const READS_PAST =
  /\b(?:gone|went|came|come|climbed|climbing|risen|crept|creeping|dropped|dropping)(?: up| down)? (?:over|above|under|below|past|beyond)\s*$|\b(?:showing|shows?|showed|reading|reads?|measured|measures|measuring|had|got|getting|seeing|saw|gave|giving|nothing,)(?: (?:it|them))?(?: (?:a bit|well|just|still|comfortably|way|far))? (?:over|above|under|below|more than|past)\s*$/;
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
const TIGHTNESS = /\b(tight|loos)er than( a| an| about)?\s*$/;

/** `I use the thick oil above forty degrees`: the weather says which to use, and is none to keep to. */
const WHEN_TO_USE = /\b(i|we|you) (use|run|put|go with|switch to)\b[^,;:]* (above|below|over|under)\s*$/;

/** `a bit over three hundred`: nearly that. */
const NEARLY =
  /\b(just|a (?:bit|hair|touch|tad|shade|little|whisker)|slightly|fractionally) (over|under|above|below|more than|less than|(?:shy|short|north|south)(?: of)?)\s*$/;

/** `minimum disc thickness is`. */
const NAMED =
  /\b(minimum|min|maximum|max|greatest|largest|smallest|least)\b\.?\s*(?:(?!and\b|then\b|but\b|or\b|to\b|go\b|set\b|use\b|ones?\b|of force\b|effort\b|fuss\b|care\b)[\w-]+:?\s+){0,5}(?:[\w-]+['’]s|is|of|are|was|['’]s)?\W*$/;
/** A name with its value behind a pause: `maximum load, 180 kg`; nothing but the name stands in its clause. */
const NAMED_ALONE =
  /(?:^|[,:]\s*)(?:the |its |your )?(min|max)(?:imum|\.)?(?:\s+(?!effort|fuss|care|attention)[a-z'’-]+){1,6}\s*[,:–—]\s*$/;

/** `the most it will take is`, `the lowest you want to see is`: how far somebody may go. */
const FURTHEST =
  /\bthe (most|highest|longest|hottest|heaviest|fastest|largest|greatest|least|lowest|shortest|smallest|thinnest)(?: that)? (?:i|you|we|they|it|he|she|one|anyone|this|that|these|those|the \w+)(?:[^,;:]{0,30}(?:'d|'ll|\b(?:can|could|may|might|must|should|would|will|want|wants|need|needs|like|dare|takes?|lets?|allows?|stands?|tolerates?)))\b[^,;:]{0,30}?\b(?:is|are|was|would be)\s*$/;

/** A limit alone is the most; a lower one is the least. What limits wear may be either and says so by its thing. */
const LIMIT =
  /(?:\b([\w-]+) )?\b(limit|ceiling)\b(?:(?: (?:of|on|for|in|at|with|to)) (?:[\w'’-]+ ){0,3}[\w'’-]+)?(?:,? ?(['’]s|is|are|was|of|at|will be|would be|stays))?[\s:,–—=]*$/;
/** `the limit they give for the chain is`. */
const LIMIT_SET =
  /(?:\b([\w-]+) )?\b(limit)(?: that| which)? (?:i|we|you|they|he|she|it|the \w+)\b[^,;:]{0,50}? (is|are|was)\s*$/;
/** What wears thin is done at its limit and below it. */
export const WEARS_THIN =
  /\b(thinnest|pads?|linings?|shoes?|treads?|thickness|thin|grooves?|friction material|brushes|journal|crankpin)\b/;
/** What a wear limit ends above. */
const WEARS_WIDE = /\b(gaps?|clearances?|play|run-?out|bore|stretch|slack|backlash|elongation|wear on|taper)\b/;
/** `the pass mark's two`: reached or failed. */
const PASS_MARK =
  /\bpass(?: ?mark| level| figure)(?:['’]s| is| was)?(?: at)?\s*$|\b(?:a|the) pass(?:['’]s| is)\s*$|, pass(?:['’]s| is)\s*$/;
/** `the wear mark's at six`. */
const WEAR_MARK =
  /\b(?:wear|reject|scrap|discard) (?:mark|line|point|figure|size)(?:['’]s| is| are| was)?(?: at| of)?\s*$/;
const BARE_LIMIT =
  /^\W*(and |so |but |now )?((the|its|their) |(?=reject|wear|service|scrap))((?:reject|wear|service|scrap) )?limit(['’]s| is| are| was|,|:)/;
const EITHER = /^(wear|service|lower|bottom|minimum|upper|top|maximum)$/;

/** `you're under the limit: 0.3 mm`: said of the value, which is none itself. */
const BESIDE = /\b(under|over|past|beyond|below|above|off|near|inside|within|outside)( the| its| your| our)?\s+$/;

function limitNamed(before: string, kind: SimpleKind, earlier: string): Side | undefined {
  const limit = LIMIT.exec(before) ?? LIMIT_SET.exec(before);
  if (
    !limit ||
    BESIDE.test(before.slice(0, before.indexOf(limit[2] ?? '', limit.index))) ||
    (limit[2] === 'ceiling' && !limit[3] && !/['’]s(?: (?:our|the|your|my) ceiling,)?\s*$/.test(before))
  )
    return undefined;
  const which = EITHER.exec(limit[1] ?? '')?.[0];
  if (which && !/^(wear|service)$/.test(which)) return /^(lower|bottom|minimum)$/.test(which) ? 'min' : 'max';
  // `Measure the lining. The limit is`: a limit of nothing named is one of what was last spoken of.
  const of = BARE_LIMIT.test(before) ? `${earlier} ${before}` : before;
  if (kind === 'length' && WEARS_THIN.test(of)) return 'min';
  return which && !WEARS_WIDE.test(of) ? undefined : 'max';
}

/** `the maximum on the sidewall, which on this one is`: the limit told in a clause of its own. */
const WHICH_IS = /\s*,\s*which(?: (?:here|there|(?:on|for|in|of|with|by) [^,;:]{1,30}?))?(?= (?:is|are|was)\s*$)/;
/** Who says so: `the maximum, per the sticker, is`. */
const ASIDE =
  /(?:\s+(?:is|are|was)|['’]s) (?:stamped|printed|marked|written|cast|etched|moulded|molded)(?: (?:right|here|there|on|in|into|the|it|its|side|edge|face|back|label|disc|rotor|sidewall)){0,5}\s*[,:]\s*$|\s*,\s*(?:per|as|according to|going by|by|says?|it says|on|in|for) [^,;:]{1,40},\s*(?=(?:is|are|was)\b)/;

/**
 * The side that the words before a number leave to it, as `max` for "no more than".
 *
 * @param earlier the end of what was said before this sentence
 */
export function limitBefore(before: string, kind: SimpleKind, earlier = ''): Side | undefined {
  const said = before
    .replace(/\b(about|around|roughly|approximately|the|a|an|of|only|just|maybe)\s*$/, '')
    .replace(/\s+$/, ' ');
  if (kind === 'force' && UNDER.test(said) && PUSHED.test(said)) return undefined;
  // `a hundred and ten psi max, ninety is easier`: the limit of what stood before.
  if (LIMIT_OF_THE_LAST.test(said)) return undefined;
  // `the nut goes up to five newton metres`: so tight.
  if (
    (kind === 'torque' && /\b(?:nuts?|bolts?|screws?|caps?|plugs?) goe?s? up to\s*$/.test(said)) ||
    isTarget(said) ||
    OVER_AS_WAY.test(said) ||
    (kind === 'length' && ALONG.test(said))
  )
    return undefined;
  // A tighter bend is a smaller one, a looser fit a larger one.
  if (kind === 'length' && TIGHTNESS.test(said)) return /tighter/.test(said) === NEGATED.test(said) ? 'min' : 'max';
  // `anything down to 228 I'd live with`.
  if (/\banything (?:\w+ )?down to $/.test(said)) return 'min';
  // `I'd live with ten`: and no more.
  if (/(?:['’](?:d|ll)|\b(?:could|would|will|might)) (?:live|put up) with $/.test(said)) return 'max';
  // `you don't want four-fifty`: so far and no further.
  if (/\b(don['’]t|never|wouldn['’]t) want (it )?(to (see|be at|go to|reach|hit) )?$/.test(said)) return 'max';
  const reads = READS_PAST.exec(said);
  if (reads && !ASKED_FOR.test(said.slice(0, reads.index))) return undefined;
  if (NOT_PASS.test(said) || ALLOWED.test(said) || GOOD_TO.test(said)) return 'max';
  // `climbed from two up to three`.
  if (/\bfrom [^,;]{1,40} up to\s*$/.test(said)) return undefined;
  if (PASS_MARK.test(said)) return 'min';
  if (WEAR_MARK.test(said)) return WEARS_WIDE.test(`${earlier} ${before}`) ? 'max' : 'min';
  const falls = FALLS_PAST.exec(said);
  if (falls) return NEGATED.test(said.slice(0, falls.index)) ? 'min' : 'max';
  if (NEARLY.test(said) && !NEGATED.test(said)) return undefined;
  if (kind === 'temperature' && WHEN_TO_USE.test(said)) return undefined;
  for (const text of [before, said]) {
    if (AT_LEAST.test(text)) return 'min';
    // `no socket within two metres of the bath`.
    if (/\b(?:no|nothing|never) [^,;:]{0,40}\bwithin\W*$/.test(text)) return 'min';
    if (AT_MOST.test(text)) return 'max';
    const comparison = GREATER.exec(text) ?? LESS.exec(text);
    if (comparison) return GREATER.test(text) !== NEGATED.test(text.slice(0, comparison.index)) ? 'min' : 'max';
  }
  const name = before.replace(ASIDE, ' ').replace(WHICH_IS, '');
  // `half a megohm minimum at five hundred volts`: said of what stood before.
  if (/\b(minimum|maximum|min|max|limit) (at|with|on|for)\s*$/.test(said)) return undefined;
  const limit = limitNamed(name, kind, earlier);
  if (limit) return limit;
  const named = (FURTHEST.exec(name) ?? NAMED_ALONE.exec(name) ?? NAMED.exec(name))?.[1];
  return named === undefined ? undefined : /^(min|small|least|low|short|thin)/.test(named) ? 'min' : 'max';
}
