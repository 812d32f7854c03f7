/** A replacement of the text from one offset up to another; an insertion where they are equal. */
export interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/**
 * The source with every splice made; everything outside of them is the same, character for character.
 *
 * @param splices in any order; insertions at one offset stay in the order given
 * @throws RangeError when two of them overlap
 */
export function applySplices(source: string, splices: readonly Splice[]): string {
  const inOrder = splices.toSorted((a, b) => a.from - b.from || a.to - b.to);
  let at = 0;
  let made = '';
  for (const { from, to, text } of inOrder) {
    if (from < at) throw new RangeError(`two edits of one stretch of text, at offset ${from}`);
    made += source.slice(at, from) + text;
    at = to;
  }
  return made + source.slice(at);
}

/** The line end a text uses: that of its first line. */
export function lineEnd(source: string): '\n' | '\r\n' {
  const first = source.indexOf('\n');
  return first > 0 && source[first - 1] === '\r' ? '\r\n' : '\n';
}

/** Offset of the first character of the line that an offset lies in. */
export function lineStart(source: string, offset: number): number {
  return source.lastIndexOf('\n', offset - 1) + 1;
}

/** Offset after the line that an offset lies in, its line end included. */
export function lineAfter(source: string, offset: number): number {
  const end = source.indexOf('\n', offset);
  return end === -1 ? source.length : end + 1;
}

/** A byte order mark and the text behind it; parsers count offsets without it. */
export function withoutMark(source: string): readonly [mark: string, text: string] {
  return source.startsWith('\uFEFF') ? ['\uFEFF', source.slice(1)] : ['', source];
}
