import { firstWhere } from '../time/index.ts';
import { NOTHING_SAID } from './said.ts';
import type { Talk } from './talk.ts';
import { unitAfter } from './unit-heard.ts';
import type { UnitHeard } from './unit-spoken.ts';

/** A unit that no number stands before: `in millimetres`, `psi that is`. */
export interface UnitAlone {
  readonly unit: UnitHeard;
  /** Offsets in the text. */
  readonly start: number;
  readonly end: number;
}

const LEADS =
  /^(in|dc|ac|are|all|is|mean|meant|talking|these|those|them|(?:that|it|they|those|these|everything|all)['’](?:s|re|ll))$/;
const PAUSE = /^[,:;(–—.?!-]$/;
/** What may follow it in its clause. */
const CLOSES = /^(that|by|obviously|not|now|again|here|if|for|i|remember|this|of)$/;

/** The units of a text that stand alone in their clause and say what the numbers round them are numbers of. */
export function unitsAlone(talk: Talk): UnitAlone[] {
  const { pieces, numbers } = talk;
  const found: UnitAlone[] = [];
  for (let at = 1; at < pieces.length; at++) {
    const [lead, piece] = [pieces[at - 1], pieces[at]];
    if (piece?.type !== 'word' || !lead || !(PAUSE.test(lead.text) || LEADS.test(lead.lower))) continue;
    if (at > 1 && PAUSE.test(lead.text) && pieces[at - 2]?.type === 'number') if (lead.text === '-') continue;
    const unit = unitAfter(talk, at, { value: 2, from: at, to: at, figures: true }, NOTHING_SAID);
    if (!unit || numbers.at(at) || !isMeant(talk, at, unit)) continue;
    found.push({ unit: { ...unit, plural: true }, start: piece.start, end: pieces[unit.to - 1]?.end ?? piece.end });
    at = unit.to - 1;
  }
  return found;
}

/** `in seconds` is how soon, and a letter by itself is no unit. */
function isMeant({ pieces }: Talk, at: number, unit: UnitHeard): boolean {
  if (unit.kind === 'count' || unit.kind === 'distance') return false;
  if (unit.kind === 'time' && !PAUSE.test(pieces[at - 1]?.text ?? '')) return false;
  const first = pieces[at]?.text ?? '';
  if (unit.to === at + 1 && first.length < 2) return false;
  const [next, after] = [pieces[unit.to], pieces[unit.to + 1]];
  if (!next || next.type === 'mark')
    return unit.plural || /^(psi|nm|n|mm|thou|bar|rpm|cm|kpa|ml|hertz|celsius|fahrenheit|percent)$/i.test(first);
  if (!unit.plural && !/^(psi|nm|mm|thou|bar|rpm|cm|kpa|ml|celsius|fahrenheit|percent)$/i.test(first)) return false;
  return CLOSES.test(next.lower) && (next.lower !== 'of' || after?.lower === 'course') && next.lower !== 'for';
}

/** So many characters lie at most between a number and the unit said apart from it. */
const FURTHEST = 130;
const NEXT_SENTENCE =
  /^[^.?!]*[.?!]\s+(?:(?:and )?(?:that|it|those|these|they|all|this)(?:['’](?:s|re)| is| are| in)?\s+(?:all )?(?:in )?)?$/i;
const STOP = /[.?!]\s/;

/** The index of the first that ends at an offset or behind it. */
function firstNear(alone: readonly UnitAlone[], offset: number): number {
  return firstWhere(alone, ({ end }) => end >= offset);
}

/** The unit said alone nearest to a number: behind it in its sentence or as the next one, or before it. */
export function unitSaidAlone(
  talk: Talk,
  alone: readonly UnitAlone[],
  start: number,
  end: number,
): UnitHeard | undefined {
  // Only those near by are looked at, however many a text holds.
  for (let at = firstNear(alone, start - FURTHEST); at < alone.length; at++) {
    const { unit, start: from, end: to } = alone[at] ?? { unit: undefined, start: Infinity, end: Infinity };
    if (!unit || from - end >= FURTHEST) return undefined;
    if (from >= end && from - end < FURTHEST) {
      const between = talk.text.slice(end, from);
      if (!STOP.test(between) || NEXT_SENTENCE.test(between)) return unit;
    }
    if (to <= start && start - to < FURTHEST && !STOP.test(talk.text.slice(to, start))) return unit;
  }
  return undefined;
}
