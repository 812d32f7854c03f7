import type { Place, Point } from '../model/index.ts';

/** One line of a text, without its line end. */
export interface Line {
  readonly text: string;
  /** Counted from 1. */
  readonly number: number;
  /** Of its first character, UTF-16 units from 0. */
  readonly offset: number;
}

/** Goes through the lines of a text one at a time, ended by CRLF, LF or CR; nothing is kept of those that passed. */
export class Lines {
  readonly #text: string;
  #offset: number;
  #number = 1;
  #peeked: Line | undefined;

  constructor(text: string) {
    this.#text = text;
    this.#offset = text.startsWith('\uFEFF') ? 1 : 0;
  }

  /** The next line, which stays next; nothing at the end. An empty last line is no line. */
  peek(): Line | undefined {
    this.#peeked ??= this.#read();
    return this.#peeked;
  }

  next(): Line | undefined {
    const line = this.peek();
    this.#peeked = undefined;
    return line;
  }

  #read(): Line | undefined {
    const text = this.#text;
    const start = this.#offset;
    if (start >= text.length) return undefined;
    let end = start;
    while (end < text.length && text.charCodeAt(end) !== 10 && text.charCodeAt(end) !== 13) end++;
    this.#offset = end + (text.startsWith('\r\n', end) ? 2 : 1);
    return { text: text.slice(start, end), number: this.#number++, offset: start };
  }
}

/** From the start of one line to the end of another. */
export function placeOfLines(file: string, first: Line, last: Line = first): Place {
  return { file, start: pointIn(first, 0), end: pointIn(last, last.text.length) };
}

/** A part of one line, by its columns counted from 0. */
export function placeInLine(file: string, line: Line, from: number, to: number): Place {
  return { file, start: pointIn(line, from), end: pointIn(line, to) };
}

function pointIn({ number, offset }: Line, column: number): Point {
  return { line: number, column: column + 1, offset: offset + column };
}
