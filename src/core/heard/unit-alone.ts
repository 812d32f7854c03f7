import { firstWhere } from '../time/index.ts';
import { countsNothing } from './no-noun.ts';
import type { NumberRead } from './number-read.ts';
import { NOTHING_SAID, type Said } from './said.ts';
import { isNumberWord } from './side-by-side.ts';
import type { Talk } from './talk.ts';
import { textAt, wordAt } from './tokens.ts';
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
  /^(in|on|to|both|dc|ac|are|all|is|mean|meant|talking|these|those|them|(?:that|it|they|those|these|everything|all)['’](?:s|re|ll))$/;
/** Scales of heat, which nothing else is called by. */
const SCALE = /^(fahrenheit|celsius|centigrade)$/;
const PAUSE = /^[,:;(–—.?!-]$/;
/** Units that have no plural, or stand for themselves. */
const NAMED =
  /^(psi|nm|n|mm|mils?|thou|bar|millibar|rpm|cm|kpa|mls?|ccs?|kgs?|kw|mv|ma|hp|horsepower|rockwell|brinell|feet|hertz|celsius|fahrenheit|percent|per)$/i;
/** What may follow it in its clause. */
const CLOSES =
  /^(that|by|obviously|not|now|again|here|if|for|i|remember|this|of|and|but|both|each|all|please|yes|ac|dc|it|it['’]s|that['’]s|we['’]re|mind|resting|cold|hot)$/;

/** Any number. */
const COUNTED: NumberRead = { value: 2, from: 0, to: 0, figures: true };
/** Words behind which a unit is counted, or only spoken of. */
const OF_A_NUMBER =
  /^(\d.*|a|an|the|of|per|how|many|few|couple|more|some|no|any|these|those|this|that|what|its|your|my|or|and|so|odd|ish|half|quarter|hundredths?|tenths?|thousandths?|hundred|thousand|million|zero|oh|nought|point|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]+teen|(?:twen|thir|for|fif|six|seven|eigh|nine)ty)$/;
/** What people write between clauses; captions made by a machine have none of it. */
const MARKS = /[.,;:?!]\s+\S/;

/** The units of a text that stand alone in their clause and say what the numbers round them are numbers of. */
export function unitsAlone(talk: Talk): UnitAlone[] {
  const { pieces, numbers } = talk;
  const found: UnitAlone[] = [];
  const unmarked = !MARKS.test(talk.text);
  for (let at = 1; at < pieces.length; at++) {
    const [lead, piece] = [pieces[at - 1], pieces[at]];
    const scale =
      SCALE.test(piece?.lower ?? '') ||
      (lead?.lower === 'the' && /^(range|scale|setting)$/.test(wordAt(pieces, at + 1)));
    if (piece?.type !== 'word' || !lead) continue;
    if (
      !(
        scale ||
        PAUSE.test(lead.text) ||
        LEADS.test(lead.lower) ||
        (lead.lower === 'and' && textAt(pieces, at - 2) === ',') ||
        (unmarked && mayStandAlone(talk, at))
      )
    ) {
      // `three hundred newton metres`: the unit of its number, to its end.
      if (unmarked && isNumberWord(lead)) at = Math.max(at, (unitAfter(talk, at, COUNTED, NOTHING_SAID)?.to ?? 0) - 1);
      continue;
    }
    if (at > 1 && PAUSE.test(lead.text) && pieces[at - 2]?.type === 'number') if (lead.text === '-') continue;
    const unit = unitAfter(talk, at, COUNTED, NOTHING_SAID);
    if (!unit || numbers.at(at) || !isMeant(talk, at, unit)) continue;
    found.push({ unit: { ...unit, plural: true }, start: piece.start, end: pieces[unit.to - 1]?.end ?? piece.end });
    at = unit.to - 1;
  }
  return found;
}

/** In captions without marks, where no number and no article leads to it: `four hundred on the left ohms`. */
function mayStandAlone({ pieces, numbers }: Talk, at: number): boolean {
  const lead = wordAt(pieces, at - 1);
  if (wordAt(pieces, at) === 'bar') return false;
  return !OF_A_NUMBER.test(lead) || (/^(one|half)$/.test(lead) && !numbers.at(at - 1));
}

/** `in seconds` is how soon, and a letter by itself is no unit. */
function isMeant(talk: Talk, at: number, unit: UnitHeard): boolean {
  const { text, pieces } = talk;
  // `I counted one-sixteen on the old one, links that is`.
  const named = pieces[unit.to]?.lower === 'that' && pieces[unit.to + 1]?.lower === 'is';
  if ((unit.kind === 'count' && !named) || unit.kind === 'distance') return false;
  if (unit.kind === 'time' && unit.symbol !== 'ms' && !PAUSE.test(textAt(pieces, at - 1))) return false;
  const first = textAt(pieces, at);
  if (unit.to === at + 1 && first.length < 2) return false;
  const [next, after] = [pieces[unit.to], pieces[unit.to + 1]];
  const plain = unit.plural || NAMED.test(first) || (unit.to > at + 1 && /[^s]s$/.test(first));
  if (!plain) return false;
  if (/^(range|scale|setting)$/.test(next?.lower ?? '')) return true;
  if (!next || next.type === 'mark') return true;
  // `marked in inch-pounds on this one`.
  if (
    MARKED_IN.test(text.slice(Math.max(0, (pieces[at]?.start ?? 0) - 30), pieces[at]?.start)) &&
    /^(on|with|at|here|there)$/.test(next.lower)
  )
    return true;
  if (!MARKS.test(text) && (countsNothing(pieces, unit.to) || talk.numbers.at(unit.to) !== undefined)) return true;
  if (next.lower === 'the' && /^(pair|lot|two)$/.test(after?.lower ?? '')) return true;
  return CLOSES.test(next.lower) && (next.lower !== 'of' || after?.lower === 'course') && next.lower !== 'for';
}

/** `a hundred and eighty, amps`: the unit behind a pause. */
export function unitBehindPause(talk: Talk, at: number, number: NumberRead, said: Said): UnitHeard | undefined {
  const { pieces, numbers } = talk;
  if (number.article || pieces[at]?.text !== ',' || numbers.at(at + 1)) return undefined;
  const unit = unitAfter(talk, at + 1, number, said);
  return unit && unit.to > at + 1 && isMeant(talk, at + 1, unit) ? { ...unit, plural: true } : undefined;
}

const MARKED_IN = /\b(?:marked|calibrated|graduated|scale is|reads|printed) in $/;
const METER_ON =
  /\b(?:marked|calibrated|scale is|all) in $|\b(meter|multimeter|it|set) (?:is |set )?(?:on|to|in) (?:the )?$/i;
/** So many characters lie at most between a number and the unit said apart from it. */
const FURTHEST = 130;
const NEXT_SENTENCE =
  /^[^.?!]*[.?!]\s+(?:same (?:units?|again|thing|here),? )?(?:(?:and )?(?:that|it|those|these|they|all|this)(?:['’](?:s|re)| is| are| in)?\s+(?:all )?(?:in )?)?$/i;
/** A unit that is a sentence is said of so many before it. */
const SENTENCES = 3;
const STOP = /[.?!]\s/;

/** The index of the first that ends at an offset or behind it. */
function firstNear(alone: readonly UnitAlone[], offset: number): number {
  return firstWhere(alone, ({ end }) => end >= offset);
}

/** The last unit said alone between two offsets. */
export function unitSaidBetween(alone: readonly UnitAlone[], from: number, to: number): UnitHeard | undefined {
  return alone.slice(firstNear(alone, from)).findLast(({ start, end }) => start >= from && end <= to)?.unit;
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
      const whole = /[.?!]\s+$/.test(between) && /^(?:, (?:both|all|each))?[.?!]/.test(talk.text.slice(to));
      if (whole && between.split(STOP).length <= SENTENCES) return unit;
    }
    const between = talk.text.slice(Math.min(to, start), start);
    // `meter on ohms, wires off. Twelve point eight.`
    const onMeter = METER_ON.test(talk.text.slice(Math.max(0, from - 30), from));
    if (to <= start && start - to < FURTHEST && (onMeter || !STOP.test(between))) return unit;
  }
  return undefined;
}
