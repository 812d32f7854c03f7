import type { SimpleKind } from '../../spec/index.ts';
import type { Said } from '../said.ts';
import { OPENED } from '../second-number.ts';
import { type Token, wordAt } from '../tokens.ts';
import type { UnitHeard } from '../unit-spoken.ts';
import { type Behind, limitAfter } from './after.ts';
import type { Amount } from './amount.ts';
import { partsNothing, sideBefore } from './before.ts';
import { clauseOf, isNegated } from './clause.ts';
import { comparisonBefore } from './comparison.ts';
import { otherWay, sideTowards } from './degree.ts';
import { sideAnswered } from './heading.ts';
import { sideSaid } from './said-to-be.ts';
import { otherSide, type Side } from './side.ts';
import { isToldCase } from './told-case.ts';
import { isGone, isGood, isStale, isTrouble, withoutOtherSide } from './trouble.ts';
import { limitWarned } from './warned.ts';
import { lastOfAWear, WEARS_THIN } from './wear.ts';

/** `from 12.4 volts down`: open to one side. */
function onwards(pieces: readonly Token[], at: number, before: string): Side | undefined {
  const way = /^(up|down)$/.exec(wordAt(pieces, at))?.[1];
  if (!way || OPENED.exec(before)?.[1] !== 'from' || pieces[at + 1]?.lower === 'to') return undefined;
  return way === 'up' ? 'min' : 'max';
}

/** `Measure the lining. 0.7 millimetres is the limit`: what wears thin is done below it. */
function limitOfWear(side: Side | undefined, { kind }: UnitHeard, said: Said, rest: string): Side | undefined {
  const thin =
    side === 'max' &&
    kind === 'length' &&
    /^(?: (?:is|was)|['’]s|) (?:the|its|your) (?:(?:wear|service|absolute) )?limit\b/.test(rest);
  return thin && WEARS_THIN.test(`${said.earlier} ${said.before}`) ? 'min' : side;
}

const TAKES =
  /\b(?:ramp\w*|spread\w*|drop\w*|f[ae]ll\w*|lo[so][et]s?|leak\w*|ris\w+|rose|averaged?|climb\w*|warm\w*|cool\w*|built|builds?)(?: [\w'’]+){0,4} over(?: about)?\s+$/;

/** `two litres over three hours`. */
const SO_MUCH_OVER =
  /\b(?:lit(?:re|er)s?|mils?|mill?ilit(?:re|er)s?|grams?|volts?|amps?|psi|bar|degrees?|kilomet(?:re|er)s?|miles?|percent|cent|inch(?:es)?|millimet(?:re|er)s?|points?|thou|gallons?|ounces?) over (?:about )?$/;

/** `over fifty metres of hose`: along so much. */
function isAlong({ kind, symbol }: UnitHeard, { before, after }: Said, to: number): boolean {
  // `ramps it up over eight seconds`: how long it takes.
  if (kind === 'time') return TAKES.test(before) || SO_MUCH_OVER.test(before);
  // `an eighth over twelve inches`.
  if (
    kind === 'length' &&
    /\b(?:half|quarters?|thirds?|eighths?|sixteenths?|hundredths?|tenths?|hundred|ten|eleven|twelve|one|two|three|four|five|six|seven|eight|nine|[a-z]+teen|[a-z]+ty|\d+)(?: out| off| high| low| proud)? over\s+$/.test(
      before,
    )
  )
    return true;
  return (
    /^(m|ft)$/.test(symbol) &&
    ((/\bover\s+$/.test(before) && /^ of\b/.test(after(to))) ||
      /\b(?:flat|straight|true|level|parallel) over\s+$/.test(before))
  );
}

/** `0.05 ohms or better`: of a resistance that current is to pass, less is better. */
function betterIs({ symbol }: UnitHeard, pieces: readonly Token[], from: number, to: number): Side | undefined {
  // `better than two hundred megohms`: of what is to hold it back, more.
  if (symbol === 'MΩ' && pieces[from - 1]?.lower === 'than' && pieces[from - 2]?.lower === 'better') return 'min';
  return /^m?Ω$/.test(symbol) && pieces[to]?.lower === 'or' && pieces[to + 1]?.lower === 'better' ? 'max' : undefined;
}

/** `a seal that can't keep`, `if it isn't`: what does not reach it is no good. */
const FAILS_TO =
  /\b(?:if|when|that|which|who|anything|one)\b[^,;:]{0,30}(?:\b(?:can|does|wo|is|are|do)n['’]t|\bcannot|\bnot)(?: (?:even|quite|at least|hold|keep|reach|make|jump|show|give|get|read|pull|last|lift|come up to|up to))*\s+(?:a |the |about )?$/;

const lastClause = (said: string): string => said.replace(/^.*[,;:.](?= )/s, '');

/** The side that is good where a value is told by what is refused. */
function sideRefused(
  { before, earlier, after, beyond }: Said,
  to: number,
  kind: SimpleKind,
  parts: boolean,
): Side | undefined {
  const rest = withoutOtherSide(after(to));
  if (isStale(before, rest) && !isNegated(before)) return 'max';
  const compared = comparisonBefore(before, kind);
  if (!compared) return FAILS_TO.test(before) && /[a-z]/.test(rest) ? 'min' : lastOfAWear(before, earlier, rest, kind);
  const { lead, way } = compared;
  const { joint, main, inner } = clauseOf(lead);
  const denied = isNegated(inner);
  if (joint === 'until' || (denied && joint === undefined)) return undefined;
  if (
    !(joint === 'if' && isGone(lastClause(main))) &&
    !isTrouble(lead, rest, () => parts && isToldCase(inner, earlier, after(to), beyond(to)))
  )
    return undefined;
  return sideTowards(denied ? way : otherWay(way));
}

/** `don't look until forty minutes are up`, `half an hour has to pass before`, `if there's no line by the time ten seconds are up`. */
function timeOver({ before, after }: Said, to: number, kind: SimpleKind): Side | undefined {
  if (kind !== 'time') return undefined;
  const rest = after(to);
  if (/^ (?:has|have|needs?|must|['’]s got|['’]ve got) (?:to )?(?:pass|go by|elapse|go past)\b/.test(rest))
    return 'min';
  if (!/^ (?:is|are|has|have)(?: \w+ly)? (?:up|passed|gone(?: by)?|over|elapsed)\b/.test(rest)) return undefined;
  return /\b(?:until|till)(?: (?:the|a|your))?(?: full)? $/.test(before)
    ? 'min'
    : /\bif\b.*\bby the time (?:the )?$/.test(before)
      ? 'max'
      : undefined;
}

const MUST =
  /\b(?:has to|have to|must|needs? to|ought to|(?:['’]s|['’]ve|has|have)? ?got to|there must|should) (?!be\b|go\b|sit\b|have been\b|set\b)[^,;:]{0,40}$/;
/** `the spark's got to jump six millimetres, or I'm not convinced`, `by thirty it must have tripped`. */
function orElse({ before, after }: Said, to: number, kind: SimpleKind): Side | undefined {
  const rest = after(to);
  if (
    /(?:^|\b(?:and|so|but) |[,;:] )by (?:about )?$/.test(before) &&
    /^ (?:it|the [\w'’-]+) (?:must|has to|should|needs? to)\b/.test(rest)
  )
    return 'max';
  if (/^(?:,[^,;.\d]{1,25},)? clear of\b/.test(rest)) return 'min';
  return kind !== 'torque' &&
    MUST.test(before) &&
    /^[^;.]{0,50}?,? (?:or|otherwise|or else) (?:the|it|they|you|i|that|i['’]m)\b/.test(rest)
    ? 'min'
    : undefined;
}

const AND_WE_DO =
  /^ and (?:then )?(?:it|that|they|the [\w'’-]+|that [\w'’-]+|you|we|i)(?:['’](?:re|s|d|ll)| (?:want|need|have to|start|stop|go|gets?|goes))\b(?! (?:don['’]t|fine|good|no need))/;

/** `thirty thou or wider and we're buying rings`: of more something comes. */
function sideBehind({ side, to, further }: Behind, { after }: Said): Side {
  const rest = further ? after(to) : '';
  return (isGone(rest) || AND_WE_DO.test(rest)) && !isGood(rest) ? otherSide(side) : side;
}

/** The side of a limit, if a quantity is one, and the first token behind the words that say so. */
export function sideOf({ pieces, from, to, valueTo, unit, said, exact }: Amount): {
  side: Side | undefined;
  to: number;
} {
  const behind = limitAfter(pieces, to, unit.kind);
  const rest = said.after(to);
  const along = isAlong(unit, said, valueTo);
  const parts = !along && !partsNothing(said.before, unit.kind);
  const side =
    betterIs(unit, pieces, from, to) ??
    (behind && sideBehind(behind, said)) ??
    sideRefused(said, to, unit.kind, parts) ??
    onwards(pieces, to, said.before) ??
    (along ? undefined : sideBefore(said.before, unit.kind, said.earlier)) ??
    timeOver(said, to, unit.kind) ??
    orElse(said, to, unit.kind) ??
    (exact
      ? (limitOfWear(sideSaid(rest, said.beyond(to)), unit, said, rest) ??
        sideAnswered(said.before, said.earlier, rest, unit.kind) ??
        limitWarned(rest, said.beyond(to), unit.kind))
      : undefined);
  return { side, to: behind?.to ?? to };
}
