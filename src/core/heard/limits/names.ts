import type { SimpleKind } from '../../spec/index.ts';
import type { Side } from './side.ts';
import { WEARS_THIN, WEARS_WIDE } from './wear.ts';

/** `minimum disc thickness is`. */
const NAMED =
  /\b(minimum|min|maximum|max|greatest|largest|smallest|least)\b\.?\s*(?:(?!and\b|then\b|but\b|or\b|to\b|go\b|set\b|use\b|ones?\b|of force\b|effort\b|fuss\b|care\b|one\b|two\b|three\b|four\b|five\b|six\b|seven\b|eight\b|nine\b|ten\b|point\b|half\b|[a-z]+t(?:een|y)\b|\d)[\w-]+:?\s+){0,5}(?:[\w-]+['’]s|is|of|are|was|['’]s)?\W*$/;
/** `the limit, er, I wrote it on the board,`. */
const NAMED_AND_ASIDE = /\b(min|max|limit)(?:imum)?,(?: [^,;.\d]{1,40},){1,2} $/;
/** A name with its value behind a pause: `maximum load, 180 kg`; nothing but the name stands in its clause. */
const NAMED_ALONE =
  /(?:^|[,:]\s*)(?:the |its |your )?(min|max)(?:imum|\.)?(?:\s+(?!effort|fuss|care|attention)[a-z'’-]+){1,6}\s*[,:–—]\s*$/;
/** `the most it will take is`, `the lowest you want to see is`: how far somebody may go. */
const FURTHEST =
  /\bthe (most|highest|longest|hottest|heaviest|fastest|largest|greatest|least|lowest|shortest|smallest|thinnest)(?: that)? (?:i|you|we|they|it|he|she|one|anyone|this|that|these|those|the \w+)(?:[^,;:]{0,30}(?:'d|'ll|\b(?:can|could|may|might|must|should|would|will|want|wants|need|needs|like|dare|takes?|lets?|allows?|stands?|tolerates?)))\b[^,;:]{0,30}?\b(?:is|are|was|would be)\s*$/;
/** A limit alone is the most; a lower one is the least. What limits wear may be either and says so by its thing. */
const LIMIT =
  /(?:\b([\w-]+) )?\b(limit|ceiling)\b(?:(?: (?:of|on|for|in|at|with|to)) (?:[\w'’-]+ ){0,3}[\w'’-]+)?(?:,? ?(['’]s|is|are|was|of|at|will be|would be|stays))?[\s:,–—=]*$/;
/** `the limit they give for the chain is`. */
const LIMIT_SET =
  /(?:\b([\w-]+) )?\b(limit)(?: that| which)? (?:i|we|you|they|he|she|it|the \w+)\b[^,;:]{0,50}? (is|are|was)\s*$/;
const BARE_LIMIT =
  /^\W*(and |so |but |now )?((the|its|their) |(?=reject|wear|service|scrap))((?:reject|wear|service|scrap) )?limit(['’]s| is| are| was|,|:)/;
const EITHER = /^(wear|service|lower|bottom|minimum|upper|top|maximum)$/;
/** `you're under the limit: 0.3 mm`: said of the value, which is none itself. */
const BESIDE = /\b(under|over|past|beyond|below|above|off|near|inside|within|outside)( the| its| your| our)?\s+$/;
/** `the maximum on the sidewall, which on this one is`: the limit told in a clause of its own. */
const WHICH_IS = /\s*,\s*which(?: (?:here|there|(?:on|for|in|of|with|by) [^,;:]{1,30}?))?(?= (?:is|are|was)\s*$)/;
/** Who says so: `the maximum, per the sticker, is`. */
const ASIDE =
  /(?:\s+(?:is|are|was)|['’]s) (?:stamped|printed|marked|written|cast|etched|moulded|molded)(?: (?:right|here|there|on|in|into|the|it|its|side|edge|face|back|label|disc|rotor|sidewall)){0,5}\s*[,:]\s*$|\s*,\s*(?:per|as|according to|going by|by|says?|it says|on|in|for) [^,;:]{1,40},\s*(?=(?:is|are|was)\b)/;

function sideOfLimitWord(before: string, kind: SimpleKind, earlier: string): Side | undefined {
  const limit = LIMIT.exec(before) ?? LIMIT_SET.exec(before);
  if (
    !limit ||
    BESIDE.test(before.slice(0, before.indexOf(limit[2] ?? '', limit.index))) ||
    (limit[2] === 'ceiling' && !limit[3] && !/['’]s(?: (?:our|the|your|my) ceiling,)?\s*$/.test(before))
  )
    return undefined;
  const which = EITHER.exec(limit[1] ?? '')?.[0];
  if (which && !/^(wear|service)$/.test(which)) return /^(lower|bottom|minimum)$/.test(which) ? 'min' : 'max';
  // `Measure the lining. The limit is`: a limit of nothing named is one of what was last spoken of.
  const of = BARE_LIMIT.test(before) ? `${earlier} ${before}` : before;
  if (kind === 'length' && WEARS_THIN.test(of)) return 'min';
  return which && !WEARS_WIDE.test(of) ? undefined : 'max';
}

/** The side that a limit with a name leaves: `the limit for the pads is`, `minimum disc thickness is`. */
export function limitNamed(before: string, kind: SimpleKind, earlier: string): Side | undefined {
  const name = before.replace(ASIDE, ' ').replace(WHICH_IS, '');
  const limit = sideOfLimitWord(name, kind, earlier);
  if (limit) return limit;
  const aside = NAMED_AND_ASIDE.exec(before)?.[1];
  if (aside) return aside === 'min' ? 'min' : 'max';
  const named = (FURTHEST.exec(name) ?? NAMED_ALONE.exec(name) ?? NAMED.exec(name))?.[1];
  return named === undefined ? undefined : /^(min|small|least|low|short|thin)/.test(named) ? 'min' : 'max';
}
