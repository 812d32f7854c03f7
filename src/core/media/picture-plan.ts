import type { PictureRun } from './angle-plan.ts';
import type { KeptFrames } from './kept-frames.ts';

/** A camera file on the recording's frame grid, and what of it may be copied. */
export interface PictureSource {
  /** First frame of the recording that it shows. */
  readonly first: number;
  readonly frames: number;
  /**
   * Frames of the recording, in order, where a group of pictures begins that needs nothing before it, with the end of
   * the file as the last; or why nothing may be copied.
   */
  readonly copy: readonly number[] | { readonly refused: string };
  /** Id of the angle it belongs to; left out for the recording's own camera. */
  readonly angle?: string;
}

/** One piece of the programme's picture, in whole frames; `burnt` is the place in `changed` of what is drawn over it. */
export type PictureUnit = {
  /** Frames of the recording. */
  readonly first: number;
  readonly count: number;
  /** Frames of the programme. */
  readonly at: number;
} & (
  | { readonly kind: 'copy'; readonly source: number }
  | { readonly kind: 'encode'; readonly source: number; readonly why: string; readonly burnt?: number }
  /** No camera file holds these frames: black, so that what follows stays in its place. */
  | { readonly kind: 'blank'; readonly burnt?: number }
);

/** A copy shorter than this is not worth its two joins, frames. */
const SHORTEST_COPY = 12;

export interface PictureOptions {
  /** Copies end at the first group of pictures after each multiple of it, frames, counted in the recording. */
  readonly piece: number;
  /** Longest piece encoded in one go, frames; pieces end at multiples of it, counted in the recording. */
  readonly chunk: number;
  /** Runs of the programme that have to be encoded, because something is drawn over them, frames; in order, apart. */
  readonly changed?: readonly { readonly at: number; readonly count: number }[];
}

/**
 * Cuts the programme's picture into pieces that are copied and pieces that are encoded.
 *
 *     groups      |......|......|......|......|......|
 *     kept            |------------------------|
 *     units           |e-|--------copy---------|-e|
 *
 * A copied piece begins and ends where a group of pictures that needs nothing before it begins; the frames left over at
 * both ends are encoded. What cannot be copied is encoded in pieces that can be shared out; their borders lie at fixed
 * frames of the recording, so that moving a cut changes only the pieces it touches.
 */
export function planPicture(
  kept: readonly PictureRun[],
  sources: readonly PictureSource[],
  options: PictureOptions,
): PictureUnit[] {
  return kept.flatMap((run) =>
    alongSources(run, sources).flatMap(({ source, ...part }) =>
      alongChanges(part, options.changed ?? []).flatMap((piece): PictureUnit[] =>
        source === undefined ? [{ kind: 'blank', ...piece }] : planPiece(piece, source, sources, options),
      ),
    ),
  );
}

interface Part extends KeptFrames {
  readonly source: number | undefined;
}

/** A kept run, split where one camera file ends and the next begins; what its angle lacks the own camera shows. */
function alongSources(run: PictureRun, sources: readonly PictureSource[]): Part[] {
  const parts: Part[] = [];
  const end = run.first + run.count;
  const starts = sources.flatMap(({ angle, first }) => (angle === undefined || angle === run.angle ? [first] : []));
  for (let at = run.first; at < end; ) {
    const shows = (angle: string | undefined) =>
      sources.findIndex((s) => s.angle === angle && s.first <= at && at < s.first + s.frames);
    const wanted = shows(run.angle);
    const source = wanted === -1 ? shows(undefined) : wanted;
    const found = sources[source];
    const next = Math.min(...starts.filter((first) => first > at), Number.POSITIVE_INFINITY);
    const until = Math.min(end, next, found ? found.first + found.frames : Number.POSITIVE_INFINITY);
    parts.push({
      first: at,
      count: until - at,
      at: run.at + at - run.first,
      source: found ? source : undefined,
    });
    at = until;
  }
  return parts;
}

interface Piece extends KeptFrames {
  readonly burnt?: number;
}

function alongChanges(part: KeptFrames, changed: NonNullable<PictureOptions['changed']>): Piece[] {
  const end = part.at + part.count;
  const pieces: Piece[] = [];
  const push = (at: number, until: number, burnt?: number) => {
    const piece = { first: part.first + at - part.at, count: until - at, at };
    if (until > at) pieces.push(burnt === undefined ? piece : { ...piece, burnt });
  };
  let from = part.at;
  for (const [index, change] of changed.entries()) {
    const start = Math.max(from, change.at);
    const until = Math.min(end, change.at + change.count);
    if (start >= until) continue;
    push(from, start);
    push(start, until, index);
    from = until;
  }
  push(from, end);
  return pieces;
}

function planPiece(
  piece: Piece,
  source: number,
  sources: readonly PictureSource[],
  { chunk, piece: length }: PictureOptions,
): PictureUnit[] {
  const end = piece.first + piece.count;
  const encode = (first: number, until: number, why: string): PictureUnit[] => {
    const units: PictureUnit[] = [];
    for (let at = first; at < until; ) {
      const border = Math.min(until, (Math.floor(at / chunk) + 1) * chunk);
      units.push({
        ...{ kind: 'encode', source, first: at, count: border - at, at: piece.at + at - piece.first, why },
        ...(piece.burnt !== undefined && { burnt: piece.burnt }),
      });
      at = border;
    }
    return units;
  };
  const copy = sources[source]?.copy ?? [];
  if (piece.burnt !== undefined) return encode(piece.first, end, 'a card is burnt in');
  if (!isPoints(copy)) return encode(piece.first, end, copy.refused);
  const from = copy.find((point) => point >= piece.first);
  const to = copy.findLast((point) => point <= end);
  if (from === undefined || to === undefined || to - from < SHORTEST_COPY)
    return encode(piece.first, end, 'too short to hold a whole group of pictures');
  const copies: PictureUnit[] = [];
  for (let at = from; at < to; ) {
    const goal = (Math.floor(at / length) + 1) * length;
    const border = copy.find((point) => point >= goal && point < to) ?? to;
    copies.push({ kind: 'copy', source, first: at, count: border - at, at: piece.at + at - piece.first });
    at = border;
  }
  return [
    ...encode(piece.first, from, 'the cut lies inside a group of pictures'),
    ...copies,
    ...encode(to, end, 'the cut lies inside a group of pictures'),
  ];
}

function isPoints(copy: PictureSource['copy']): copy is readonly number[] {
  return Array.isArray(copy);
}

/**
 * Units to be put into one file each: they follow each other in the recording, and the file ends where a unit begins
 * past the next multiple of a length. After a moved cut most files are the same.
 *
 * @param length frames of the recording
 */
export function piecesOf(units: readonly PictureUnit[], length: number): PictureUnit[][] {
  const pieces: PictureUnit[][] = [];
  for (const unit of units) {
    const piece = pieces.at(-1);
    const before = piece?.at(-1);
    const follows = before && before.first + before.count === unit.first;
    const same = Math.floor((piece?.[0]?.first ?? 0) / length) === Math.floor(unit.first / length);
    if (piece && follows && same) piece.push(unit);
    else pieces.push([unit]);
  }
  return pieces;
}

/** How much of the programme is copied and how much encoded, frames. */
export function sharesOf(units: readonly PictureUnit[]): { copied: number; encoded: number; blank: number } {
  const sum = (kind: PictureUnit['kind']) => units.reduce((n, unit) => n + (unit.kind === kind ? unit.count : 0), 0);
  return { copied: sum('copy'), encoded: sum('encode'), blank: sum('blank') };
}
