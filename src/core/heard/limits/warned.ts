import type { SimpleKind } from '../../spec/index.ts';
import type { Side } from './side.ts';

const NO_FURTHER: readonly (readonly [RegExp, Side])[] = [
  [/^\W*(and |but )?not (a|an|one)(?: [a-z-]+)? (more|over|past|beyond)\b/, 'max'],
  [/^\W*(and |but )?not (a|an|one)(?: [a-z-]+)? (less|under)\b/, 'min'],
  [
    /^\W*(and |but )?(don['’]t|never|do not) (go|run|take|push|turn|wind|tighten)( it| them| that)? (over|past|above|beyond|any (higher|further|tighter|more|faster)|higher)( (it|that|this)\b|\W*$)/,
    'max',
  ],
  [
    /^\W*(and |but )?(i|you|we) (wouldn['’]t|don['’]t|won['’]t|would not|never) (let|want|take|run|push|go)( it| them| that)?( to)?( go| get| run)? (any (higher|further|tighter|more|faster|wider|bigger)|past|over|above|beyond)( than)? (it|that|this)\b/,
    'max',
  ],
  [
    /^[^,;.]{0,30},? (?:and )?(?:no|not|(?:you )?never(?:, ever,?)?(?: have| want| go)?) more than (?:that|this)\b/,
    'max',
  ],
  [
    /^[^,;.]{0,30},? (?:and )?(?:no|not|(?:you )?never(?:, ever,?)?(?: have| want| go)?) less than (?:that|this)\b/,
    'min',
  ],
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
  [
    /^[^,;]{0,30}, (and |but )?(no|not any|never) (higher|wider|deeper|tighter|hotter|faster|longer|further|thicker)(?: than (?:that|this))?(?:\W*$| or\b)/,
    'max',
  ],
  [/^[^;]{0,45}, (and |but )?(no|not any|never) (lower|narrower|shallower|colder|slower|shorter|thinner)\W*$/, 'min'],
  [
    /^\W*(and |but )?(don['’]t|never|do not) (go|let it (?:go|get|drop|fall)|run)( it| them)? (under|below|any lower|lower)( (it|that|this)\b|\W*$)/,
    'min',
  ],
];

/** `thirteen thousand, don't go over it`, `a quarter inch above the work, no higher`: the side that a warning behind leaves. */
export function limitWarned(rest: string, kind: SimpleKind): Side | undefined {
  // A tighter bend is a smaller one.
  if (kind === 'length' && /^, no tighter\b/.test(rest)) return 'min';
  return NO_FURTHER.find(([said]) => said.test(rest))?.[1];
}
