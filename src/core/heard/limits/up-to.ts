/** A verb in any of its forms; stems in `-e` are given without it. */
const forms = (stems: string, stemsInE: string) =>
  `(?:done|did|does|(?:${stems.replaceAll(' ', '|')})(?:[gmnpt]?(?:ing|ed)|e?s)?|(?:${stemsInE.replaceAll(' ', '|')})(?:e|es|ed|ing))`;

/** Verbs that take `up` as their particle with what they raise: do the plug up, bring it up. */
const RAISING = forms(
  'bring brought do nip snug screw wind pump fill air pull took get put set run heat warm work tighten step crank build turn lift jack top bolt cinch pop bump push dial twist blow add',
  'tak eas torqu rais charg nudg inflat mov clos',
);
/** Of these alone the value is a target too: go up to 35, warm up to 60 °C. */
const RISING = forms(
  'go come get step work creep climb ramp build warm heat pump fill air wind top tighten screw snug nip pull crank run bring',
  'eas torqu ris charg mov clos tak',
);
/** Said of what happened: `came up to`, `has crept up to`. Where it has come to is no limit. */
const CAME =
  '(?:tapers|tapered|comes|came|went|got|gone|gotten|crept|rose|risen|ran|shot|jumped|climbed|moved|closed|built|warmed|heated)';

/** `the lift`, `a set`: a noun. */
const VERB = String.raw`(?<!\b(?:the|a|an|this|that|my|your|our|its|each|every)\s)\b`;
const ALONE = new RegExp(`${VERB}${RISING}(?:\\s+\\w+ly)?\\s+up to\\W*$`);
const WITH_OBJECT = new RegExp(`${VERB}${RAISING}((?:\\s+[\\w'’-]+){1,4}?)\\s+up to\\W*$`);
/** Nobody raises `anything`, `a load`: there a limit parts some from others. */
const SOME_OF_THEM = /\b(any\w*|loads?|weights?|values?|figures?|sizes?|you|us|anyone)$/;
/** `it takes bikes up to 300 kg`: things of a kind, not one that is raised. */
const TAKES_SOME = /^takes\s+(?!(it|them|this|that|these|those|the|each|both|all|my|our|your|its|his|her)\b)/;
const HAPPENED = new RegExp(`${VERB}${CAME}(?:\\s+(?:back|right|all the way|straight|\\w+ly))?\\s+up to\\W*$`);
/** `in a heavy cut it goes up to`, `the needle comes up to`: on an occasion, or of what shows a reading. */
const ON_OCCASION = /\b(in|under|with|when|while|if|after|during|at|on)\b[^;:]*$/;
const READS =
  /\b(needle|reading|compression|voltage|current|temperature|pressure|level|gauge needle|it all)( \w+)?\s+$/;
/** `once it gets up to 80 °C`: where it has come to. */
const REACHED = /\b(once|when|until|till|as soon as|let|after)\b[^,;:]*(\b(is|are|get|gets|got)|['’]s) up to\W*$/;
/** What may be done is a limit; what can be done next is a target. */
const ALLOWED = /\b(can|could|may|might|allowed to|able to|safe to)\b[^,;:]*$/;
const NEXT = /\b(now|then|so|next)\b[^,;:]*$/;

/**
 * True where the words before a number say how far to bring something: "bring it up to 35", "do the plug up to 25".
 *
 * @param before in small letters; ends in `up to`, or it is no target
 */
export function isTarget(before: string): boolean {
  const object = WITH_OBJECT.exec(before);
  if (REACHED.test(before) || HAPPENED.test(before)) return true;
  const kind = SOME_OF_THEM.test(object?.[1] ?? '') || TAKES_SOME.test(object?.[0] ?? '');
  const found = ALONE.exec(before) ?? (kind ? undefined : object);
  if (!found) return false;
  const lead = before.slice(0, found.index);
  // `the scale goes up to 50 kg`: what it can do, not where to bring it.
  if (/^(goes|works|runs|pulls|gets)\b/.test(found[0]) && !/\b(he|she)\s+$/.test(lead))
    return READS.test(lead) || (/\bit\s+$/.test(lead) && ON_OCCASION.test(lead));
  return !ALLOWED.test(lead) || NEXT.test(lead);
}
