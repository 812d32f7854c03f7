/** A verb in any of its forms; stems in `-e` are given without it. */
const forms = (stems: string, stemsInE: string) =>
  `(?:(?:${stems.replaceAll(' ', '|')})(?:[gmnpt]?(?:ing|ed)|e?s)?|(?:${stemsInE.replaceAll(' ', '|')})(?:e|es|ed|ing))`;

/** Verbs that take `up` as their particle with what they raise: do the plug up, bring it up. */
const RAISING = forms(
  'bring brought do nip snug screw wind pump fill air pull took get put set run heat warm work tighten step crank build turn lift jack top bolt cinch pop bump push dial blow add',
  'tak eas torqu rais charg nudg inflat mov',
);
/** Of these alone the value is a target too: go up to 35, warm up to 60 °C. */
const RISING = forms(
  'go come step work creep climb ramp build warm heat pump fill air wind top tighten screw snug nip pull crank run bring',
  'eas torqu ris charg mov',
);

const ALONE = new RegExp(`\\b${RISING}(?:\\s+\\w+ly)?\\s+up to\\W*$`);
const WITH_OBJECT = new RegExp(`\\b${RAISING}((?:\\s+[\\w'’-]+){1,4}?)\\s+up to\\W*$`);
/** Nobody raises `anything`, `a load`: there a limit parts some from others. */
const SOME_OF_THEM = /\b(any\w*|loads?|weights?|values?|figures?|sizes?)$/;
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
  const found = ALONE.exec(before) ?? (object && !SOME_OF_THEM.test(object[1] ?? '') ? object : undefined);
  if (!found) return false;
  const lead = before.slice(0, found.index);
  // `the scale goes up to 50 kg`: what it can do, not where to bring it.
  if (/^goes\b/.test(found[0]) && !/\b(he|she)\s+$/.test(lead)) return false;
  return !ALLOWED.test(lead) || NEXT.test(lead);
}
