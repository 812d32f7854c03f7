import type { SimpleKind } from '../../spec/index.ts';
import { HIGHER, LOWER, otherWay, sideTowards, type Way, wayOf } from './degree.ts';
import type { Side } from './side.ts';
import { isGood } from './trouble.ts';

/**
 * A comparison behind a value that means that value: `and not a single rev above`, `anything thinner explodes`, `bite off a
 * bigger slice and she'll stall`, `further is fine`. What it refuses, or all but what it lets pass, is the other side.
 */
const COMPARATIVE = `more|less|fewer|over|under|above|below|past|beyond|${HIGHER}|${LOWER}`;
/** Of a thing that is told with its measure: `a sixteenth off a pass, and no deeper`. */
const WORD = "(?: (?!and\\b|but\\b|or\\b|no\\b|not\\b|than\\b)[\\w'’-]+)";
const THING = `${WORD}{0,9}?(?:, (?:yeah|yes|right|mind(?: you)?|okay|now)(?=,))?(?:, (?:the|a|on|at|for|from|in|to)${WORD}{1,4}?)?`;
const NUMBER =
  '(?:\\W+(?:than|what|about|around|say|a|an|the|point|minus))*\\W+(?:\\d|(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|half|quarter|third|hundred|thousand|[a-z]+teen|[a-z]+ty|[a-z]+ty-[a-z]+)\\b)';
const JOIN = '(?: (?:and|but|or|because|so|well|then|now))?';
const NEGATION =
  "(?:no|not|never(?:, ever,?)?|nothing|nowhere|none|without|don['’]t|do not|can['’]t|cannot|won['’]t|wouldn['’]t|shouldn['’]t|mustn['’]t)";
/** What may stand between a negation and its comparison: a verb, its object, a little of something. */
const SMALL = "(?: (?!until|till|unless|if|because|when|where|with|without|enough)[a-z'’]+)";
const THAT = '(?: (?:there|apart))?';
const ENDS = '(?=\\W*$|[,.;:!?]| (?:or|so|but|then|because|and|if|please|ever|here|even|unless|from|on|in)\\b)';

/** `no more`, `not a hair over`, `nowhere lower`, `you can't drill past that`. */
const FORBIDDEN = new RegExp(
  `^${THING}[,.;:!–—-]*${JOIN}(?: (?:and|you|i|we|it)){0,2} ${NEGATION}${SMALL}{0,5}? (${COMPARATIVE}|extra|short of)(?!${NUMBER})(?: (?:than )?(?:that|this|it)\\b|${THAT}${ENDS})`,
);
/** What goes on behind a comparison that stands alone: `lower is fine`, `less breaks springs`. */
const THAT_IS =
  "and|is|isn['’]t|goes|gets|means|won['’]t|will|breaks|makes|needs?|comes?|eats?|it|you|we|i|they|the plastic|the paint|no";
/** `anything fatter`, `below that`, `go further`, `bite off a bigger slice`, `lower is`. */
const TOLD = new RegExp(
  `^${THING}(?:[,.;:!–—-]+${JOIN}| and)(?: (?:(?:anything|any|much|if|once|and|you|it|it['’]s|go|goes|going|take|get|push|bite|cut|feed|make|set|leave|bend|run|let|turn|wind|pull|space|lean|crank|them|off|out|even|a|an|is|bit|hair|touch) ){1,4}|(?: (?!no\\b|not\\b|never\\b|been\\b|was\\b|were\\b|had\\b|is\\b)[\\w'’-]+){1,5} (?=[a-z]+ than (?:that|this|it)\\b)| )(${COMPARATIVE}|after(?= that))(?!${NUMBER})(?: (?:than )?(?:that|this|it)\\b| (?:${THAT_IS})\\b|['’]s\\b| [\\w'’-]+(?= (?:and|is|isn['’]t|or)\\b)|,)([^.;!?]{0,60})`,
);
const PLACE = /^(?: (?:there['’]s|there is|is (?:a|the|another)|sits|you['’]ll (?:see|find)|you (?:see|find)))\b/;

const OTHER_WAY_TOO = /^\W*(?:and |or |but )?(?:no|not|never) \w+/;

/** `ten seconds and it's still turning`. */
const STILL =
  /^ and (?:it|they|that|the [\w'’-]+)(?:['’]s|['’]re| is| are| has|['’]ve) still (?:\w+ing|not|n|wet|live|hot|on|warm|there)\b/;

const PHRASES: readonly (readonly [RegExp, Side])[] = [
  [
    /^ (?:is|are) all (?:that|the|it|this|you)\b[^,;.]{0,30}\b(?:good for|rated for|takes?|stands?|handles?|allowed|carry|holds?)\b/,
    'max',
  ],
  // `two hundred a minute out of that pipe, or the pump's tired`.
  [
    /^[^,;:]{0,40},? or (?:it|the [\w-]+|your [\w-]+)(?:['’]s| is) (?:tired|worn|shot|dead|done|gone|leaking|blocked|no good|finished|scrap)\b/,
    'min',
  ],
  [/^\W*(and |but )?(don['’]t|never|do not) exceed (it|that|this)\b/, 'max'],
];

/**
 * The side that is left to a value by what is said behind it.
 *
 * @param rest the rest of its sentence
 * @param beyond the next one, its mark first
 */
export function limitWarned(rest: string, beyond: string, kind: SimpleKind): Side | undefined {
  if (kind === 'time' && STILL.test(rest)) return 'max';
  const phrase = PHRASES.find(([said]) => said.test(rest))?.[1];
  if (phrase) return phrase;
  const all = `${rest}${beyond}`;
  const forbidden = FORBIDDEN.exec(all);
  // `no more, no less`: exactly that.
  if (forbidden)
    return OTHER_WAY_TOO.test(all.slice(forbidden[0].length))
      ? undefined
      : sideTowards(otherWay(way(forbidden[1] ?? '', kind)));
  const told = TOLD.exec(all);
  const [tail, word] = [told?.[2] ?? '', told?.[1] ?? ''];
  if (!told || PLACE.test(tail) || !/[a-z]{2}/.test(tail) || (word === 'after' && kind !== 'time')) return undefined;
  return sideTowards(isGood(tail) ? way(word, kind) : otherWay(way(word, kind)));
}

const way = (word: string, kind: SimpleKind): Way => (word === 'after' ? 'over' : wayOf(word, kind));
