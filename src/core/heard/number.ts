import { Fractions } from './fractions.ts';
import { NumberPieces } from './number-pieces.ts';
import type { NumberRead } from './number-read.ts';
import {
  BEGINNINGS,
  isYearLike,
  MORE,
  ONE_OF,
  PARTS,
  POINTED_AT,
  SCALES,
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
  readonly #pieces: NumberPieces;
  readonly #fractions: Fractions;
  /** What was read at a token before; `null` for no number. */
  readonly #read: (NumberRead | null | undefined)[];

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
    this.#pieces = new NumberPieces(tokens);
    this.#fractions = new Fractions(this.#pieces);
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
    if (this.#pieces.mark(from) === '+' && this.#pieces.touches(from + 1) && !this.#pieces.touches(from)) {
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
    if (this.#pieces.word(at) === 'one' && this.#pieces.word(at + 1) === 'to')
      return POINTED_AT.test(this.#pieces.word(at - 1)) && this.at(at + 2) !== undefined;
    if (this.#pieces.word(at) !== 'one') return false;
    const behind = this.#tokens[at + 1];
    // `for the small one watts`: of one there is no plural.
    if (
      /[^s']s$/.test(behind?.lower ?? '') &&
      !/^(is|was|has|does|gets|goes|says|reads|takes|wants|needs|this|plus)$/.test(behind?.lower ?? '') &&
      THING_BEFORE.test(this.#pieces.word(at - 1))
    )
      return true;
    // `the small one and 0.982 on the big one`.
    if (behind?.lower === 'and' && this.#tokens[at + 2]?.type === 'number')
      return THING_BEFORE.test(this.#pieces.word(at - 1));
    // `on this one, sixty`.
    if (behind && !/^[,.;:?!]$/.test(behind.text) && (!mayBegin(behind) || behind.type === 'mark')) return false;
    if (/^(and|a|an|point|half|quarter|hundred|thousand|million)$/.test(this.#pieces.word(at + 1))) return false;
    return THING_BEFORE.test(this.#pieces.word(at - 1));
  }

  /** `minus`, or a minus sign that touches the number and nothing before it. */
  #sign(at: number): boolean {
    if (this.#pieces.word(at) === 'minus' || this.#pieces.word(at) === 'negative')
      return this.#pieces.word(at - 1) !== 'or';
    const sign = this.#pieces.mark(at);
    return (
      (sign === '-' || sign === '−' || sign === '–') &&
      this.#pieces.touches(at + 1) &&
      (at === 0 || !this.#pieces.touches(at))
    );
  }

  #unsigned(from: number): NumberRead | undefined {
    const figures = this.#figures(from);
    if (figures) return this.#withFraction(figures);
    const words = this.#pieces.spelled(from) ?? this.#words(from);
    if (words) return this.#withFraction(words);
    const word = this.#pieces.word(from);
    // `hundred and ten`, but not `a couple of hundred`, `a few thousand`.
    const bare =
      SCALES.has(word) && word !== 'grand' && !VAGUE.has(this.#pieces.word(from - 1)) && !this.#pieces.standsAlone(from)
        ? this.#words(from, 1)
        : undefined;
    if (bare) return bare;
    // `sixteenth of an inch`, its article left out.
    if (PARTS.has(word) && /^of an? $/.test(`${this.#pieces.word(from + 1)} ${this.#pieces.word(from + 2)} `))
      return /^(the|first|last|every|each|next)$/.test(this.#pieces.word(from - 1))
        ? undefined
        : this.#fractions.part(from, 1);
    if (ONE_OF.has(word)) return this.#pieces.oneUnsaid(from);
    // Bare, only these are fractions: the third minute is one of many.
    const part = word === 'half' || word === 'quarter' ? this.#fractions.part(from, 1) : undefined;
    if (part) return word === 'half' && this.#pieces.isOneOfTwo(from, part.to) ? undefined : part;
    if (word === 'a' && this.#pieces.word(from + 1) === 'couple' && this.#pieces.word(from + 2) === 'of') {
      const scale = { hundred: 100, thousand: 1000 }[this.#pieces.word(from + 3)];
      return { value: 2 * (scale ?? 1), from, to: from + (scale ? 4 : 3), figures: false, couple: true };
    }
    if (word === 'a' || word === 'an' || word === 'another') {
      const past = MORE.has(this.#pieces.word(from + 1)) ? from + 2 : from + 1;
      const fraction = this.#fractions.part(past, 1);
      if (fraction) return { ...fraction, from };
      const scaled = SCALES.has(this.#pieces.word(past)) ? this.#words(past, 1) : undefined;
      if (scaled) return { ...this.#withFraction(scaled), from };
      // `a full turn` is counted, `a turn` is only spoken of.
      return WHOLE.has(this.#pieces.word(from + 1))
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
    const dash = this.#pieces.mark(to) === '-' && this.#pieces.touches(to) && this.#pieces.touches(to + 1) ? 1 : 0;
    const fraction = this.#tokens[to + dash];
    const isPart = fraction?.type === 'number' && /\/|^[^\d]/.test(fraction.text) && !fraction.text.startsWith('.');
    if (Number.isInteger(value) && isPart && (fraction.value ?? 1) < 1)
      return this.#scaled({ value: value + (fraction.value ?? 0), from, to: to + dash + 1, figures: true });
    if (this.#pieces.word(to) === 'k' && this.#pieces.touches(to))
      return { value: value * 1000, from, to: to + 1, figures: true };
    const scale = SCALES.get(this.#pieces.word(to));
    if (scale !== undefined) return { value: value * scale, from, to: to + 1, figures: true, scale };
    const spoken = this.#pieces.word(to) === 'point' ? this.#tokens[to + 1] : undefined;
    if (spoken?.type === 'number' && /^\d+$/.test(spoken.text))
      return { value: Number(`${value}.${spoken.text}`), from, to: to + 2, figures: true };
    return { value, from, to, figures: true };
  }

  /** `12½ thousand`. */
  #scaled(read: NumberRead): NumberRead {
    const scale = SCALES.get(this.#pieces.word(read.to));
    return scale === undefined ? read : { ...read, value: read.value * scale, to: read.to + 1, scale };
  }

  /** `eighty-five`, `a hundred and ten`, `one oh eight`, `two fifty`, `thirty thousand`, `zero point seven`. */
  #words(from: number, first?: number): NumberRead | undefined {
    const start = first === undefined ? this.#pieces.below100(from) : { value: first, to: from };
    if (!start) return this.#pieces.word(from) === 'point' ? this.#afterPoint(from, 0, from) : undefined;
    let { value: current, to } = start;
    let total = 0;
    let scaled = first !== undefined;
    while (to - from < LONGEST) {
      const next = this.#pieces.next(to);
      const scale = SCALES.get(this.#pieces.word(next));
      if (scale !== undefined && (this.#pieces.word(next) !== 'hundred' || current < 100)) {
        current *= scale;
        scaled = true;
        to = next + 1;
        if (scale >= 1000) {
          total += current;
          current = 0;
        }
        continue;
      }
      const joined = this.#pieces.word(to) === 'and' && scaled ? to + 1 : next;
      const more = this.#fractions.composedPart(joined) ? undefined : this.#pieces.below100(joined);
      if (!more || (joined === to + 1 && this.#pieces.word(to) === 'and' && this.#isMixed(more.to))) break;
      // `between nine hundred and thirteen hundred`: the hundreds are those of another number.
      if (this.#pieces.word(to) === 'and' && this.#pieces.word(this.#pieces.next(more.to)) === 'hundred') break;
      // `between twenty-five hundred and five thousand`: the thousands are those of another number.
      if (current + total >= 1000 && (SCALES.get(this.#pieces.word(this.#pieces.next(more.to))) ?? 0) >= 1000) break;
      // `two ten-thousandths`.
      if (/^thousandths?$/.test(this.#pieces.word(more.to + 1)) && this.#pieces.mark(more.to) === '-') break;
      const room = scaled && (current === 0 || current % 100 === 0) && more.value > 0;
      const hundreds =
        !scaled && current > 0 && current < 10 && total === 0 && (more.value >= 10 || this.#pieces.isOh(joined));
      if (room) {
        current += more.value;
        to = more.to;
      } else if (hundreds && this.#pieces.isOh(joined)) {
        const digit = this.#pieces.below100(this.#pieces.next(more.to));
        if (!digit || digit.value > 9) break;
        current = current * 100 + digit.value;
        to = digit.to;
        scaled = true;
      } else if (
        hundreds ||
        (!scaled && total === 0 && isYearLike(current, more, this.#pieces.mark(more.to) === '-'))
      ) {
        current = current * 100 + more.value;
        to = more.to;
        scaled = true;
      } else break;
    }
    const value = total + current;
    if (this.#pieces.isPoint(to))
      return this.#afterPoint(this.#pieces.next(to), value, from) ?? { value, from, to, figures: false };
    const scale = SCALES.get(this.#pieces.word(to - 1));
    return { value, from, to, figures: false, ...(scale ? { scale } : {}) };
  }

  /** `and` before a number that is the count of a fraction: two hundred and three eighths. */
  #isMixed(to: number): boolean {
    return PARTS.has(this.#pieces.word(this.#pieces.next(to)));
  }

  #afterPoint(at: number, whole: number, from: number): NumberRead | undefined {
    let digits = '';
    let to = at + 1;
    for (;;) {
      const read = this.#pieces.below100(this.#pieces.next(to));
      if (!read) break;
      if ((read.value > 9 && digits !== '') || to - from > LONGEST) break;
      digits += String(read.value);
      to = read.to;
      if (read.value > 9) break;
    }
    return digits === '' ? undefined : { value: Number(`${whole}.${digits}`), from, to, figures: false };
  }

  /** Adds `and a half`, `and three eighths`, or reads the number as the count of a fraction. */
  #withFraction(read: NumberRead): NumberRead {
    if (!Number.isInteger(read.value))
      return this.#smallParts(read) ?? (read.value < 1 ? { ...read, to: this.#fractions.ofOne(read.to) } : read);
    const asCount = this.#pieces.word(read.to) === 'a' ? undefined : this.#fractions.part(read.to, read.value);
    if (asCount && read.value > 0) return { ...asCount, from: read.from, figures: read.figures };
    const and = this.#pieces.next(read.to);
    if (this.#pieces.word(and) !== 'and') return read;
    const next = this.#pieces.next(and + 1);
    const article = /^an?$/.test(this.#pieces.word(next))
      ? this.#fractions.part(this.#pieces.next(next + 1), 1)
      : undefined;
    const bare = article ?? this.#fractions.part(next, 1);
    const figures = this.#figures(next);
    const count = this.#pieces.below100(next);
    const counted = count && count.value > 0 ? this.#fractions.part(count.to, count.value) : undefined;
    const extra = bare ?? counted ?? (figures && figures.value < 1 ? figures : undefined);
    if (!extra || extra.value >= 1) return read;
    const mixed = {
      ...read,
      value: read.value + extra.value,
      to: extra.to,
      ...(extra.denominator ? { parts: extra.denominator } : {}),
    };
    const scale = SCALES.get(this.#pieces.word(extra.to));
    return scale
      ? { ...mixed, value: mixed.value * scale, to: extra.to + 1, scale }
      : (this.#smallParts(mixed) ?? mixed);
  }

  /** `three point eight hundredths`, `two and a half tenths`: parts that are counted in parts. */
  #smallParts(read: NumberRead): NumberRead | undefined {
    if (!/^(tenths|hundredths)$/.test(this.#pieces.word(this.#pieces.next(read.to)))) return undefined;
    const part = this.#fractions.part(read.to, read.value);
    return part && { ...part, from: read.from, figures: read.figures };
  }
}
