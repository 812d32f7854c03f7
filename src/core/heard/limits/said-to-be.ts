import { HIGHEST, LITTLE_OF, LOWEST, MUCH_OF } from './degree.ts';
import type { Side } from './side.ts';

/**
 * What a value is said to be behind it: `is the absolute limit`, `so that's our ceiling`, `is the tiniest piece I'd ever
 * run`, `is as bad as the table lets it get`, `is what the standard allows`.
 */
const THING = "(?: (?!and\\b|but\\b|or\\b|is\\b|are\\b|was\\b|so\\b|if\\b|when\\b)[\\w'’-]+){0,6}?";
const THAT = '(?:(?:[,;.:–—-]+(?: and| but| so| because)?| and) (?:that|it|which|this))?';
const IS = "(?:,? (?:is|are)|['’]s| is| are| was|,? being)";
const ADJECTIVES = "(?: [\\w'’-]+){0,2}?";
const TOP = '(?:limit|ceiling|lid|cap|maximum|max|roof|tops|(?<!a )lot)';
const BOTTOM = '(?:minimum|min|floor|bare minimum)';
/** Whose limit it is, or that there is none further: without it the lowest is only the lowest somebody found. */
const GOES =
  "(?:\\b(?:gets?|ever|allowed|permitted|there is|going|it gets|it goes|get away with)\\b|['’](?:d|ll)\\b|\\b(?:will|would|can|could|may|should|must|lets?|allows?|permits?|takes?|stands?|want|wants|like|dare|accept|tolerates?)\\b)";
const BEGINS = `^${THING}${THAT}${IS}`;
/** A number may have taken the verb: `a tenth of a millimetre's the most`. */
const OPENS = `(?:${BEGINS}|^) (?:still |about |roughly )?`;
const NOUN = new RegExp(
  `${OPENS}(?:the|its|their|our|your|my|an?(?! wear))${ADJECTIVES} (?:(${TOP})|(${BOTTOM}))\\b(?!['’]?s? (?:switch|screw|stop|gauge|torque))`,
);
const SUPERLATIVE = new RegExp(
  `${OPENS}(?:about |just )?(?:the|your|my)(?: very| absolute)? (?:(${HIGHEST})|(${LOWEST}))\\b(?! (?:of|likely|common))(?:[^,;.]{0,40}?${GOES}|\\W*$)(?![^,;.]* (?:seen|measured|found|read|had)\\b)`,
);
const AS_FAR = new RegExp(
  `${BEGINS} (?:about )?as (?:(${MUCH_OF})|(${LITTLE_OF})) as (?!(?:this|the|my|that|your) (?:tester|meter|gauge|scale|dial|clock|tape|needle|rule))`,
);
const ALLOWED = new RegExp(
  `${BEGINS} (?:all|what|as much as)(?: that)? (?:the|you|they|we|i|it|my|your|this|that)\\b[^,;.]{0,30}?\\b(?:allows?|permits?|lets?|allowed)\\b`,
);

/** `; it's stamped there, and it's a maximum`: with no other number between. */
const LATER =
  /^(?:(?!\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|[a-z]+teen|[a-z]+ty|half|hundred)\b).){0,90}?[,;] (?:and |so |but )?(?:that|it)['’]s (?:a|the|your|our)(?: absolute)? (?:(maximum|limit|ceiling|max)|(minimum|floor|min))\b/;

/** The side that is left where a value is said to be a limit. */
export function sideSaid(rest: string, beyond: string): Side | undefined {
  const said = rest + (/^[;,]|^\. (?:that|it)['’]s/.test(beyond) ? beyond : '');
  for (const form of [NOUN, SUPERLATIVE, AS_FAR]) {
    const found = form.exec(said);
    if (found) return found[1] === undefined ? 'min' : 'max';
  }
  if (ALLOWED.test(said)) return 'max';
  const later = LATER.exec(rest + beyond);
  return later ? (later[1] === undefined ? 'min' : 'max') : undefined;
}
