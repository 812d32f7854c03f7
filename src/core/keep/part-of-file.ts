import type { KeptFile, Piece } from './keep-list.ts';
import { bytesOf } from './keep-list.ts';

/** Some bytes of a piece. */
export interface PartOfPiece {
  readonly piece: Piece;
  /** First byte and the one after the last. */
  readonly from: number;
  readonly to: number;
}

/** The pieces that bytes `first` to `last` of a file lie in (both are among them, as in RFC 9110, 14.1.2). */
export function partOfFile({ pieces }: KeptFile, first: number, last: number): readonly PartOfPiece[] {
  const parts: PartOfPiece[] = [];
  let start = 0;
  for (const piece of pieces) {
    const [from, to] = [Math.max(first, start) - start, Math.min(last + 1, start + piece.bytes) - start];
    if (from < to) parts.push({ piece, from, to });
    start += piece.bytes;
  }
  return parts;
}

/**
 * The bytes that a request asks for by one range (RFC 9110, 14.1.2 and 14.2). Own code on purpose: the parser that the
 * server's library brings takes the RFC's own `bytes=-n` of more than there is for one that cannot be answered.
 *
 * @returns `whole` without a range, with several, or with one that is not understood, which may be answered so;
 *   `beyond` where it begins after the end
 */
export function rangeAsked(
  range: string | null,
  file: KeptFile,
): { readonly first: number; readonly last: number } | 'whole' | 'beyond' {
  const size = bytesOf(file.pieces);
  const [, from = '', to = ''] = /^bytes=(\d*)-(\d*)$/.exec(range?.trim() ?? '') ?? [];
  if (from === '' && to === '') return 'whole';
  if (from === '') {
    const count = Math.min(Number(to), size);
    return count === 0 ? 'beyond' : { first: size - count, last: size - 1 };
  }
  const first = Number(from);
  if (to !== '' && Number(to) < first) return 'whole';
  return first >= size ? 'beyond' : { first, last: to === '' ? size - 1 : Math.min(Number(to), size - 1) };
}
