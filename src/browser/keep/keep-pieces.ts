import { type KeepList, type KeptFile, type Piece, piecesOf } from '../../core/keep/index.ts';
import { t } from '../page/words.ts';
import type { KeptStore } from './kept-store.ts';

/** Why keeping stopped, in words, and what helps. */
export class KeepingStopped extends Error {
  readonly help: string;
  /** The site is another one since the list was fetched: with a new list it goes on. */
  readonly changed: boolean;

  constructor(problem: string, help: string, changed = false) {
    super(problem);
    this.help = help;
    this.changed = changed;
  }
}

export interface Keeping {
  readonly list: KeepList;
  readonly store: KeptStore;
  /** Address of the site's base. */
  readonly site: string;
  readonly signal: AbortSignal;
  /** Told of bytes that are there, also those of earlier. */
  readonly progress: (bytes: number) => void;
  /** How the site is asked; the browser's own way when left out. */
  readonly ask?: Ask;
}

type Ask = (address: URL, how: RequestInit) => Promise<Response>;

/**
 * Fetches what a copy still lacks, piece by piece, each held against its sum before it is kept. What is kept already,
 * by an earlier try or another lesson, is not fetched again.
 *
 * @throws KeepingStopped in words; what has arrived stays
 */
export async function keepPieces({ list, store, site, signal, progress, ask = fetch }: Keeping): Promise<void> {
  let there = 0;
  const done = new Set<string>();
  for (const file of list.files) {
    let start = 0;
    for (const piece of file.pieces) {
      if (!done.has(piece.sha256)) {
        if (!(await store.hasPiece(piece)))
          await putInWords(store, piece, await fetchPiece(ask, new URL(file.path, site), file, start, piece, signal));
        done.add(piece.sha256);
        there += piece.bytes;
        progress(there);
      }
      start += piece.bytes;
    }
  }
}

/** Pieces of a list that are not there yet. */
export async function missingPieces(list: KeepList, store: KeptStore): Promise<readonly Piece[]> {
  const missing: Piece[] = [];
  for (const piece of piecesOf([list]).values()) if (!(await store.hasPiece(piece))) missing.push(piece);
  return missing;
}

async function fetchPiece(
  ask: Ask,
  address: URL,
  { pieces }: KeptFile,
  start: number,
  piece: Piece,
  signal: AbortSignal,
): Promise<ArrayBuffer> {
  const whole = pieces.length === 1;
  const bytes = await answerOf(ask, address, whole ? undefined : [start, start + piece.bytes - 1], signal);
  const sum = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))]
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('');
  if (sum !== piece.sha256)
    throw new KeepingStopped(
      t('the site has changed meanwhile'),
      t('keep it again: what has not changed is there'),
      true,
    );
  return bytes;
}

async function answerOf(
  ask: Ask,
  address: URL,
  range: readonly [number, number] | undefined,
  signal: AbortSignal,
): Promise<ArrayBuffer> {
  let answer: Response;
  try {
    answer = await ask(address, {
      signal,
      cache: 'no-store',
      ...(range && { headers: { range: `bytes=${range[0]}-${range[1]}` } }),
    });
    if (range && answer.status === 200)
      throw new KeepingStopped(
        t('this server gives out films only whole'),
        t('tell the shop: its server lacks byte ranges'),
      );
    if (answer.status === 404 || answer.status === 416)
      throw new KeepingStopped(
        t('the site has changed meanwhile'),
        t('keep it again: what has not changed is there'),
        true,
      );
    if (!answer.ok)
      throw new KeepingStopped(
        t('the site answers with {status}', { status: answer.status }),
        t('try again later: what has arrived stays'),
      );
    return await answer.arrayBuffer();
  } catch (error) {
    if (error instanceof KeepingStopped || signal.aborted) throw error;
    throw new KeepingStopped(t('the connection was lost'), t('go on when there is one: what has arrived stays'));
  }
}

async function putInWords(store: KeptStore, piece: Piece, bytes: ArrayBuffer): Promise<void> {
  try {
    await store.putPiece(piece, bytes);
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    throw new KeepingStopped(
      t('this device has no room left for it'),
      t('remove another kept lesson, or free some space, then go on: what has arrived stays'),
    );
  }
}
