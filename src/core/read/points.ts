import type { Place, Point } from '../model/index.ts';
import { must } from '../time/index.ts';

/** Turns offsets of one text into lines and columns. */
export class Points {
  readonly file: string;
  readonly #starts: number[] = [0];
  readonly #length: number;

  constructor(file: string, text: string) {
    this.file = file;
    this.#length = text.length;
    for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) this.#starts.push(at + 1);
  }

  /** An offset past the end is taken as the end. */
  point(offset: number): Point {
    const at = Math.min(Math.max(offset, 0), this.#length);
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (must(this.#starts[middle], 'the start of a line') <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: at - must(this.#starts[low], 'the start of a line') + 1, offset: at };
  }

  place(start: number, end: number): Place {
    return { file: this.file, start: this.point(start), end: this.point(end) };
  }

  /** The stretch between two lines and columns, both counted from 1. */
  between(startLine: number, startColumn: number, endLine: number, endColumn: number): Place {
    const offset = (line: number, column: number) => (this.#starts[line - 1] ?? this.#length) + column - 1;
    return this.place(offset(startLine, startColumn), offset(endLine, endColumn));
  }
}
