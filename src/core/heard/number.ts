import type { NumberRead } from './number-read.ts';
import {
  BEGINNINGS,
  isYearLike,
  MORE,
  ONES,
  PARTS,
  POINTED_AT,
  SCALES,
  TENS,
  THING_BEFORE,
  VAGUE,
  WHOLE,
} from './number-words.ts';
import type { Token } from './tokens.ts';

/** So many pieces the longest number in words may have. */
const LONGEST = 40;

function mayBegin(token: Token | undefined): boolean {
  if (token?.type === 'word') return BEGINNINGS.has(token.lower);
  return token?.type === 'number' || (token?.type === 'mark' && /^[-+−–]$/.test(token.text));
}

/** Reads numbers out of the pieces of one text. */
export class Numbers {
  readonly #tokens: readonly Token[];
  /** What was read at a token before; `null` for no number. */
  readonly #read: (NumberRead | null | undefined)[];

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
    this.#read = new Array(tokens.length);
  }

  /** The longest number that starts at a token. */
  at(from: number): NumberRead | undefined {
    const known = this.#read[from];
    if (known !== undefined) return known ?? undefined;
    const read = mayBegin(this.#tokens[from]) ? this.#number(from) : undefined;
    this.#read[from] = read ?? null;
    return read;
  }

  #number(from: number): NumberRead | undefined {
    if (this.#isPronoun(from)) return undefined;
    const signed = this.#sign(from);
    const start = signed ? from + 1 : from;
    // `+80 °C`, in a range of temperatures.
    if (this.#mark(from) === '+' && this.#touches(from + 1) && !this.#touches(from)) {
      const read = this.#figures(from + 1);
      return read && { ...read, from };
    }
    const read = this.#unsigned(start);
    if (!read || (signed && read.article)) return undefined;
    return signed ? { ...read, from, value: -read.value } : read;
  }

  /**
   * `the three-inch one ten thousand`, `this one forty`, `this one to a hundred links`: `one` is the thing, and the number
   * begins behind it.
   */
  #isPronoun(at: number): boolean {
    if (this.#word(at) === 'one' && this.#word(at + 1) === 'to')
      return POINTED_AT.test(this.#word(at - 1)) && this.at(at + 2) !== undefined;
    if (this.#word(at) !== 'one' || !mayBegin(this.#tokens[at + 1]) || this.#mark(at + 1) !== '') return false;
    if (/^(and|a|an|point|half|quarter|hundred|thousand|million)$/.test(this.#word(at + 1))) return false;
    return THING_BEFORE.test(this.#word(at - 1));
  }

  #word(at: number): string {
    const token = this.#tokens[at];
    return token?.type === 'word' ? token.lower : '';
  }

  #mark(at: number): string {
    const token = this.#tokens[at];
    return token?.type === 'mark' ? token.text : '';
  }

  #touches(at: number): boolean {
    return this.#tokens[at - 1]?.end === this.#tokens[at]?.start;
  }

  /** `minus`, or a minus sign that touches the number and nothing before it. */
  #sign(at: number): boolean {
    if (this.#word(at) === 'minus' || this.#word(at) === 'negative') return this.#word(at - 1) !== 'or';
    const sign = this.#mark(at);
    return (sign === '-' || sign === '−' || sign === '–') && this.#touches(at + 1) && (at === 0 || !this.#touches(at));
  }

  #unsigned(from: number): NumberRead | undefined {
    const figures = this.#figures(from);
    if (figures) return this.#withFraction(figures);
    const words = this.#words(from);
    if (words) return this.#withFraction(words);
    const word = this.#word(from);
    // `hundred and ten`, but not `a couple of hundred`, `a few thousand`.
    const bare = SCALES.has(word) && !VAGUE.has(this.#word(from - 1)) ? this.#words(from, 1) : undefined;
    if (bare) return bare;
    // Bare, only these are fractions: the third minute is one of many.
    const part = word === 'half' || word === 'quarter' ? this.#part(from, 1) : undefined;
    if (part) return part;
    if (word === 'a' || word === 'an' || word === 'another') {
      const past = MORE.has(this.#word(from + 1)) ? from + 2 : from + 1;
      const fraction = this.#part(past, 1);
      if (fraction) return { ...fraction, from };
      const scaled = SCALES.has(this.#word(past)) ? this.#words(past, 1) : undefined;
      if (scaled) return { ...this.#withFraction(scaled), from };
      // `a full turn` is counted, `a turn` is only spoken of.
      return WHOLE.has(this.#word(from + 1))
        ? { value: 1, from, to: from + 2, figures: false }
        : { value: 1, from, to: from + 1, figures: false, article: true };
    }
    return undefined;
  }

  /** `12`, `30 000`, `2 1/2`, `2-1/2`, `10k`, `2 point 5`. */
  #figures(from: number): NumberRead | undefined {
    const token = this.#tokens[from];
    if (token?.type !== 'number' || token.value === undefined) return undefined;
    const [value, to] = [token.value, from + 1];
    const dash = this.#mark(to) === '-' && this.#touches(to) && this.#touches(to + 1) ? 1 : 0;
    const fraction = this.#tokens[to + dash];
    const isPart = fraction?.type === 'number' && /\/|^[^\d]/.test(fraction.text) && !fraction.text.startsWith('.');
    if (Number.isInteger(value) && isPart && (fraction.value ?? 1) < 1)
      return this.#scaled({ value: value + (fraction.value ?? 0), from, to: to + dash + 1, figures: true });
    if (this.#word(to) === 'k' && this.#touches(to)) return { value: value * 1000, from, to: to + 1, figures: true };
    const scale = SCALES.get(this.#word(to));
    if (scale !== undefined) return { value: value * scale, from, to: to + 1, figures: true, scale };
    const spoken = this.#word(to) === 'point' ? this.#tokens[to + 1] : undefined;
    if (spoken?.type === 'number' && /^\d+$/.test(spoken.text))
      return { value: Number(`${value}.${spoken.text}`), from, to: to + 2, figures: true };
    return { value, from, to, figures: true };
  }

  /** `12½ thousand`. */
  #scaled(read: NumberRead): NumberRead {
    const scale = SCALES.get(this.#word(read.to));
    return scale === undefined ? read : { ...read, value: read.value * scale, to: read.to + 1, scale };
  }

  /** A hyphen between number words is passed over. */
  #next(at: number): number {
    return this.#mark(at) === '-' && this.#touches(at) && this.#touches(at + 1) ? at + 1 : at;
  }

  #below100(from: number): { value: number; to: number } | undefined {
    const ten = TENS.get(this.#word(from));
    if (ten !== undefined) {
      const next = this.#next(from + 1);
      const one = ONES.get(this.#word(next));
      return one !== undefined && one > 0 && one < 10
        ? { value: ten + one, to: next + 1 }
        : { value: ten, to: from + 1 };
    }
    const one = ONES.get(this.#word(from));
    return one === undefined ? undefined : { value: one, to: from + 1 };
  }

  /** `eighty-five`, `a hundred and ten`, `one oh eight`, `two fifty`, `thirty thousand`, `zero point seven`. */
  #words(from: number, first?: number): NumberRead | undefined {
    const start = first === undefined ? this.#below100(from) : { value: first, to: from };
    if (!start) return this.#word(from) === 'point' ? this.#afterPoint(from, 0, from) : undefined;
    let { value: current, to } = start;
    let total = 0;
    let scaled = first !== undefined;
    while (to - from < LONGEST) {
      const next = this.#next(to);
      const scale = SCALES.get(this.#word(next));
      if (scale !== undefined && (this.#word(next) !== 'hundred' || current < 100)) {
        current *= scale;
        scaled = true;
        to = next + 1;
        if (scale >= 1000) {
          total += current;
          current = 0;
        }
        continue;
      }
      const joined = this.#word(to) === 'and' && scaled ? to + 1 : next;
      const more = this.#composedPart(joined) ? undefined : this.#below100(joined);
      if (!more || (joined === to + 1 && this.#word(to) === 'and' && this.#isMixed(more.to))) break;
      // `between nine hundred and thirteen hundred`: the hundreds are those of another number.
      if (this.#word(to) === 'and' && this.#word(this.#next(more.to)) === 'hundred') break;
      // `between twenty-five hundred and five thousand`: the thousands are those of another number.
      if (current + total >= 1000 && (SCALES.get(this.#word(this.#next(more.to))) ?? 0) >= 1000) break;
      // `two ten-thousandths`.
      if (/^thousandths?$/.test(this.#word(more.to + 1)) && this.#mark(more.to) === '-') break;
      const room = scaled && (current === 0 || current % 100 === 0) && more.value > 0;
      const hundreds =
        !scaled && current > 0 && current < 10 && total === 0 && (more.value >= 10 || this.#isOh(joined));
      if (room) {
        current += more.value;
        to = more.to;
      } else if (hundreds && this.#isOh(joined)) {
        const digit = this.#below100(this.#next(more.to));
        if (!digit || digit.value > 9) break;
        current = current * 100 + digit.value;
        to = digit.to;
        scaled = true;
      } else if (hundreds || (!scaled && total === 0 && isYearLike(current, more, this.#mark(more.to) === '-'))) {
        current = current * 100 + more.value;
        to = more.to;
        scaled = true;
      } else break;
    }
    const value = total + current;
    if (this.#word(to) === 'point') return this.#afterPoint(to, value, from) ?? { value, from, to, figures: false };
    const scale = SCALES.get(this.#word(to - 1));
    return { value, from, to, figures: false, ...(scale ? { scale } : {}) };
  }

  #isOh(at: number): boolean {
    return ['oh', 'zero'].includes(this.#word(at));
  }

  /** `and` before a number that is the count of a fraction: two hundred and three eighths. */
  #isMixed(to: number): boolean {
    return PARTS.has(this.#word(this.#next(to)));
  }

  #afterPoint(at: number, whole: number, from: number): NumberRead | undefined {
    let digits = '';
    let to = at + 1;
    for (let read = this.#below100(to); read && read.value < 100; read = this.#below100(to)) {
      if ((read.value > 9 && digits !== '') || to - from > LONGEST) break;
      digits += String(read.value);
      to = read.to;
      if (read.value > 9) break;
    }
    return digits === '' ? undefined : { value: Number(`${whole}.${digits}`), from, to, figures: false };
  }

  /** A fraction in words whose count is known, such as `quarter`, `eighths of an`; `thirty-second of an`. */
  #part(from: number, count: number): NumberRead | undefined {
    const at = this.#next(from);
    const named = PARTS.get(this.#word(at));
    const composed = this.#composedPart(at);
    const [denominator, to] = named ? [named, at + 1] : composed ? [composed.value, composed.to] : [0, 0];
    if (denominator === 0 || count >= denominator * 2) return undefined;
    return { value: count / denominator, from, to: this.#ofA(to), figures: false, denominator };
  }

  /** 32 for `thirty-second`, 64 for `sixty-fourth`. */
  #composed(at: number): number {
    const ten = this.#word(at);
    const word = this.#word(this.#next(at + 1));
    return ten === 'thirty' && /^seconds?$/.test(word) ? 32 : ten === 'sixty' && /^fourths?$/.test(word) ? 64 : 0;
  }

  /** `five thirty-seconds`, `a thirty-second at most`: with its hyphen, and no noun to follow a singular. */
  #countsParts(at: number, last: number): boolean {
    if (last === at + 1 || /s$/.test(this.#word(last))) return last > at + 1;
    const before = this.#word(this.#mark(at - 1) === '-' ? at - 2 : at - 1);
    return (
      /^(an?|one)$/.test(before) &&
      /^(|at|of|per|or|and|deep|thick|wide|high|proud|more|less|max|tops|on|for|in|with|if|when|from|off|above|below|under|over|too|either|is|a|each|every)$/.test(
        this.#word(last + 1),
      )
    );
  }

  /** They are fractions only before `of a`, `of an` or an inch, or where they are counted: else a time, a rank. */
  #composedPart(at: number): { value: number; to: number } | undefined {
    const value = this.#composed(at);
    const last = this.#next(at + 1);
    const after = this.#word(last + 1);
    const inch = after === 'inch' || (after === 'of' && /^an?$/.test(this.#word(last + 2)));
    return value > 0 && (inch || this.#countsParts(at, last)) ? { value, to: last + 1 } : undefined;
  }

  /** `point eight of a litre`. */
  #ofOne(to: number): number {
    return this.#word(to) === 'of' && /^(an?|one)$/.test(this.#word(to + 1)) ? to + 2 : to;
  }

  #ofA(to: number): number {
    const next = this.#next(to);
    if (/^an?$/.test(this.#word(next))) return next + 1;
    const past = this.#ofOne(to);
    return past === to ? next : past;
  }

  /** Adds `and a half`, `and three eighths`, or reads the number as the count of a fraction. */
  #withFraction(read: NumberRead): NumberRead {
    if (!Number.isInteger(read.value)) return read.value < 1 ? { ...read, to: this.#ofOne(read.to) } : read;
    const asCount = this.#word(read.to) === 'a' ? undefined : this.#part(read.to, read.value);
    if (asCount && read.value > 0) return { ...asCount, from: read.from, figures: read.figures };
    const and = this.#next(read.to);
    if (this.#word(and) !== 'and') return read;
    const next = this.#next(and + 1);
    const article = /^an?$/.test(this.#word(next)) ? this.#part(this.#next(next + 1), 1) : undefined;
    const bare = article ?? this.#part(next, 1);
    const figures = this.#figures(next);
    const count = this.#below100(next);
    const counted = count && count.value > 0 ? this.#part(count.to, count.value) : undefined;
    const extra = bare ?? counted ?? (figures && figures.value < 1 ? figures : undefined);
    if (!extra || extra.value >= 1) return read;
    const value = read.value + extra.value;
    const scale = SCALES.get(this.#word(extra.to));
    return scale ? { ...read, value: value * scale, to: extra.to + 1, scale } : { ...read, value, to: extra.to };
  }
}
