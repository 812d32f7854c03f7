import { unitOf } from '../spec/index.ts';
import { type Bare, bareAt } from './bare.ts';
import { countedBefore } from './counted-before.ts';
import type { Phrase } from './number-and-unit.ts';
import type { NumberRead } from './number-read.ts';
import type { Said } from './said.ts';
import { takesBack } from './taken-back.ts';
import type { Talk } from './talk.ts';
import { wordAt } from './tokens.ts';
import { type UnitAlone, unitSaidAlone, unitSaidBetween, unitsAlone } from './unit-alone.ts';
import { asSaidOf, unitAfter } from './unit-heard.ts';
import { inEighths, unitOfTopic } from './unit-of-topic.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';
import {
  FURTHEST_APART,
  isClose,
  type Neighbour,
  unitOfNeighbour,
  unitOfSentenceBefore,
  unitSaidLater,
  withUnit,
} from './unit-unsaid.ts';

/** So many quantities, and numbers without a unit, are kept in mind. */
const KEPT = 4;
const STOP = /[.!?]\s/;
/** A number said without its thousand is at most so many times the other. */
const GUESS = 3.2;
/** So many characters hold a few words: `Now five. Click. Now six newton metres`. */
const SHORT_TALK = 40;
/** So many characters before a number say what it is of. */
const TALK = 70;
/** More than one. */
const STOPS = /[.!?]\s.*[.!?]\s/s;
/** `sump plug's twenty-five, filter housing's twenty-five`: of another thing. */
const OF_ANOTHER = /^, [\w'’ -]+(['’]s|\b(is|are|gets?|wants?|takes?))\s+$/i;
/** `was 126 and we set it to 130, so two millimetres a side`; `It needs another three tenths`: what is left between them. */
const CONCLUSION = /,? so (?:[\w'’]+ ){0,4}$|\banother $/i;
/** What turns as fast as it can. */
const FLAT_OUT =
  /\b(?:wide[- ]open|flat out|full throttle|full chat|tops? out|maxe[sd] out|revs? (?:out )?to|wound out|tach|tacho|rpm|no load)\b/;
const CHARGED = /\b(battery|batteries|voltage|volts|charging|cranking|rectifier|alternator)\b/;
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
    const volts = this.#voltsWithoutPoint(low, said);
    if (volts) {
      const behind = this.#talk.pieces[volts.to]?.lower === 'to' ? this.#talk.numbers.at(volts.to + 1) : undefined;
      const high = behind && this.#voltsWithoutPoint(behind, said);
      const to = high?.to ?? volts.to;
      return withUnit({ low: volts, ...(high ? { high } : {}), to, said }, unitHeard(unitOf('voltage', 'V'), to, true));
    }
    const revs = this.#thousandsWithoutWord(low, said);
    if (revs)
      return withUnit({ low: revs, to: revs.to, said }, unitHeard(unitOf('turning-speed', 'rpm'), revs.to, true));
    const pointed = this.#withoutPoint(low);
    const bare = pointed ? bareAt(this.#talk, pointed, said) : this.#withoutScale(low, said);
    if (!bare) return undefined;
    const start = this.#talk.pieces[low.from]?.start ?? 0;
    this.#said = this.#said.filter(({ end }) => start >= end && start - end < FURTHEST_APART);
    const here = this.#said.filter(({ end }) => this.#together(end, start));
    // `thirteen amps, and the thermostat's at sixty-five`: of what was named since.
    const since = here[0] && this.#talk.text.slice(here[0].end, start).toLowerCase();
    this.#alone ??= unitsAlone(this.#talk);
    // `in inch-pounds, forty-five to sixty, and in newton metres, five to seven`.
    const named = here[0] && unitSaidBetween(this.#alone, here[0].end, start);
    const unit =
      this.#unitOfNext(bare) ??
      (named && asSaidOf(named, said, low.value)) ??
      (since === undefined ? undefined : unitOfTopic(bare, since, true)) ??
      unitOfNeighbour(bare, here) ??
      unitOfSentenceBefore(bare, this.#said) ??
      this.#counted(bare);
    // `Seventy-one, seventy-two. Yes.`: counted out.
    if (unit?.kind === 'count' && bare.high && bare.high.value - bare.low.value === 1) return undefined;
    if (unit) return withUnit(bare, { ...unit, to: bare.to });
    this.#alone ??= unitsAlone(this.#talk);
    const end = this.#talk.pieces[bare.to - 1]?.end ?? start;
    const apart = unitSaidAlone(this.#talk, this.#alone, start, end);
    const meant = apart && asSaidOf(apart, said, low.value);
    if (meant) return withUnit(bare, { ...meant, to: bare.to });
    const topic = unitOfTopic(bare, `${said.earlier} ${said.before}`.slice(-TALK)) ?? inEighths(bare);
    if (topic) return withUnit(bare, topic);
    // `twenty-one milliamps, twenty-one`: said again, and waiting for nothing.
    if (here.some(({ value }) => value === low.value)) return undefined;
    this.#waiting = [...this.#waiting, bare].slice(-KEPT);
    return undefined;
  }

  /** The digit behind a number, with a hyphen between them or without: `thirteen-two`. */
  #digitBehind(low: NumberRead): NumberRead | undefined {
    const { pieces, numbers } = this.#talk;
    const at = pieces[low.to]?.text === '-' ? low.to + 1 : low.to;
    const digit = numbers.at(at);
    const is = digit && !digit.figures && !digit.article && digit.to === at + 1 && digit.value >= 1 && digit.value <= 9;
    return is ? digit : undefined;
  }

  /** `voltage across the rectifier, fourteen two`: of a battery and what charges it. */
  #voltsWithoutPoint(low: NumberRead, { before, earlier, after: behind }: Said): NumberRead | undefined {
    if (low.figures || low.article || !Number.isInteger(low.value) || low.value < 9 || low.value > 15) return undefined;
    const digit = this.#digitBehind(low);
    const after = this.#talk.pieces[digit?.to ?? 0];
    if (!digit) return undefined;
    if (
      (after && after.type !== 'mark' && !/^(to|with|when|and|at)$/.test(after.lower)) ||
      !CHARGED.test(`${earlier} ${before} ${behind(digit.to)}`)
    )
      return undefined;
    return { ...low, value: low.value + digit.value / 10, to: digit.to };
  }

  /** `wide open we're at thirteen two`: thousands and hundreds of what turns. */
  #thousandsWithoutWord(low: NumberRead, { before }: Said): NumberRead | undefined {
    if (low.figures || low.article || !Number.isInteger(low.value) || low.value < 5 || low.value > 25) return undefined;
    const digit = this.#digitBehind(low);
    const after = this.#talk.pieces[digit?.to ?? 0];
    if (!digit) return undefined;
    if ((after && after.type !== 'mark') || !FLAT_OUT.test(before)) return undefined;
    // `thirteen five. Thousand.`: said behind it.
    if (this.#talk.pieces[digit.to + 1]?.lower === 'thousand') return undefined;
    return { ...low, value: low.value * 1000 + digit.value * 100, to: digit.to };
  }

  /** `250 and 290 kPa`: the unit of both. */
  #unitOfNext({ low, to, high, said }: Bare): UnitHeard | undefined {
    const { pieces, numbers } = this.#talk;
    const next = !high && /^(and|or)$/.test(wordAt(pieces, to)) ? numbers.at(to + 1) : undefined;
    if (!next || next.article) return undefined;
    const unit = unitAfter(this.#talk, next.to, next, said);
    return unit &&
      unit.kind !== 'count' &&
      unit.kind !== 'time' &&
      next.value <= low.value * GUESS &&
      low.value <= next.value * GUESS
      ? { ...unit, to, plural: true }
      : undefined;
  }

  /** What is counted, unless it was counted out already: `fifty-six? Then it is fifty-six`. */
  #counted(bare: Bare): UnitHeard | undefined {
    const again = this.#said.some(({ unit, value }) => unit.kind === 'count' && value === bare.low.value);
    return again ? undefined : countedBefore(bare);
  }

  /** `one point four bar in the front, one six in the back`; `13,200 rpm, then twelve eight`: its point, or its thousand, unsaid. */
  #withoutPoint(low: NumberRead): NumberRead | undefined {
    const digit = this.#digitBehind(low);
    if (low.figures || low.article || !Number.isInteger(low.value) || low.value > 99 || !digit) return undefined;
    // `zero point eight seven four; reject is eight seven three`: digit by digit.
    const third = this.#talk.numbers.at(digit.to);
    const three = low.value < 10 && third && !third.figures && third.value < 10 && third.to === digit.to + 1;
    const parts = three ? (low.value * 100 + digit.value * 10 + third.value) / 1000 : 0;
    if (three && this.#said.some(({ value }) => Math.abs(value - parts) < value / 10))
      return { ...low, value: parts, to: third.to };
    const read = low.value + digit.value / 10;
    const like = (value: number) => this.#said.some((said) => Math.max(value / said.value, said.value / value) < 1.5);
    const value = like(read) ? Number(read.toFixed(1)) : like(read * 1000) ? Math.round(read * 1000) : undefined;
    return value === undefined ? undefined : { ...low, value, to: digit.to };
  }

  /** `four and a half thousand, and never over nine`: its thousand, or its hundred, unsaid. */
  #withoutScale(low: NumberRead, said: Said): Bare | undefined {
    const bare = bareAt(this.#talk, low, said);
    if (low.article || low.scale || low.value <= 1 || low.value >= 100 || low.denominator) return bare;
    const scale = this.#said.find(
      ({ value, scale = 1 }) => scale > 1 && Math.max(value / (low.value * scale), (low.value * scale) / value) < GUESS,
    )?.scale;
    if (!scale) return bare;
    const scaled = (number: NumberRead) => ({ ...number, value: number.value * scale, scale });
    // `twelve, fourteen hundred`: the second number says its own.
    const first = bareAt(this.#talk, scaled(low), said);
    if (!bare || first?.high) return first;
    return { ...bare, low: scaled(low), ...(bare.high ? { high: scaled(bare.high) } : {}) };
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
        const between = this.#talk.text.slice(end, start);
        if (end > start || TAKEN_BACK.test(between) || takesBack(between)) return [];
        const apart = !this.#together(end, start);
        if (
          apart &&
          ((Number.isInteger(bare.low.value) && !isClose(bare, high?.value ?? low.value)) ||
            (STOPS.test(between) && start - end > SHORT_TALK) ||
            start - end > FURTHEST_APART)
        )
          return [];
        const listed = IN_A_LIST.test(this.#talk.text.slice(end, next));
        const taken = unitSaidLater(
          bare,
          { unit, value: high?.value ?? low.value, end: start },
          { listed, concluded: CONCLUSION.test(between), ofAnother: OF_ANOTHER.test(between) },
        );
        if (taken) next = this.#talk.pieces[bare.low.from]?.start ?? 0;
        return taken ? [withUnit(bare, taken)] : [];
      })
      .toReversed();
  }

  /**
   * Keeps a quantity's unit in mind.
   *
   * @param end offset behind it
   * @param named it only named a thing
   */
  keep({ low, high, unit }: Phrase, end: number, named = false): void {
    const { value, scale } = high ?? low;
    const kept = {
      unit,
      value,
      ...(scale ? { scale } : {}),
      span: high !== undefined,
      end,
      ...(named ? { named } : {}),
    };
    this.#said = [kept, ...this.#said].slice(0, KEPT);
  }

  #together(end: number, start: number): boolean {
    return start - end < FURTHEST_APART && start >= end && !STOP.test(this.#talk.text.slice(end, start));
  }
}
