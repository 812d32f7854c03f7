import type { SimpleKind } from '../../spec/index.ts';
import { HIGHEST, LITTLE_OF, LOWEST, MUCH_OF, otherWay, sideTowards, wayOf } from './degree.ts';
import type { Side } from './side.ts';

/** What may or can be; what is, is a reading. */
const ALLOWED = '(?:may|can|could|dare|might|should|allowed|safe|let|lets|go|run|get|turn|take)';
const HOW_FAR = new RegExp(
  `\\bhow (?:(${MUCH_OF})|(${LITTLE_OF}))\\b(?: [\\w'’-]+){0,5}? ${ALLOWED}\\b[^.?!]{0,50}\\?\\s*$`,
);
/** `deepest pass on the jointer,`, `top revs?`: a heading; a spot or a reading that is the thickest was measured. */
const FURTHEST = new RegExp(
  `^\\W*(?:(?:so|and|now|okay|right|well),? )?(?:the |your |my |our |their |its )?(?:absolute |very )?(?:(${HIGHEST})|(${LOWEST}))\\b(?! (?:of|likely|people|folk|days?|important)\\b)([^.?!:,;]{0,50})(?:[?:,–—]|['’]s| is)\\s*$`,
);
const MEASURED =
  /\b(?:spot|part|point|place|reading|bit|side|end|corner|tooth|cutter|blade|link|spoke|pad|cylinder|one|measured|found|i (?:got|found|read|see))\b/;
const WHAT_IS =
  /\bwhat['’]?(?:s| is| would be) (?:the|your|its|our|my)(?: \w+){0,2}? (?:(limit|ceiling|lid|cap|maximum|max|most)|(minimum|min|floor|least))\b[^?]*\?\s*$/;
/** `what's the lowest it'll start on?` */
const WHAT_FURTHEST = new RegExp(
  `\\bwhat['’]?(?:s| is) the (?:(${HIGHEST})|(${LOWEST}))\\b[^?]*(?:['’](?:d|ll)|\\b(?:can|may|could|will|should|want|allowed|safe|go|get|take|run))\\b[^?]*\\?\\s*$`,
);
const FILLS = /^\W*(?:(?:about|well|oh|er|um|so|it['’]s|that['’]s|call it|only|just)\W+){0,2}$/;

/** The side that a question or a heading leaves to what answers it: `how warm may it run? Seventy`. */
export function sideAnswered(before: string, earlier: string, rest: string, kind: SimpleKind): Side | undefined {
  const asked = FILLS.test(before) ? lastSentence(earlier) : before;
  const how = HOW_FAR.exec(asked);
  if (how) return how[1] === undefined ? 'min' : 'max';
  const furthest = WHAT_FURTHEST.exec(asked);
  if (furthest) return furthest[1] === undefined ? 'min' : 'max';
  const limit = WHAT_IS.exec(asked);
  if (limit) return limit[1] === undefined ? 'min' : 'max';
  // `the longest bolt, sixty millimetres, goes at the top`: which one it is.
  if (/, $/.test(before) && /^, [a-z]+s\b/.test(rest)) return undefined;
  const named = FURTHEST.exec(asked);
  if (!named || MEASURED.test(named[3] ?? '')) return undefined;
  // The tightest bend is the smallest, the quickest stop the shortest.
  const way = wayOf((named[1] ?? named[2] ?? '').replace(/est$/, 'er').replace(/^(?:least|min).*/, 'less'), kind);
  return sideTowards(otherWay(way));
}

const lastSentence = (earlier: string): string => /[^.?!]*[.?!]?\s*$/.exec(earlier.trimEnd())?.[0] ?? '';
