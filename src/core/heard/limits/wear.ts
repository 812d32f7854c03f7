import type { SimpleKind } from '../../spec/index.ts';
import type { Side } from './side.ts';
import { NO_LONGER_GOOD } from './trouble.ts';

/** What wears thin is done at its limit and below it. */
export const WEARS_THIN =
  /\b(thinnest|pads?|linings?|shoes?|treads?|thickness|thin|grooves?|friction material|brushes|journal|crankpin)\b/;
/** What a wear limit ends above. */
export const WEARS_WIDE = /\b(gaps?|clearances?|play|run-?out|bore|stretch|slack|backlash|elongation|wear on|taper)\b/;
/** What grows as it wears, and what wears away. */
const GROWS =
  /\b(gaps?|clearances?|play|run-?out|bore|stretch\w*|slack|backlash|elongation|chain checker|chain wear|wear gauge|checker|drops? in|moisture|leak-?down|drop|lash|wobble|groove width|taper|out of round)\b/;
const SHRINKS =
  /\b(pads?|linings?|treads?|thickness|cutters?|tooth|teeth|brush|brushes|disc|discs|rotors?|diameter|rims?|thinner|thin|journal|crankpin|shoes?|plates?|belt|compression|gauge material|tyres?|tires?|ground away|filed (?:back|away)|worn (?:down|away))\b/;
const LEFT = /^\W*(of [\w'’-]+( [\w'’-]+)? )?(left|remaining|to go)\b/;
const WORN_TILL =
  /\b(?:ground|filed|worn|sharpened|planed|turned|skimmed)(?: \w+)? (?:till|until|to the point where) (?:there['’]s |there is |they['’]re |it['’]s )?(?:only |just )?$/;
const LAST_SIZE =
  /^(?: is|['’]s) the point (?:at which|where|when) (?:i|you|we)\b|^ is (?:where|when) (?:i|you|we)(?:['’]d| would)? (?:change|replace|bin|scrap|swap|chuck|throw)\b|^(?:['’]s| is) (?:worn|scrap|done|finished|shot|gone)\b|^\W*(is|was|being) (the|your|its|our) (reject|scrap|discard|throw-?away|wear|replacement)( (size|limit|mark|point|figure))?\b/;
/** Where a wear has come to when something is done about it: `once it hits four`, `if the gauge drops in at`. */
const COME_TO =
  /\b(at|hits?|reach(?:es)?|(?:gets?|is|are|['’]s|wears?) (?:down )?to|down to|up to)\s+(?:(?:about|around|an?|the)\s+)*$/;
/** `my checker drops in at`, without them, is a reading. */
const CONDITION =
  /^\W*(the |your )?[a-z]+ at\s+$|\b(once|when|whenever|if|until|as soon as)\b|^\W*at\s+(?:(?:about|around|an?|the)\s+)*$/;
/** `two and I'm pulling it apart`: what is done there. */
const AND_DONE =
  /^ and (?:i['’]m|you['’]re|we['’]re|i['’]d be) (?:pulling|changing|replacing|binning|scrapping|stripping|swapping|throwing|rebuilding|sending)\b/;
/** `half a millimetre deep and it's out`, `five thou of wobble and it's going back`. */
const AND_OUT =
  /^(?: (?!and\b|or\b|but\b)[\w'’-]+){0,5}?(?:,| and|,? and then) ((?:it|that|they|she|he|the|your|that|you|we)\b(?! see\b)[^,;.]{0,40})/;
const OUT =
  /^(?:it|that|they|she|the [\w'’-]+)(?:['’]s|['’]re| is| are| goes| go| has| have)(?: been)? (?:out|off|going (?:back|in|out)|in the|back|retired|history|warped|red-tagged|failed|for the)\b/;
const FRAGMENT =
  /(?:^|[,;:.?!] )(?:(?:and|but|so|if|once|when|with|dwell|another) )?(?:about |around |even |only |just )?$/;
/** Of these so much and no more may be what makes something done. */
const MAY_BE_DONE = /^(?:time|angle|torque|temperature|volume|mass)$/;
/** `at eighty I'd knock off`. */
const AT = /(?:^|[,;:.] )\W*(?:(?:and|but|so) )?at (?:about |around )?$/;
const I_WOULD = /^ (?:i|you|we)(?:['’](?:d|ll)| would| start| stop)\b/;
/** `scrap at`, `replace the chain at`: said before it. */
const DONE_AT =
  /\b(scrap|scrapped|reject(?:ed)?|discard(?:ed)?|replace[ds]?|swap(?:ped)?|condemn(?:ed)?|bin(?:ned)?|throw (?:the |your |it |them )?(?:\w+ )?away|worn out|finished|done|retired?|toss|chuck)\b(?: [\w'’-]+){0,4} at\s+(?:(?:about|around|an?|the)\s+)*$/;

const runsLow = (said: string, kind: SimpleKind): boolean =>
  SHRINKS.test(said) || (kind === 'voltage' && /\b(?:batter(?:y|ies)|cells?|packs?)\b/.test(said));

/** True where something that has come so far is out, or somebody would do something about it. */
function isOut(before: string, rest: string, kind: SimpleKind): boolean {
  if (AT.test(before)) return I_WOULD.test(rest) && NO_LONGER_GOOD.test(rest);
  const then = FRAGMENT.test(before) ? AND_OUT.exec(rest)?.[1] : undefined;
  if (then === undefined) return false;
  return (
    OUT.test(then) ||
    (NO_LONGER_GOOD.test(then) && (!MAY_BE_DONE.test(kind) || /\btoo (?:long|late|far|hot|much)\b/.test(then)))
  );
}

/** `at half a percent, swap it`, `is the reject size`: which way a thing wears says which side is good. */
export function lastOfAWear(before: string, earlier: string, rest: string, kind: SimpleKind): Side | undefined {
  if (WORN_TILL.test(before)) return 'min';
  if (isOut(before, rest, kind))
    return runsLow(`${earlier} ${before}`, kind) && !GROWS.test(before + rest) ? 'min' : 'max';
  if (LEFT.test(rest) && CONDITION.test(before) && NO_LONGER_GOOD.test(rest)) return 'min';
  if (AND_DONE.test(rest)) return SHRINKS.test(`${earlier} ${before}`) ? 'min' : 'max';
  const doneAt = DONE_AT.test(before);
  const comes = COME_TO.test(before) && CONDITION.test(before) && NO_LONGER_GOOD.test(rest);
  if (!doneAt && !LAST_SIZE.test(rest) && !comes) return undefined;
  if (LEFT.test(rest)) return 'min';
  // `The cutters are at five; once they hit four`.
  const of = doneAt || /\b(they|it|that)\b/.test(before) ? `${earlier} ${before}` : before;
  for (const talked of [of, `${earlier} ${before}`]) {
    if (GROWS.test(talked)) return 'max';
    if (SHRINKS.test(talked)) return 'min';
  }
  return /^(?: is|['’]s) (?:the point|the reject)\b/.test(rest) ? 'max' : undefined;
}
