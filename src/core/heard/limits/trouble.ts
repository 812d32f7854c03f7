/** What is done with a thing that is no longer good, or said of it. */
export const NO_LONGER_GOOD =
  /\b(bin|binned|scrap|scrapped|chuck|chucked|toss|ditch|replac\w+|swap|swapped|condemn\w*|retire|reject|rejected|discard|discarded|throw|goes in the bin|is done|are done|['’]s done|finished|worn( out)?|shot|toast|grounds for|cooked|fried|ruined|wrecked|scorched|stripped|paperweight|ornament|doorstop|rubbish|stays? off|dead|gone|no good|junk|(means|needs?|get|fit|wants?) (a )?new|tired|had it|time (to|for)|(send|goes?|take) (it |them )?back|not safe|unsafe|too (slack|big|hard|soft|cold|shallow|slow|fast|rich|lean|thin|short|low|small|far|weak|worn|much|little|loose|tight|high|hot|long|wide|deep|late)|fails?|failed|unstable|suspect|unsafe|faulty|dodgy|out of spec|not for you|you['’]ve failed|comes? (?:out|off)|seize[sd]?|won['’]t (start|run|hold|cure|set|stick|pass)|(not|isn['’]t|ain['’]t) (good|enough|acceptable|okay|ok|safe)|already late|so (?:it|they|that|you|we|i) (?:needs?|gets?|wants?|goes|go|must)|(a|the|your|you['’]ve got a|there['’]s a) problem|trouble|(?:wouldn|won|don)['’]t (bother|trust|use|run|ride)|(?:doesn|don|won|can)['’]t (?:go|get|come|fit) (?:in|on|through|near|back|past)|, not (?:through|in|on|near) (?:this|that|my|the)|something['’]s wrong|(?:hardly|barely|scarcely) (?:start|run|cut|turn|work|hold)|(tear|strip) it down|rebuild|re-?grind|re-?bore)\b/;
const THROWN_AWAY =
  /\b((?:get|gets|start|starts|be|feel)(?:ting)? (?:nervous|worried|worrying|suspicious|unhappy|concerned|twitchy|asking)|chirps?|beeps?|complains?|bins?|binned|scraps?|scrapped|(?<!\b(?:the|a|my|your) )chuck|fail(?:ed|s)? (?:it|them|that)|toss|ditch|replaced?s?|changed|swaps?|swapped|condemns?|retires?|rejects?|discards?|throws? (it|them|the \w+)( away| out)?|worn( out)?|done|finished|shot|junk)\b[^.;]{0,60}$/;
/** What is done about it: `if it is over ten thou, shim it`. */
const SENTENCE_BEGINS = /(^|[.!?]\s)\W*(and |but |so )?$/;
const WOULD = /^(?:,| and)? (i['’]d|you['’]d|i would|you['’]re|you['’]ve|i start|i['’]m|we['’]d)\b/;
const ON_CONDITION = /\b(if|when|once|whenever)\b[^,;]*$/;
/** `anything under`, `if it reads less than`: one side of it is told of. */
const ANYTHING = /\b(anything|any(where)? )\s*(that['’]s |much |it['’]s )?$/;
/** What comes of it: `and I'd be looking at the ring`, `and the clutch starts to drag`, `means a tired saw`. */
const WHAT_COMES =
  /^ (?:i['’]m not|i don['’]t|i won['’]t|we don['’]t|we['’]re not|you don['’]t)\b|^ [a-z]{3,}s (it|them|the|your?|my)\b|^[^,;:.]{0,40}?(,|\band\b|\bmeans\b|\bis (a |an |too |asking|worth|cause|where|when|not )|\bgets? (a|the) )/;
/** What a thing is made to do there: `anything under thirty volts and the pack shuts off`. */
const BY_ITSELF =
  /\b(shuts? (off|down)|cuts? (out|off)|switches (off|over|on)|trips|kicks in|turns (off|on)|opens|closes)\b/;
/** What is done in that case: `anything above fifty volts, you treat it as deadly`. */
const TREATED = /^[^,]{0,20}, (?:you|i|we) (?:treat|turn|use|run|go|switch|step|slow|wear)\b/;
/** What is said of the good side. */
const GOOD =
  /\b(fine|okay|ok|good|great|plenty|acceptable|passe[sd]|a pass|will do|works|happy|live with|(?:leave|left) (it|them)|enough|safe|all right|alright|perfect|normal|healthy|allowed|in spec|within spec|no problem|who cares|never (?:see|notice|know|feel)|you can (?:stop|carry on|go on|move on|leave)|leave alone|so be it|usable|useable|enough|don['’]t worry|(?:doesn['’]t|won['’]t) matter|won['’]t hurt|will hold|holds|can go|to spare)\b/;
/** `it's a pass anywhere short of`. */
const PASSES = /\b(?:a pass|passes|fine|okay|good|acceptable)(?: (?:anywhere|anything|with|at|if it['’]s))? $/;
const OTHER_SIDE =
  /,[^,]* (?:under|below|over|above) (?:[a-z]+t(?:y|een)|one|two|three|four|five|six|seven|eight|nine|ten|half|a|\d).*$/;
/** `keep it under`: told of the good side. */
const KEPT_SO = /\b(keep|keeps|kept|stay|stays|hold|holds)( (it|that|this|them|the \w+))?( well)?\s+$/;
/** `pads are a shade under two`: read so. */
const A_LITTLE =
  /(?:['’](?:s|re)|\b(?:is|are|was|were)) (?:just|slightly|a (?:bit|hair|shade|touch|tad|whisker|little))\s+$/;
/** `gas older than thirty days goes in the truck`: what is kept too long. */
const OLDER_THAN =
  /\b(?:fuel|gas|petrol|mix|glue|paint|resin|epoxy|oil|fluid|sealant|grease|stuff)(?: that['’]s)? older than\s+$/;

/**
 * True where the values that a comparison speaks of are told as no good: by what is done with the thing, by the harm that
 * comes, or by what somebody does about it. `Over two volts and I start hunting`, `below four millimetres, bin it`.
 *
 * @param lead the words before the comparison
 * @param rest those behind the quantity
 * @param isCase whether they tell a case of which something comes
 */
export function isTrouble(lead: string, rest: string, isCase: () => boolean): boolean {
  if ((KEPT_SO.test(lead) && !ON_CONDITION.test(lead)) || A_LITTLE.test(lead) || BY_ITSELF.test(rest)) return false;
  const anything = ANYTHING.test(lead);
  if (PASSES.test(lead)) return false;
  if (anything && TREATED.test(rest)) return false;
  if (THROWN_AWAY.test(lead)) return true;
  const gone = NO_LONGER_GOOD.test(rest);
  if (GOOD.test(rest.split(/, (?:and|but) /)[0] ?? '') && !gone) return false;
  return (
    gone ||
    (anything && (WOULD.test(rest) || WHAT_COMES.test(rest))) ||
    (SENTENCE_BEGINS.test(lead) && WOULD.test(rest)) ||
    (ON_CONDITION.test(lead) && /[a-z]/.test(rest)) ||
    isCase()
  );
}

/** True where something is told as no good. */
export const isGone = (said: string): boolean => NO_LONGER_GOOD.test(said);

/** True where what is said of some values lets them pass. */
export const isGood = (said: string): boolean => GOOD.test(said) && !NO_LONGER_GOOD.test(said);

/** What is said behind, without the other side of it: `over two hundred, and I'd have failed it below one`. */
export const withoutOtherSide = (rest: string): string => rest.slice(0, 70).replace(OTHER_SIDE, '');

/** `fuel older than thirty days goes in the truck`: kept too long. */
export const isStale = (before: string, rest: string): boolean => OLDER_THAN.test(before) && !GOOD.test(rest);
