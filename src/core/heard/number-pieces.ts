import type { NumberRead } from './number-read.ts';
import { ONES, TENS } from './number-words.ts';
import type { Token } from './tokens.ts';

/** Nobody spells more of a value. */
const MOST_DIGITS = 6;

/** Which of two halves. */
const HALVES =
  /^(positive|negative|top|bottom|upper|lower|front|back|rear|left|right|first|second|other|outer|inner|near|far|better|bigger|larger|smaller)$/;

/** The words and marks of a text, as numbers are read from them. */
export class NumberPieces {
  readonly #tokens: readonly Token[];

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
  }

  token(at: number): Token | undefined {
    return this.#tokens[at];
  }

  word(at: number): string {
    const token = this.#tokens[at];
    return token?.type === 'word' ? token.lower : '';
  }

  mark(at: number): string {
    const token = this.#tokens[at];
    return token?.type === 'mark' ? token.text : '';
  }

  touches(at: number): boolean {
    return this.#tokens[at - 1]?.end === this.#tokens[at]?.start;
  }

  /** A hyphen between number words is passed over. */
  next(at: number): number {
    return this.mark(at) === '-' && this.touches(at) && this.touches(at + 1) ? at + 1 : at;
  }

  below100(from: number): { value: number; to: number } | undefined {
    const ten = TENS.get(this.word(from));
    if (ten !== undefined) {
      const next = this.next(from + 1);
      const one = ONES.get(this.word(next));
      return one !== undefined && one > 0 && one < 10
        ? { value: ten + one, to: next + 1 }
        : { value: ten, to: from + 1 };
    }
    const one = ONES.get(this.word(from));
    return one === undefined ? undefined : { value: one, to: from + 1 };
  }

  /** `one point five`, `one comma five`, `two-point-two`. */
  isPoint(at: number): boolean {
    const point = this.next(at);
    if (this.word(point) === 'point') return true;
    return this.word(point) === 'comma' && this.below100(this.next(point + 1)) !== undefined;
  }

  /** `at six thousand and at nine, thousand, with that one`: said of a number before. */
  standsAlone(at: number): boolean {
    const behind = this.#tokens[at + 1];
    return /^[,.]$/.test(this.mark(at - 1)) && (!behind || behind.type === 'mark');
  }

  /** `one-two-zero-zero`, `four-oh`: digit by digit; behind an `oh` or two, as `oh-two-eight`, parts of one. */
  spelled(from: number): NumberRead | undefined {
    let digits = '';
    let to = from;
    const oh = this.word(from) === 'oh';
    while (digits.length < MOST_DIGITS) {
      const at = to === from ? from : this.next(to);
      const digit = ONES.get(this.word(at));
      if (digit === undefined || digit > 9 || (to > from && at === to && !oh)) break;
      digits += String(digit);
      to = at + 1;
    }
    if (this.isPoint(to)) return undefined;
    if (oh) {
      if (digits.length < (this.mark(from + 1) === '-' ? 2 : 3)) return undefined;
      return { value: Number(`0.${digits}`), from, to, figures: false };
    }
    // `two-eight-fifty`, with its hyphens.
    const tens = this.mark(to) === '-' && digits.length === 2 ? TENS.get(this.word(to + 1)) : undefined;
    if (tens !== undefined && this.next(to) > to && !digits.startsWith('0')) {
      const last = this.below100(to + 1);
      if (last) return { value: Number(digits) * 100 + last.value, from, to: last.to, figures: false };
    }
    if (digits.length < 2 || this.mark(to) === '-' || digits.startsWith('0')) return undefined;
    // `one-two` may be a guess, `five-six` too.
    if (digits.length === 2 && !digits.endsWith('0')) return undefined;
    return { value: Number(digits), from, to, figures: false };
  }

  isOh(at: number): boolean {
    return ['oh', 'zero'].includes(this.word(at));
  }

  /** `inch and a quarter from the face`: one, which is not said. */
  oneUnsaid(from: number): NumberRead | undefined {
    const [before, and, article, part] = [-1, 1, 2, 3].map((at) => this.word(from + at));
    const counted = this.below100(from - 1) || this.#tokens[from - 1]?.type === 'number' || this.mark(from - 1) === '-';
    // `a number 8, inch and a half`, `number eight screws, inch and a quarter`: their size.
    if (this.mark(from - 1) === ',' && this.word(from - 3) === 'number') return undefined;
    if (this.mark(from - 1) === ',' && /^(?:screws?|bolts?|nails?|pins?|dowels?)$/.test(this.word(from - 2)))
      return undefined;
    if (and !== 'and' || !/^an?$/.test(article ?? '') || !/^(half|quarter|third|eighth)$/.test(part ?? ''))
      return undefined;
    if (
      counted ||
      /^(a|an|per|the|half|full|whole|point|hundred|thousand|quarter|eighth|of|each|every|another|by)$/.test(
        before ?? '',
      )
    )
      return undefined;
    return { value: 1, from, to: from, figures: false, article: true };
  }

  /** `on the positive half and`, `more than half its life`: one of two halves, or a share. */
  isOneOfTwo(at: number, to: number): boolean {
    const pointed = /^(the|this|that|each|either|other|every|its|their|your|my|in)$/;
    const [before, behind] = [this.word(at - 1), this.word(to)];
    if (to > at + 1) return false;
    if (pointed.test(this.word(at - 2)) && HALVES.test(before)) return true;
    if (/^(its|his|her|their|my|your|the|that|this|full|way|empty|past|done|worn|as|of)$/.test(behind)) return true;
    return (
      (pointed.test(before) || (pointed.test(this.word(at - 2)) && /[a-z]{3}/.test(before))) &&
      /^(|and|but|or|of|is|was|if|when|where|so|has|it)$/.test(behind)
    );
  }
}
