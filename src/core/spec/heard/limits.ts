import type { SimpleKind } from '../kinds.ts';
import type { Token } from './tokens.ts';

export type Side = 'min' | 'max';

/** Comparisons that let a value be greater, and those that let it be less. */
const GREATER =
  /\b(more than|in excess of|upwards of|anything (over|above)|over|above|past|beyond|exceed(s|ing)?|(great|larg|bigg|high|long|wid|thick|deep|old|hott|warm|fast|heavi|tight|strong|tall)er than)\W*$|(>=?|≥)\s*$/;
const LESS =
  /\b(less than|fewer than|under|below|beneath|(small|low|short|narrow|thinn|shallow|young|new|cold|cool|slow|light|loos|weak)er than)\W*$|(<=?|≤)\s*$/;
const AT_LEAST = /\b(at least|a minimum of|min\.?)\W*$/;
const AT_MOST = /\b(at most|a maximum of|max\.?|up to|within)\W*$/;
/** A negation in the same clause turns a comparison round: nobody puts more than. */
const NEGATED =
  /\b(no|not|never|nothing|nobody|none|without|neither|nor|cannot|\w+n't|avoid|rather than)\b[^,;:]{0,60}$/;
/** Of a force, `under` says what something is measured under; of a length, `over` says along what. */
const UNDER = /\bunder(neath)?\W*(about|around|roughly|a load of|a force of)?\W*$/;

/** `bring it up to 35`: where to go, not a limit. */
const TARGET =
  /\b(bring|take|wind|pump|fill|air|ease|pull|go|get|run|come|comes|heat|warm|work|tighten|torque|step|add|top)\b(\s+[\w'’]+){0,3}\s+up to\W*$/;
/** `minimum disc thickness is`. */
const NAMED =
  /\b(minimum|min|maximum|max|greatest|largest|smallest|least)\b\.?\s*(?:(?!and\b|then\b|but\b|or\b|to\b|go\b|set\b|use\b|of force\b|effort\b)[\w-]+:?\s+){0,5}(?:is|of|are|was)?\W*$/;

/** Of loads and speeds a limit is the most; of other things it may be either. */
const LOAD_LIMIT = /\b(load|weight|mass|payload|speed) limit\b(\s+\w+){0,3}\W*$/;

/** The side that the words before a number leave to it, as `max` for "no more than". */
export function limitBefore(before: string, kind: SimpleKind): Side | undefined {
  const said = before
    .replace(/\b(about|around|roughly|approximately|the|a|an|of|only|just|maybe)\s*$/, '')
    .replace(/\s+$/, ' ');
  if (kind === 'force' && UNDER.test(said)) return undefined;
  if (TARGET.test(said)) return undefined;
  for (const text of [before, said]) {
    if (AT_LEAST.test(text)) return 'min';
    if (AT_MOST.test(text)) return 'max';
    const comparison = GREATER.exec(text) ?? LESS.exec(text);
    if (comparison) return GREATER.test(text) !== NEGATED.test(text.slice(0, comparison.index)) ? 'min' : 'max';
  }
  if (LOAD_LIMIT.test(before)) return 'max';
  const named = NAMED.exec(before)?.[1];
  return named === undefined ? undefined : /^(min|smallest|least)/.test(named) ? 'min' : 'max';
}

/** Words straight after a quantity, longest first. */
const AFTER: readonly (readonly [string, Side])[] = [
  ['at the very least', 'min'],
  ['at the least', 'min'],
  ['or more', 'min'],
  ['or over', 'min'],
  ['or above', 'min'],
  ['and up', 'min'],
  ['and above', 'min'],
  ['or better', 'min'],
  ['at least', 'min'],
  ['at minimum', 'min'],
  ['minimum', 'min'],
  ['min', 'min'],
  ['at the very most', 'max'],
  ['at the most', 'max'],
  ['or less', 'max'],
  ['or under', 'max'],
  ['or below', 'max'],
  ['at most', 'max'],
  ['at maximum', 'max'],
  ['maximum', 'max'],
  ['max', 'max'],
  ['tops', 'max'],
];

/** The token after `of slack`, `of free play`; nothing where no such name follows. */
function pastName(pieces: readonly Token[], at: number): number | undefined {
  if (pieces[at]?.lower !== 'of') return undefined;
  for (let to = at + 2; to <= at + 3; to++)
    if (pieces[to - 1]?.type === 'word' && AFTER.some(([words]) => words.split(' ')[0] === pieces[to]?.lower))
      return to;
  return undefined;
}

/** A limit said after the quantity; `to` is the first token not taken. */
export function limitAfter(pieces: readonly Token[], at: number): { side: Side; to: number } | undefined {
  const named = pastName(pieces, at);
  const start = named ?? (pieces[at]?.text === ',' || pieces[at]?.text === '(' ? at + 1 : at);
  for (const [words, side] of AFTER) {
    const parts = words.split(' ');
    if (!parts.every((part, i) => pieces[start + i]?.lower === part)) continue;
    const next = pieces[start + parts.length];
    // "30 mm, max 40 mm": said of what comes.
    if (start > at && parts.length === 1 && next?.type === 'number') return undefined;
    // "98 N·m maximum torque wrench": the word belongs to what follows.
    return next?.type === 'word' && parts.length === 1 && start === at && /^(size|wrench|range|of)$/.test(next.lower)
      ? undefined
      : { side, to: start + parts.length };
  }
  return undefined;
}
