import type { NumberRead } from './number.ts';
import type { Phrase } from './number-and-unit.ts';
import type { Said } from './said.ts';
import type { Talk } from './talk.ts';
import { type UnitAlone, unitSaidAlone, unitsAlone } from './unit-alone.ts';
import {
  type Bare,
  bareAt,
  countedBefore,
  FURTHEST_APART,
  type Neighbour,
  unitOfNeighbour,
  unitOfSentenceBefore,
  unitSaidLater,
  withUnit,
} from './unit-unsaid.ts';

/** So many quantities, and numbers without a unit, are kept in mind. */
const KEPT = 4;
const STOP = /[.!?]\s/;
/** More than one. */
const STOPS = /[.!?]\s.*[.!?]\s/s;
const TAKEN_BACK = /\b(no,? (?:sorry|wait|hang on)|sorry|scratch that|i mean|make that|hang on|correction)\b/i;
/** `two, then four, then the full five newton metres`. */
const IN_A_LIST =
  /^\s*,?\s+(?:(?:and|then|finally|lastly) )+(?:(?:up|on) to |to |at )?(?:(?:the|a|about|full|final|last) )*$/i;

/** The units said last, for numbers that are said without theirs: `28 psi in the front and thirty in the rear`. */
export class Units {
  readonly #talk: Talk;
  #said: Neighbour[] = [];
  #waiting: Bare[] = [];
  #alone: readonly UnitAlone[] | undefined;

  constructor(talk: Talk) {
    this.#talk = talk;
  }

  /** The number as a phrase, with the unit of a quantity near before it; what finds none waits for one. */
  takenFromNeighbour(low: NumberRead, said: Said): Phrase | undefined {
    const bare = bareAt(this.#talk, this.#withoutPoint(low) ?? low, said);
    if (!bare) return undefined;
    const start = this.#talk.pieces[low.from]?.start ?? 0;
    this.#said = this.#said.filter(({ end }) => start >= end && start - end < FURTHEST_APART);
    const here = this.#said.filter(({ end }) => this.#together(end, start));
    const unit = unitOfNeighbour(bare, here) ?? unitOfSentenceBefore(bare, this.#said) ?? countedBefore(bare);
    if (unit) return withUnit(bare, unit);
    this.#alone ??= unitsAlone(this.#talk);
    const end = this.#talk.pieces[bare.to - 1]?.end ?? start;
    const apart = unitSaidAlone(this.#talk, this.#alone, start, end);
    if (apart) return withUnit(bare, { ...apart, to: bare.to });
    if (here.length === 0) this.#waiting = [...this.#waiting, bare].slice(-KEPT);
    return undefined;
  }

  /** `one point four bar in the front, one six in the back`; `13,200 rpm, then twelve eight`: its point, or its thousand, unsaid. */
  #withoutPoint(low: NumberRead): NumberRead | undefined {
    const digit = this.#talk.numbers.at(low.to);
    if (low.figures || low.article || !Number.isInteger(low.value) || low.value > 99 || !digit) return undefined;
    if (digit.figures || digit.article || digit.to !== low.to + 1 || digit.value < 1 || digit.value > 9)
      return undefined;
    const read = low.value + digit.value / 10;
    const like = (value: number) => this.#said.some((said) => Math.max(value / said.value, said.value / value) < 1.5);
    const value = like(read) ? Number(read.toFixed(1)) : like(read * 1000) ? Math.round(read * 1000) : undefined;
    return value === undefined ? undefined : { ...low, value, to: digit.to };
  }

  /** Numbers before a quantity that take its unit. */
  thoseThatWaited({ low, high, unit }: Phrase): Phrase[] {
    const waiting = this.#waiting;
    this.#waiting = [];
    const start = this.#talk.pieces[low.from]?.start ?? 0;
    let next = start;
    return waiting
      .toReversed()
      .flatMap((bare) => {
        const end = this.#talk.pieces[bare.to - 1]?.end ?? 0;
        if (TAKEN_BACK.test(this.#talk.text.slice(end, start))) return [];
        const apart = !this.#together(end, start);
        if (
          apart &&
          (Number.isInteger(bare.low.value) ||
            STOPS.test(this.#talk.text.slice(end, start)) ||
            start - end > FURTHEST_APART)
        )
          return [];
        const listed = IN_A_LIST.test(this.#talk.text.slice(end, next));
        const taken = unitSaidLater(bare, { unit, value: high?.value ?? low.value, end: start }, listed);
        if (taken) next = this.#talk.pieces[bare.low.from]?.start ?? 0;
        return taken ? [withUnit(bare, taken)] : [];
      })
      .toReversed();
  }

  /** Keeps a quantity's unit in mind. @param end offset behind it */
  keep({ low, high, unit }: Phrase, end: number): void {
    this.#said = [{ unit, value: high?.value ?? low.value, end }, ...this.#said].slice(0, KEPT);
  }

  #together(end: number, start: number): boolean {
    return start - end < FURTHEST_APART && start >= end && !STOP.test(this.#talk.text.slice(end, start));
  }
}
