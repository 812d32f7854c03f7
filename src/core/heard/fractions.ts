import type { NumberPieces } from './number-pieces.ts';
import type { NumberRead } from './number-read.ts';
import { PARTS } from './number-words.ts';

const ALONG = /^(under|above|below|proud|deep|thick|wide|off)$/;

/** Reads fractions in words: `quarter`, `thirty-second of an`. */
export class Fractions {
  readonly #pieces: NumberPieces;

  constructor(pieces: NumberPieces) {
    this.#pieces = pieces;
  }

  /** A fraction in words whose count is known, such as `quarter`, `eighths of an`; `thirty-second of an`. */
  part(from: number, count: number): NumberRead | undefined {
    const at = this.#pieces.next(from);
    const named = PARTS.get(this.#pieces.word(at));
    const composed = this.composedPart(at);
    const [denominator, to] = named ? [named, at + 1] : composed ? [composed.value, composed.to] : [0, 0];
    if (denominator === 0 || count >= denominator * 2) return undefined;
    return { value: count / denominator, from, to: this.#ofA(to), figures: false, denominator };
  }

  /** 32 for `thirty-second`, 64 for `sixty-fourth`. */
  #composed(at: number): number {
    const ten = this.#pieces.word(at);
    const word = this.#pieces.word(this.#pieces.next(at + 1));
    return ten === 'thirty' && /^seconds?$/.test(word) ? 32 : ten === 'sixty' && /^fourths?$/.test(word) ? 64 : 0;
  }

  /** `five thirty-seconds`, `a thirty-second at most`: with its hyphen, and no noun to follow a singular. */
  #countsParts(at: number, last: number): boolean {
    const before = this.#pieces.word(this.#pieces.mark(at - 1) === '-' ? at - 2 : at - 1);
    // Without its hyphen, only along something: `one thirty second under the cutting circle`.
    if (last === at + 1) return /^(an?|one|another)$/.test(before) && ALONG.test(this.#pieces.word(last + 1));
    if (/s$/.test(this.#pieces.word(last))) return true;
    return (
      /^(an?|one|another)$/.test(before) &&
      /^(|at|of|per|or|and|deep|thick|wide|high|proud|shy|short|behind|ahead|past|clear|beyond|back|forward|out|lower|higher|thicker|thinner|wider|narrower|longer|shorter|between|more|less|max|tops|on|for|in|with|if|when|from|off|above|below|under|over|to|too|either|is|a|each|every)$/.test(
        this.#pieces.word(last + 1),
      )
    );
  }

  /** They are fractions only before `of a`, `of an` or an inch, or where they are counted: else a time, a rank. */
  composedPart(at: number): { value: number; to: number } | undefined {
    const value = this.#composed(at);
    const last = this.#pieces.next(at + 1);
    const after = this.#pieces.word(last + 1);
    const inch = after === 'inch' || (after === 'of' && /^an?$/.test(this.#pieces.word(last + 2)));
    return value > 0 && (inch || this.#countsParts(at, last)) ? { value, to: last + 1 } : undefined;
  }

  /** `point eight of a litre`. */
  ofOne(to: number): number {
    return this.#pieces.word(to) === 'of' && /^(an?|one)$/.test(this.#pieces.word(to + 1)) ? to + 2 : to;
  }

  #ofA(to: number): number {
    const next = this.#pieces.next(to);
    // `a sixty-fourth a pass`: of each.
    const each = /^(pass|side|time|piece|tooth)$/.test(this.#pieces.word(next + 1));
    if (/^an?$/.test(this.#pieces.word(next))) return each ? to : next + 1;
    const past = this.ofOne(to);
    return past === to ? next : past;
  }
}
