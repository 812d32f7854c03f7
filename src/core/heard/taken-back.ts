import type { Talk } from './talk.ts';
import { textAt } from './tokens.ts';

/** `not 90`, `instead of 2.5 bar`: named only to be put aside. `Why not 12` is a proposal, `if not` a doubt. */
const REJECTED =
  /\b(?:i['’]m|we['’]re|you['’]re|i am|we are) not (?:setting|running|putting|taking|pumping|doing|going)(?: \w+){0,2} (?:at|to)\s+$|\bused to be(?: about)?\s+$|\bthe old (?:rule|limit|figure) (?:was|said)\s+$|(?<!\b(?:why|if|or|whether or)\s)(?<!\bor )\bnot(?: a| the)?\s+$|\b(instead of|rather than|as opposed to|in place of)( the)?\s+$/;
/** Of these something else is said by `rather than`: how much to be above or below. */
const COMPARED = /\b(more|less|fewer|later|earlier|under|over|above|below)\s+$/;

/** `an inch would be silly`, `two-forty, did I say?`: named only to be laughed at. */
const LAUGHED_AT =
  /^, did i say\b|^,? (?:would|['’]d) be (?:silly|daft|crazy|mad|stupid|ridiculous|madness|nonsense|absurd|overkill|insane)\b/;
/** `isn't forty newton metres, it's one and a half`, `half-inch ply is never half an inch`. */
const DENIED =
  /^(?!.*\b(?:if|unless|until|till|when|because|since|why)\b).*\b(?:(?:is|was|are|were|ai)n['’]t|is never)( (a|an|the|about))?\s+$/;
/** `wait, I said six turns on the adjuster, it's two`. */
const SAID_INSTEAD =
  /^[^.;]{0,40},? (?:and|but) i (?:meant|mean)\b|^[^.;]{0,30}, it['’]s (?:[a-z]+t(?:y|een)|one|two|three|four|five|six|seven|eight|nine|ten|half|\d)/;
/**
 * True for a value that is said only as the one that is not meant.
 *
 * @param before the words before it, in small letters
 */
export function isRejected(before: string, after = ''): boolean {
  if (LAUGHED_AT.test(after)) return true;
  // `I said eighteen before`.
  if (/\bsaid\s+$/.test(before) && /^ (?:before|earlier|last time)\b/.test(after)) return true;
  if (DENIED.test(before)) return true;
  if (/\bi said\s+$/.test(before) && SAID_INSTEAD.test(after)) return true;
  return REJECTED.test(before) && !COMPARED.test(before);
}

/** The token after `not thirteen`, where a number stands against another before their unit: `thirty, not thirteen mm`. */
export function pastRejected({ pieces, numbers }: Talk, at: number): number | undefined {
  const pause = /^[,–—]$/.test(textAt(pieces, at)) ? at + 1 : at;
  const and = pieces[pause]?.lower === 'and' ? pause + 1 : pause;
  if (pieces[and]?.lower !== 'not') return undefined;
  const other = numbers.at(and + 1);
  if (!other || other.article) return undefined;
  return pieces[other.to]?.text === ',' ? other.to + 1 : other.to;
}

const HESITATION = String.raw`((oh|er|uh|um|ah|hmm+|well|hang on|hold on|i(?:['’]ve)? always (?:said|thought))[\s,.…–—-]+)*`;
const INTERJECTION = String.raw`(no,? it (?:doesn['’]t|isn['’]t|wasn['’]t|ain['’]t)(?:,? it (?:reads|says|is|shows))?|no|nope|(?:i['’]m )?sorry|wait|hang on|hold on|s[ct]r\w+ that|(?:actually|hmm+),? no|correction|i mean|i meant|make (?:that|it)|let me (?:look|check|see|read|try|do)(?: (?:that|it|this))?(?: again)?|or rather|my mistake|my bad|i beg your pardon|pardon me|excuse me|(?:i )?tell a lie|or i should say|i should say)\b[\s,;:.…–—-]*`;
/** The slip told: `wrong line`, `I misread it`, `that was for the other one`. */
const SLIP = String.raw`((i|i'm|i've|i was|i am|that's|that was|it's|you're|we're)\s+([\w'’]+\s+){0,4}(misread|mistaken|misspoke|muddled|mixed|wrong|lie|lying|mistake|misprint|typo|rubbish|nonsense)|that(?:['’]s| was) (?:for )?the (?:old|wrong|other|previous) \w+|wrong)\b[^.,;:!?…–—]*[\s,;:.…–—-]+`;
/** `that's the big twin`: what the first value was of. */
const OF_ANOTHER = String.raw`(?:that|this)(?:['’]s| is) (?:for )?the(?: [\w'’-]+){1,3}[,;:.…–—-]+\s+(?:so )?`;
const AGAIN = String.raw`((no|sorry|wait|i mean|make that|it's|it is|that's|that is|not [\w-]+(?: [\w-]+)?|that should be|it should be|should be|(?:it|the [\w-]+) (?:says|reads)|let's say|for (?:this|that|the) [\w-]+(?:['’]s)?,?|(?:this|that) one['’]s|it['’]s|a|an|the|plus|minus)[\s,.…–—-]+)*`;
const BACK = new RegExp(
  `^(?: (?:earlier|before|there|just now|a moment ago))?[\\s,;:.?!…–—-]*${HESITATION}(${INTERJECTION})+(${SLIP}|${OF_ANOTHER})?${AGAIN}$|^[\\s,;:.?!…–—-]+${HESITATION}(${SLIP})${AGAIN}$`,
  'i',
);
/** Where, or of what, may stand before the words that take back: `240 between phases, no, sorry,`. */
const BACK_AFTER_WORDS = new RegExp(
  `^(?: (?!and\\b|then\\b|or\\b)[\\w'’-]+){1,4}[\\s,.…–—-]+${HESITATION}(?:no,? )?(?:sorry|wait|hang on|scratch that|make (?:that|it)|i mean|correction)[\\s,;:.…–—-]+(?:${SLIP})?${AGAIN}$`,
  'i',
);

/**
 * True where the words between two quantities of one kind take the first back: "ninety newton metres, no, sorry,
 * eighty", "45 Nm, no wait, I read the wrong line, 54 Nm".
 */
export function takesBack(between: string): boolean {
  return (
    between.length < 100 &&
    (ASKED_AND_DENIED.test(between) ||
      SLIP_AFTER_WORDS.test(between) ||
      BACK.test(between) ||
      BACK_AFTER_WORDS.test(between))
  );
}

/** `ninety thou for the points, that's a misprint, it's`. */
const SLIP_AFTER_WORDS = new RegExp(
  `^(?: (?!and\\b|then\\b|or\\b)[\\w'’-]+){0,5}[\\s,.…–—-]+(?:${SLIP})${AGAIN}$`,
  'i',
);
/** `seventeen millimetres of kerf? No, one point seven`. */
const ASKED_AND_DENIED = /^(?: [\w'’-]+){0,7}\?\s+(?:no|nope)[,.]?\s+(?:it['’]s |that['’]s )?$/i;

/** What was counted may stand between: `ten minutes of idling, sorry, seconds`. */
const CORRECTION = new RegExp(`^(?: of(?: [\\w'’-]+){1,3}?)?[\\s,;:.…–—-]+${HESITATION}(${INTERJECTION})+`, 'i');

/** `108 foot... newton metres`. */
const BROKEN_OFF = /^\s?(?:\.\.\.|…|—|–)\s+(?!(?:in|a|an)\b)/;

/** How many characters a correction takes that stands here, such as `, sorry, `; nought where none does. */
export function correctionLength(text: string): number {
  return (CORRECTION.exec(text) ?? BROKEN_OFF.exec(text))?.[0].length ?? 0;
}
