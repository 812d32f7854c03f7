import type { SimpleKind } from '../../spec/index.ts';
import { countsNothing } from '../no-noun.ts';
import { isNumberWord } from '../side-by-side.ts';
import { type Token, textAt, wordAt } from '../tokens.ts';
import { HIGHER, LOWER, sideTowards, wayOf } from './degree.ts';
import type { Side } from './side.ts';

/** A limit said behind a quantity. */
export interface Behind {
  readonly side: Side;
  /** The first token not taken. */
  readonly to: number;
  /** It says `or more`, of which something may come that nobody wants. */
  readonly further?: boolean;
}

/** Words straight after a quantity, longest first. */
const AFTER: readonly (readonly [string[], Side])[] = (
  [
    ['at the very least', 'min'],
    ['at the least', 'min'],
    ['at least', 'min'],
    ['as a minimum', 'min'],
    ['as the minimum', 'min'],
    ['as the maximum', 'max'],
    ['as the limit', 'max'],
    ['at minimum', 'min'],
    ['at a minimum', 'min'],
    ['minimum', 'min'],
    ['min', 'min'],
    ['at the very most', 'max'],
    ['at the most', 'max'],
    ['at the outside', 'max'],
    ['at the absolute outside', 'max'],
    ['at the absolute most', 'max'],
    ['absolute most', 'max'],
    ['absolute maximum', 'max'],
    ['absolute minimum', 'min'],
    ['at the absolute least', 'min'],
    ['at most', 'max'],
    ['at the very worst', 'max'],
    ['at the worst', 'max'],
    ['at worst', 'max'],
    ['bare minimum', 'min'],
    ['as a maximum', 'max'],
    ['and no more', 'max'],
    ['and not more', 'max'],
    ['and no less', 'min'],
    ['and not less', 'min'],
    ['no more', 'max'],
    ['not more', 'max'],
    ['the minimum', 'min'],
    ['the maximum', 'max'],
    ['the limit', 'max'],
    ['at maximum', 'max'],
    ['at a maximum', 'max'],
    ['maximum', 'max'],
    ['plus', 'min'],
    ['max', 'max'],
    ['tops', 'max'],
    ['permitted', 'max'],
    ['allowed', 'max'],
  ] as const
).map(([words, side]) => [words.split(' '), side]);

/** The token after `of slack`, `of free play`; nothing where no such name follows. */
function pastName(pieces: readonly Token[], at: number): number | undefined {
  if (pieces[at]?.lower !== 'of') return undefined;
  for (let to = at + 2; to <= at + 3; to++)
    if (pieces[to - 1]?.type === 'word' && AFTER.some(([words]) => words[0] === pieces[to]?.lower)) return to;
  return undefined;
}

/** After a limit that stands behind its quantity. */
const GOES_ON =
  /^(and|or|but|so|then|in|on|at|for|with|without|before|after|when|if|unless|because|as|per|each|cold|hot|dry|wet|here|there|please|not|no|to|from|until|till|it|you|we|i|they)$/;

/** Where one stands alone behind a value it says more of it, or less. */
const FURTHER = new RegExp(
  `^(?:more|over|above|up|upwards?|beyond|better|less|fewer|under|below|down|downwards?|${HIGHER}|${LOWER})$`,
);
/** After `and` a comparative may be a verb: `and lower the wheel`. */
const BOUND = /^(more|over|above|up|upwards?|beyond|less|under|below|down|downwards?|older|younger)$/;

/** `or more`, `or thinner`, `and up`, `upwards`, `flat or quicker`; not `and above the line`, `and up to`. */
function orFurther(pieces: readonly Token[], from: number, kind: SimpleKind): Behind | undefined {
  const at = /^(flat|dead|each|tops|exactly)$/.test(wordAt(pieces, from)) ? from + 1 : from;
  const joined = /^(or|and)$/.test(wordAt(pieces, at));
  const last = joined ? at + (/^(even|any|anything)$/.test(wordAt(pieces, at + 1)) ? 2 : 1) : at;
  const word = wordAt(pieces, last);
  if (!joined && !/^(up|down)wards?$/.test(word)) return undefined;
  if (pieces[at]?.lower === 'and' && !BOUND.test(word)) return undefined;
  if (
    (/^(the|a|an|it|this|that|its|to|than|here|there|on|in|at)$/.test(wordAt(pieces, last + 1)) &&
      !(
        /er$/.test(word) &&
        /^(to|on|in|here|there|at)$/.test(wordAt(pieces, last + 1)) &&
        !/^(over|under|lower)$/.test(word)
      )) ||
    // `half a millimetre up or down`.
    (/^(up|down)$/.test(word) && /^(up|down)$/.test(wordAt(pieces, at - 1))) ||
    pieces[last + 1]?.type === 'number'
  )
    return undefined;
  return FURTHER.test(word)
    ? { side: sideTowards(wayOf(word, kind)), to: last + 1, further: word !== 'better' }
    : undefined;
}

/** `down at least`, `apart at most`: which way it was measured. */
const WAY =
  /^(down|up|deep|apart|off|in|out|away|above|below|under|clear|long|wide|thick|high|across|back|each|cold|hot)$/;

/** A limit said after the quantity; `to` is the first token not taken. */
export function limitAfter(pieces: readonly Token[], at: number, kind: SimpleKind): Behind | undefined {
  // `a hundred plus` ends there; `ten plus or minus two` does not.
  if (
    pieces[at]?.lower === 'plus' &&
    pieces[at + 1] &&
    pieces[at + 1]?.type !== 'mark' &&
    !/^(on|in|at|for|here|there|if|when)$/.test(wordAt(pieces, at + 1))
  )
    return undefined;
  const way = WAY.test(wordAt(pieces, at)) && /^(at|as|no|or|,)$/.test(wordAt(pieces, at + 1)) ? 1 : 0;
  return limitAt(pieces, at + way, kind) ?? atTheEnd(pieces, at, kind);
}

/** So many words may say where, before a limit ends the sentence. */
const WORDS_OF_PLACE = 8;

/** `fifty millimetres from the edge of the joist, minimum.` */
function atTheEnd(pieces: readonly Token[], at: number, kind: SimpleKind): Behind | undefined {
  if (
    !/^(side|end|from|to|up|down|above|below|off|over|of|between|in|on|at|into|past|each|per|for|clear|away|deep|apart)$/.test(
      wordAt(pieces, at),
    )
  )
    return undefined;
  for (let to = at + 1; to < at + WORDS_OF_PLACE; to++) {
    const token = pieces[to];
    if (/^(minimum|min|maximum|max|tops)$/.test(token?.lower ?? '') && !pieces[to + 1])
      return limitAt(pieces, to, kind);
    if (token?.lower === 'at') {
      const last = limitAt(pieces, to, kind);
      if (last && pieces[last.to]?.type !== 'word' && pieces[last.to]?.type !== 'number') return last;
    }
    if (isNumberWord(token)) return undefined;
    if (token?.lower === 'or') return orFurther(pieces, to, kind);
    if (token?.type === 'word' && !/^(but|then|or|is|are|set|if|when)$/.test(token.lower)) continue;
    if (token?.text !== ',') return undefined;
    const limit = limitAt(pieces, to, kind);
    const next = pieces[limit?.to ?? at];
    return limit && (!next || /^[.,;!]$/.test(next.text)) ? limit : undefined;
  }
  return undefined;
}

function limitAt(pieces: readonly Token[], at: number, kind: SimpleKind): Behind | undefined {
  const named = pastName(pieces, at);
  const start = named ?? (/^[,()]$/.test(textAt(pieces, at)) ? at + 1 : at);
  for (const [parts, side] of AFTER) {
    if (!parts.every((part, i) => pieces[start + i]?.lower === part)) continue;
    const next = pieces[start + parts.length];
    if (
      / (no|not) (more|less)$/.test(` ${parts.join(' ')}`) &&
      ((next?.type === 'word' &&
        (/^(than|no|not|and|or)$/.test(next.lower) || !countsNothing(pieces, start + parts.length))) ||
        /^(no|not|and)$/.test(wordAt(pieces, start + parts.length + 1)))
    )
      continue;
    // `three milliamps, the limit on this is five`: of what comes.
    if (start > at && parts[0] === 'the' && next && next.type !== 'mark' && !/^(and|but|so|or)$/.test(next.lower))
      return undefined;
    // "30 mm, max 40 mm", "30 mm, maximum is 40 mm": said of what comes.
    if (start > at && parts.length === 1 && next && next.type !== 'mark' && !GOES_ON.test(next.lower)) return undefined;
    // "98 N·m maximum torque wrench": the word belongs to what follows.
    return next?.type === 'word' && parts.length === 1 && start === at && /^(size|wrench|range|of)$/.test(next.lower)
      ? undefined
      : { side, to: start + parts.length };
  }
  return orFurther(pieces, at, kind);
}
