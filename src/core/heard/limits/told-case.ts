/**
 * A case told without an `if`: `out by more than a tenth, get the flat file`, `thinner than ten percent and the tree's
 * steering`, `over forty? Then we go home`, `over two thou` as the answer to `how oval is too oval?`
 */

/** A verb that says or asks how something is: its clause is a sentence of its own, and no case. */
const FINITE =
  /\b(?:want\w*|need\w*|keep\w*|stay\w*|must|should|has to|have to|got to|is|are|was|were|am|be|['’](?:s|re|m|ve|d|ll)|has|have|had|can|could|may|might|will|would|do|does|did|got|get|gets|make|like|let|aim|use|uses|try|look|see|hold|holds|takes?|comes?|goes|runs?|sits?|rated|set|leave|lets?|gives?|gave|allows?|accept)\b/;
/** These tell a case, though a verb stands in them: `go past`, `lean on them harder than`, `that's been standing beyond`. */
const CASE_VERB =
  /(?:^|[,;:.]\s|\b(?:and|but|so|or) )\W*(?:(?:go|get|run|push|take|turn|wind|let|lean|pull|crank|press|squeeze|tighten|drop|fill|pump|heat|leave|feed|bend|stretch|space|cut|charge|load|spin|drive|torque|do)(?: \w+){0,4}|(?:reads?|shows?|measures?|comes? (?:in|out|up|back)|sits?|drops?|falls?|rises?|goes|gets|takes?|runs?|anything (?:that )?\w+|any [\w ]{1,20}))\s+$/;
const OF_THE_NOUN = /\b(?:that|which|who)(?:['’]s| is| are| was| has| have)(?: been)?(?: \w+ing| \w+ed)?\b/g;

/** What comes of it, as a clause with a subject or a command. */
const SUBJECT =
  "(?:it|they|that|this|you|we|i|he|she|there|these|those|somebody|nobody|(?:the|your|my|our|a|an|that|this|its) [\\w'’-]+(?: [\\w'’-]+)?)(?:['’](?:s|re|ll|d|ve|m))?";
const COMMAND =
  '(?!and|but|so|or|which|then|if|when|for)[a-z]+ (?:it|them|me|the|your|that|this|a|an|out|up|off|back|in|home|another|some|new)';
const COMES_OF_IT = new RegExp(
  `^[^,;:.?]{0,45}?(?:,|\\s[–—-]|:)(?: (?:then|well|look))? (?:${SUBJECT} [\\w'’]+|${COMMAND}\\b|(?:no|new) \\w+)|^[^,;:.?]{0,45}? and (?:then )?(?:${SUBJECT} [\\w'’]+)|^[^,;:.?]{0,45}?, and (?:then )?(?:it|they|that|you|the [\\w'’-]+)(?:['’]ll| will| gets| goes) `,
);
const COMES_AT_ONCE = new RegExp(
  `^ (?:old |long |deep |thick |wide )?(?!(?:you|we|i)\\b(?!['’]ll))${SUBJECT} (?!starts? to)[\\w'’]+`,
);
/** `so`, `which` and the like tell what the speaker makes of it, not what happens then. */
const REMARK =
  /^[^,;:.?]{0,45}?, (?:so|which|but|just|like|as|same|though|because|or|i think|i reckon|i['’]d say|that['’]s (?:what|how|why|the|a|your|my|about|roughly|plenty))\b/;
const ASKS =
  /\b(?:when|where|what|how)\b[^?]*\b(?:too|worry|stop|pack up|bin|scrap|replace|change|swap|reject|fail|worn|bad|give up|throw|retire|done)\b[^?]*\?\s*$/;
const GO_ON =
  /^\?\s+(?!(?:yes|yeah|yep|nope|fine|good|great|lovely|perfect|happy|okay|ok|pass|brilliant|nearly|about|i)\b)[a-z]/;
/** `a cable that's shallower than fifty needs extra protection`. */
const PREDICATE =
  /^(?:,[^,;]{1,35},)? (?:old |long |deep |[a-z]+s? )?(?:needs?|gets?|goes|comes|means|wants|must|turns|runs|grabs|cracks|chips|burns|leaks|slips|tears|snaps|breaks|dies|stalls|jams|binds|wears|eats|kills|ruins|has to|has no|have no|won['’]t|isn['’]t|can['’]t|is (?:out|off|a |an |too|asking|\w+ed\b))\b/;

/** True where a comparison with a value tells a case, of which something comes. */
export function isToldCase(inner: string, earlier: string, rest: string, beyond: string): boolean {
  const clause = inner.replace(OF_THE_NOUN, ' ').replace(/^.*[,;:.](?= )/s, '');
  const fragment = CASE_VERB.test(inner) || !FINITE.test(clause);
  if (
    /\b(?:that|which|who)(?:['’]s| is| are| has| have)(?: been)?(?: \w+ing| stood| sat| \w+ed)?(?: for)? $/.test(
      inner,
    ) &&
    PREDICATE.test(rest)
  )
    return true;
  if (!fragment) return false;
  if (/[a-z]/.test(clause) && !CASE_VERB.test(inner) && PREDICATE.test(rest)) return true;
  if (GO_ON.test(beyond) && /^[^,;:]{0,40}$/.test(rest)) return true;
  if (clause.trim() === '' || /^[\w'’ -]{0,20}$/.test(clause)) {
    if (ASKS.test(earlier) && /^\W*$/.test(inner.replace(/\b(?:wind|well|anything|about)\b/g, ''))) return true;
    if (clause.trim() === '' && COMES_AT_ONCE.test(rest)) return true;
  }
  return COMES_OF_IT.test(rest) && !REMARK.test(rest);
}
