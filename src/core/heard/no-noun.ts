import { anyOf } from './patterns.ts';
import { type Token, wordAt } from './tokens.ts';

/** Where, and from where. */
const PREPOSITIONS = `by past off back into onto behind beside besides against beyond in on out for at with without as up down over
  under underneath round around outside inside through from per to between across above below along near within upon since towards
  toward versus via after during except despite`;
/** A clause goes on. */
const CONJUNCTIONS = `if when while and or but so then before because either neither though although unless once until till where
  whereas wherever whenever whichever which what how why who that than plus not nor yet lest provided`;
/** What it does there, or what was done. */
const VERBS = `is isn['’]t are aren['’]t was wasn['’]t were am be been being do does doesn['’]t don['’]t did didn['’]t has have had can can['’]t could may might
  must should shall will won['’]t would falls drops goes becomes climbs give gives measured wound coiled means looks sounds sits keeps works feels
  comes gets makes wants needs takes says seems stays reads left`;
/** Who, or which. */
const POINTERS = `this these those each every apiece there here the a an your my its his their our it i you he she we they them me us him mine yours
  both neither either all some any another something nothing everything everyone everybody anybody somebody nobody same`;
/** How it stands, and at which end. */
const WAYS =
  'mid vertical horizontal vertically horizontally dead bang apart right flat straight tall wide deep thick high long front rear left inlet outlet intake exhaust ex neutral live';
/** How much, how surely, and when. */
const ASIDES = `rather too again instead maximum max minimum min tops now exactly today and-a-bit even next second later tomorrow tonight
  yesterday afterwards first last total remember mind overall overnight most least about almost already also always anyway anyhow away
  else enough ever everywhere however indeed just like maybe perhaps please meanwhile never often okay ok only otherwise quite
  sometimes somewhere soon still though twice usually well yes yeah no easy fine ish`;
const ADVERBS_PARTICIPLES_AND_SHORT_FORMS = String.raw`un[a-z]*(?:ed|en|wound|bound|done)|[a-z]{3,}(?<!fami|supp|assemb|bel|jel|p)ly|(?:it|i|you|we|they|he|she|that|there|here|what|who)['’](?:s|d|ll|m|re|ve)|[a-z]{2,}(?<!th|bear|bush|spr|fitt|r|str|cas|lin|coupl)ing|['’](?:s|ll|d)`;
/** What ends a number that counts nothing: a word of a closed class, or the beginning of a clause. */
export const NO_NOUN = new RegExp(
  `^(?:${anyOf(PREPOSITIONS, CONJUNCTIONS, VERBS, POINTERS, WAYS, ASIDES)}|${ADVERBS_PARTICIPLES_AND_SHORT_FORMS})$`,
);
/** In what state it measured so much, where no noun follows: `where it was fifty-eight new`. */
const STATES = new RegExp(
  `^(?:${anyOf(`new worn old used fresh stock standard nominal full empty open closed shut loose tight loaded unloaded laden unladen
  static idle level flush clear cold hot warm cool dry wet clean dirty solid gross net rich lean higher lower better worse bigger
  smaller longer shorter wider thicker thinner deeper each good perfect plenty ideal safe normal extra`)})$`,
);
/** `set at a hundred and fifty bring it down`: a word before `it` is no noun that is counted. */
const isVerb = (word: string, behind: Token | undefined) =>
  (/^(it|them)$/.test(behind?.lower ?? '') || (/^(the|your)$/.test(behind?.lower ?? '') && !/s$/.test(word))) &&
  !/^(of|like|than)$/.test(word);

const NUMBERS_BEGIN =
  /^(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]+teen|(?:twen|thir|for|fif|six|seven|eigh|nine)ty|point|half)$/;

/** `sixty-eight held.`: what was done with it. */
const DONE = /^(?!(?:speed|need|seed|bed|shed)$)(?:[a-z]+ed|held|left|cut|set)$/;

/** True where a number ends and counts nothing: no noun stands behind it. */
export function countsNothing(pieces: readonly Token[], to: number): boolean {
  const [next, after] = [pieces[to], pieces[to + 1]];
  if (!next || next.type === 'mark') return true;
  if (next.type !== 'word') return false;
  const last = !after || /^[,.;:?!]$/.test(after.text);
  return (
    NO_NOUN.test(next.lower) ||
    isVerb(next.lower, after) ||
    (DONE.test(next.lower) && last) ||
    /^one$/.test(after?.lower ?? '') ||
    (STATES.test(next.lower) &&
      (!after || after.type !== 'word' || NUMBERS_BEGIN.test(after.lower) || NO_NOUN.test(wordAt(pieces, to + 1))))
  );
}
