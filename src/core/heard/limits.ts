import type { SimpleKind } from '../spec/index.ts';
import type { Token } from './tokens.ts';
import { isTarget } from './up-to.ts';

export type Side = 'min' | 'max';

/** Comparisons that let a value be greater, and those that let it be less. */
const GREATER =
  /\b(more than|in excess of|upwards of|(?<!\b(?:mile|town|street|road) )north of|anything (over|above)|over|above|past|beyond|exceed(s|ing)?|(great|larg|bigg|high|long|wid|thick|deep|old|hott|warm|fast|heavi|tight|strong|tall|lat)er than)[^\w,]*$|(>=?|≥)\s*$/;
const LESS =
  /\b(less than|fewer than|south of|under|below|beneath|(small|low|short|narrow|thinn|shallow|young|new|cold|cool|slow|light|loos|weak|earli|soon|clos|near)er than)[^\w,]*$|(<=?|≤)\s*$/;
const AT_LEAST = /\b(at least|a minimum of|min\.?)\W*$/;
/** `within the first hundred miles` ends where they end. */
const AT_MOST =
  /\b((?:you|it|they|we)['’]?(?:re|s| are| is) allowed|at most|a maximum of|max\.?|as much as|as many as|cap(?:ped)? (?:it|that|this|them) (?:at|to)|up to( and including)?|(limited|restricted|capped) (to|at)|(within|inside( of)?)( the (first|next|following))?)\W*$/;
/** A negation in the same clause turns a comparison round: nobody puts more than. */
const NEGATED =
  /\b(no|not|never|nothing|nobody|none|without|neither|nor|cannot|\w+n't|avoid|rather than)\b[^,;:]{0,60}$/;
/** Of a force, `under` says what something is measured under; of a length, `over` says along what. */
const UNDER = /\bunder(neath)?\W*(about|around|roughly|a load of|a force of)?\W*$/;

/** `bend each tooth over eight thou`: which way it goes. */
const OVER_AS_WAY =
  /\b(bend|bends|bent|bending|tip|tips|tipped|lean|leans|swing|fold|push|pushed|slide|roll|tilt|shift|knock|set|kick) ((it|them|that|this|each|every|the|one|both)( [\w-]+){0,2} )?over\s*$/;
const TIGHTNESS = /\b(tight|loos)er than( a| an| about)?\s*$/;

/** `I use the thick oil above forty degrees`: the weather says which to use, and is none to keep to. */
const WHEN_TO_USE = /\b(i|we|you) (use|run|put|go with|switch to)\b[^,;:]* (above|below|over|under)\s*$/;

/** `a bit over three hundred`: nearly that. */
const NEARLY =
  /\b(a (?:bit|hair|touch|tad|shade|little|whisker)|slightly|fractionally) (over|under|above|below|more than|less than)\s*$/;

/** `minimum disc thickness is`. */
const NAMED =
  /\b(minimum|min|maximum|max|greatest|largest|smallest|least)\b\.?\s*(?:(?!and\b|then\b|but\b|or\b|to\b|go\b|set\b|use\b|ones?\b|of force\b|effort\b|fuss\b|care\b)[\w-]+:?\s+){0,5}(?:[\w-]+['’]s|is|of|are|was|['’]s)?\W*$/;
/** A name with its value behind a pause: `maximum load, 180 kg`; nothing but the name stands in its clause. */
const NAMED_ALONE =
  /(?:^|[,:]\s*)(?:the |its |your )?(min|max)(?:imum|\.)?(?:\s+(?!effort|fuss|care|attention)[a-z'’-]+){1,6}\s*[,:–—]\s*$/;

/** `the most it will take is`, `the lowest you want to see is`: how far somebody may go. */
const FURTHEST =
  /\bthe (most|highest|longest|hottest|heaviest|fastest|largest|greatest|least|lowest|shortest|smallest|thinnest)(?: that)? (?:i|you|we|they|it|he|she|one|anyone|this|that|these|those|the \w+)(?:[^,;:]{0,30}(?:'d|'ll|\b(?:can|could|may|might|must|should|would|will|want|wants|need|needs|like|dare|takes?|allows?|stands?|tolerates?)))\b[^,;:]{0,30}?\b(?:is|are|was|would be)\s*$/;

/** A limit alone is the most; a lower one is the least. What limits wear may be either and says so by its thing. */
const LIMIT =
  /(?:\b([\w-]+) )?\b(limit|ceiling)\b(?:(?: (?:of|on|for|in|at|with|to)) (?:[\w'’-]+ ){0,3}[\w'’-]+)?(?:,? ?(['’]s|is|are|was|of|at|will be|would be|stays))?[\s:,–—=]*$/;
/** `the limit they give for the chain is`. */
const LIMIT_SET =
  /(?:\b([\w-]+) )?\b(limit)(?: that| which)? (?:i|we|you|they|he|she|it|the \w+)\b[^,;:]{0,50}? (is|are|was)\s*$/;
/** What wears thin is done at its limit and below it. */
export const WEARS_THIN =
  /\b(thinnest|pads?|linings?|shoes?|treads?|thickness|thin|grooves?|friction material|brushes)\b/;
/** What a wear limit ends above. */
const WEARS_WIDE = /\b(gaps?|clearances?|play|run-?out|bore|stretch|slack|backlash|elongation|wear on|taper)\b/;
const BARE_LIMIT = /^\W*(and |so |but |now )?(the|its|their) limit(['’]s| is| are| was|,|:)/;
const EITHER = /^(wear|service|lower|bottom|minimum|upper|top|maximum)$/;

/** `you're under the limit: 0.3 mm`: said of the value, which is none itself. */
const BESIDE = /\b(under|over|past|beyond|below|above|off|near|inside|within|outside)( the| its| your| our)?\s+$/;

function limitNamed(before: string, kind: SimpleKind, earlier: string): Side | undefined {
  const limit = LIMIT.exec(before) ?? LIMIT_SET.exec(before);
  if (
    !limit ||
    BESIDE.test(before.slice(0, before.indexOf(limit[2] ?? '', limit.index))) ||
    (limit[2] === 'ceiling' && !limit[3])
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
  /\s+(?:is|are|was) (?:stamped|printed|marked|written|cast|etched|moulded|molded)(?: (?:right|here|there|on|in|into|the|it|its|side|edge|face|back|label|disc|rotor|sidewall)){0,5}\s*[,:]\s*$|\s*,\s*(?:per|as|according to|going by|by|says?|it says|on|in|for) [^,;:]{1,40},\s*(?=(?:is|are|was)\b)/;

/**
 * The side that the words before a number leave to it, as `max` for "no more than".
 *
 * @param earlier the end of what was said before this sentence
 */
export function limitBefore(before: string, kind: SimpleKind, earlier = ''): Side | undefined {
  const said = before
    .replace(/\b(about|around|roughly|approximately|the|a|an|of|only|just|maybe)\s*$/, '')
    .replace(/\s+$/, ' ');
  if (kind === 'force' && UNDER.test(said)) return undefined;
  if (isTarget(said) || OVER_AS_WAY.test(said)) return undefined;
  // A tighter bend is a smaller one, a looser fit a larger one.
  if (kind === 'length' && TIGHTNESS.test(said)) return /tighter/.test(said) === NEGATED.test(said) ? 'min' : 'max';
  // `anything down to 228 I'd live with`.
  if (/\banything (?:\w+ )?down to $/.test(said)) return 'min';
  if (NEARLY.test(said) && !NEGATED.test(said)) return undefined;
  if (kind === 'temperature' && WHEN_TO_USE.test(said)) return undefined;
  for (const text of [before, said]) {
    if (AT_LEAST.test(text)) return 'min';
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

/** Words straight after a quantity, longest first. */
const AFTER: readonly (readonly [string[], Side])[] = (
  [
    ['at the very least', 'min'],
    ['at the least', 'min'],
    ['at least', 'min'],
    ['as a minimum', 'min'],
    ['at minimum', 'min'],
    ['at a minimum', 'min'],
    ['minimum', 'min'],
    ['min', 'min'],
    ['at the very most', 'max'],
    ['at the most', 'max'],
    ['at the outside', 'max'],
    ['at most', 'max'],
    ['as a maximum', 'max'],
    ['and no more', 'max'],
    ['and not more', 'max'],
    ['no more', 'max'],
    ['not more', 'max'],
    ['the minimum', 'min'],
    ['the maximum', 'max'],
    ['the limit', 'max'],
    ['at maximum', 'max'],
    ['at a maximum', 'max'],
    ['maximum', 'max'],
    ['max', 'max'],
    ['tops', 'max'],
  ] as const
).map(([words, side]) => [words.split(' '), side]);

/** The token after `of slack`, `of free play`; nothing where no such name follows. */
function pastName(pieces: readonly Token[], at: number): number | undefined {
  if (pieces[at]?.lower !== 'of') return undefined;
  for (let to = at + 2; to <= at + 3; to++)
    if (pieces[to - 1]?.type === 'word' && AFTER.some(([words]) => words[0] === pieces[to]?.lower)) return to;
  return undefined;
}

const SAID_TO_BE: Readonly<Record<string, Side>> = {
  limit: 'max',
  ceiling: 'max',
  maximum: 'max',
  max: 'max',
  most: 'max',
  minimum: 'min',
  min: 'min',
  least: 'min',
};

/** `is the limit`, `is your absolute minimum`; a wear limit may be either. */
function saidToBe(pieces: readonly Token[], start: number): { side: Side; to: number } | undefined {
  const word = (i: number) => pieces[i]?.lower ?? '';
  // `, and that's a maximum`, `is as high as it's allowed to be`.
  let at = start;
  while (/^(,|and)$/.test(word(at)) && at < start + 2) at++;
  if (at > start && !/^(that|it|which)(['’]s)?$/.test(word(at))) return undefined;
  if (/^(that|it|which)$/.test(word(at))) at++;
  if (/^(is|are)$/.test(word(at)) && word(at + 1) === 'as' && word(at + 3) === 'as') {
    if (/^(high|much|far|big|wide|deep|hot|fast|tight|heavy|long|thick|many)$/.test(word(at + 2)))
      return { side: 'max', to: at + 4 };
    if (/^(low|little|thin|narrow|short|small|slow|cold)$/.test(word(at + 2))) return { side: 'min', to: at + 4 };
  }
  if (
    !/^(is|are|was|being|(?:that|it|which)['’]s)$/.test(word(at)) ||
    !/^(the|its|their|our|your|my|an?)$/.test(word(at + 1))
  )
    return undefined;
  const noun = /^(absolute|legal|upper|outer|bare|very|lower)$/.test(word(at + 2)) ? at + 3 : at + 2;
  const side = Object.hasOwn(SAID_TO_BE, word(noun)) ? SAID_TO_BE[word(noun)] : undefined;
  return side && { side: word(noun - 1) === 'lower' ? 'min' : side, to: noun + 1 };
}

/** After a limit that stands behind its quantity. */
const GOES_ON =
  /^(and|or|but|so|then|in|on|at|for|with|without|before|after|when|if|unless|because|as|per|each|cold|hot|dry|wet|here|there|please|not|no|to|from|until|till|it|you|we|i|they)$/;

const FURTHER_UP =
  /^(more|over|above|up|upwards?|beyond|better|(high|long|thick|bigg|larg|great|deep|wid|hott|warm|fast|heavi|old|lat|tall|strong)er)$/;
const FURTHER_DOWN =
  /^(less|fewer|under|below|down|downwards?|(low|short|thinn|small|narrow|cool|cold|slow|light|young|shallow|earli|soon)er)$/;
/** After `and` a comparative may be a verb: `and lower the wheel`. */
const BOUND = /^(more|over|above|up|upwards?|beyond|less|under|below|down|downwards?|older|younger)$/;

/** `or more`, `or thinner`, `and up`, `upwards`; not `and above the line`, `and up to`. */
function orFurther(pieces: readonly Token[], at: number): { side: Side; to: number } | undefined {
  const joined = /^(or|and)$/.test(pieces[at]?.lower ?? '');
  const last = joined ? at + 1 : at;
  const word = pieces[last]?.lower ?? '';
  if (!joined && !/^(up|down)wards?$/.test(word)) return undefined;
  if (pieces[at]?.lower === 'and' && !BOUND.test(word)) return undefined;
  if (
    /^(the|a|an|it|this|that|its|to|than)$/.test(pieces[last + 1]?.lower ?? '') ||
    pieces[last + 1]?.type === 'number'
  )
    return undefined;
  const side = FURTHER_UP.test(word) ? 'min' : FURTHER_DOWN.test(word) ? 'max' : undefined;
  return side && { side, to: last + 1 };
}

/** `down at least`, `apart at most`: which way it was measured. */
const WAY = /^(down|up|deep|apart|off|in|out|away|above|below|under|clear|long|wide|thick|high|across|each|cold|hot)$/;

/**
 * `half a degree of slop, no more`, `ten millimetres and no more than that`: a limit where it says of what, or than
 * what. `Twenty newton metres, no more` alone stresses the value to set.
 */
function noFurther(pieces: readonly Token[], at: number): { side: Side; to: number } | undefined {
  const word = (i: number) => pieces[i]?.lower ?? '';
  let from = at;
  const named = word(from) === 'of';
  if (named) while (from < at + 4 && pieces[from]?.type === 'word') from++;
  if (!/^(,|and|but|–|—)$/.test(word(from))) return undefined;
  while (/^(,|and|but|–|—)$/.test(word(from))) from++;
  const side = /^(no|not|never)$/.test(word(from)) ? comparative(word(from + 1)) : undefined;
  if (!side) return undefined;
  const to = /^than$/.test(word(from + 2)) && /^(that|this)$/.test(word(from + 3)) ? from + 4 : from + 2;
  const next = pieces[to];
  if ((next && next.type !== 'mark') || !(named || to > from + 2)) return undefined;
  // `no more, no less`, `no less and no more`: exactly that.
  if (/^(no|not)$/.test(word(to + 1)) && comparative(word(to + 2))) return undefined;
  return { side, to };
}

const NO_FURTHER: readonly (readonly [RegExp, Side])[] = [
  [
    /^\W*(and |but )?not (a|an|one) (hair|bit|millimet(re|er)|touch|fraction|inch|thou|whisker) (more|over|past)\b/,
    'max',
  ],
  [/^\W*(and |but )?not (a|an|one) (hair|bit|millimet(re|er)|touch|fraction|inch|thou|whisker) (less|under)\b/, 'min'],
  [
    /^\W*(and |but )?(don['’]t|never|do not) (go|run|take|push|turn|wind|tighten)( it| them| that)? (over|past|above|beyond|any (higher|further|tighter|more|faster)|higher)( (it|that|this)\b|\W*$)/,
    'max',
  ],
  [/^\W*(and |but )?(don['’]t|never|do not) exceed (it|that|this)\b/, 'max'],
  [
    /^[^,;]{0,30}, (and |but )?(no|not any|never) (higher|wider|deeper|tighter|hotter|faster|longer|further|thicker)\W*$/,
    'max',
  ],
  [/^[^,;]{0,30}, (and |but )?(no|not any|never) (lower|narrower|shallower|colder|slower|shorter|thinner)\W*$/, 'min'],
  [
    /^\W*(and |but )?(don['’]t|never|do not) (go|let it (?:go|get|drop|fall)|run)( it| them)? (under|below|any lower|lower)( (it|that|this)\b|\W*$)/,
    'min',
  ],
];

/** `thirteen thousand, don't go over it`, `a quarter inch above the work, no higher`: the side that a warning behind leaves. */
export function limitWarned(rest: string): Side | undefined {
  return NO_FURTHER.find(([said]) => said.test(rest))?.[1];
}

/** What a negated comparative leaves: no more is the most. */
function comparative(word: string): Side | undefined {
  return FURTHER_UP.test(word) && !/^(up|upwards?|over|above|beyond)$/.test(word)
    ? 'max'
    : FURTHER_DOWN.test(word) && !/^(down|downwards?|under|below)$/.test(word)
      ? 'min'
      : undefined;
}

/** A limit said after the quantity; `to` is the first token not taken. */
export function limitAfter(pieces: readonly Token[], at: number): { side: Side; to: number } | undefined {
  const way = WAY.test(pieces[at]?.lower ?? '') && /^(at|as)$/.test(pieces[at + 1]?.lower ?? '') ? 1 : 0;
  return limitAt(pieces, at + way) ?? atTheEnd(pieces, at);
}

/** So many words may say where, before a limit ends the sentence. */
const WORDS_OF_PLACE = 8;

/** `fifty millimetres from the edge of the joist, minimum.` */
function atTheEnd(pieces: readonly Token[], at: number): { side: Side; to: number } | undefined {
  if (
    !/^(side|end|from|to|up|above|below|off|over|of|between|in|on|at|into|past|each|per|for|clear|away|deep|apart)$/.test(
      pieces[at]?.lower ?? '',
    )
  )
    return undefined;
  for (let to = at + 1; to < at + WORDS_OF_PLACE; to++) {
    const token = pieces[to];
    if (/^(minimum|min|maximum|max|tops)$/.test(token?.lower ?? '') && !pieces[to + 1]) return limitAt(pieces, to);
    if (token?.lower === 'at') {
      const last = limitAt(pieces, to);
      if (last && pieces[last.to]?.type !== 'word' && pieces[last.to]?.type !== 'number') return last;
    }
    if (token?.type === 'word' && !/^(but|then|or|is|are|set|if|when)$/.test(token.lower)) continue;
    if (token?.text !== ',') return undefined;
    const limit = limitAt(pieces, to);
    const next = pieces[limit?.to ?? at];
    return limit && (!next || /^[.,;!]$/.test(next.text)) ? limit : undefined;
  }
  return undefined;
}

function limitAt(pieces: readonly Token[], at: number): { side: Side; to: number } | undefined {
  const named = pastName(pieces, at);
  const start = named ?? (/^[,()]$/.test(pieces[at]?.text ?? '') ? at + 1 : at);
  for (const [parts, side] of AFTER) {
    if (!parts.every((part, i) => pieces[start + i]?.lower === part)) continue;
    const next = pieces[start + parts.length];
    if (
      / (no|not) more$/.test(` ${parts.join(' ')}`) &&
      (next?.type === 'word' || /^(no|not|and)$/.test(pieces[start + parts.length + 1]?.lower ?? ''))
    )
      continue;
    // "30 mm, max 40 mm", "30 mm, maximum is 40 mm": said of what comes.
    if (start > at && parts.length === 1 && next && next.type !== 'mark' && !GOES_ON.test(next.lower)) return undefined;
    // "98 N·m maximum torque wrench": the word belongs to what follows.
    return next?.type === 'word' && parts.length === 1 && start === at && /^(size|wrench|range|of)$/.test(next.lower)
      ? undefined
      : { side, to: start + parts.length };
  }
  return orFurther(pieces, at) ?? noFurther(pieces, at) ?? saidToBe(pieces, at);
}
