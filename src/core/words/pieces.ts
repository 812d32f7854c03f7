import { must } from '../time/index.ts';

/** From where to where, s. */
export type Piece = readonly [start: number, end: number];

/** Pauses shorter than this stay within a piece, s: what was said hangs together. */
const JOINED = 0.5;
/** A piece of talk is heard with so much before and after it, where nobody speaks, s. */
const AROUND = 0.2;
/** Joined no further than this, s: some models hear half a minute at most. */
const LONG = 20;
/** No piece is longer, s: where talk was told by loudness it may never pause, and a piece lies in memory. */
const LONGEST = 120;

/**
 * Talk in pieces that can be recognised one by one.
 *
 * @param talk in order, s
 * @param length of the sound, s
 */
export function talkPieces(talk: readonly Piece[], length: number): Piece[] {
  const joined: [number, number][] = [];
  for (const [start, end] of talk) {
    const last = joined.at(-1);
    if (last && start - last[1] < JOINED && end - last[0] <= LONG) last[1] = end;
    else joined.push([start, end]);
  }
  const around = joined.map(([start, end], i): Piece => {
    const [before, after] = [joined[i - 1]?.[1] ?? -AROUND, joined[i + 1]?.[0] ?? length + AROUND];
    return [
      toMs(Math.max(0, start - Math.min(AROUND, Math.max(0, start - before) / 2))),
      toMs(Math.min(length, end + Math.min(AROUND, Math.max(0, after - end) / 2))),
    ];
  });
  return around
    .filter(([start, end]) => end > start)
    .flatMap(([start, end]) => {
      const parts = Math.ceil((end - start) / LONGEST);
      const each = (end - start) / parts;
      return Array.from(
        { length: parts },
        (_, i): Piece => [start + i * each, i + 1 === parts ? end : start + (i + 1) * each],
      );
    });
}

const toMs = (seconds: number) => Math.round(seconds * 1000) / 1000;

/** Pieces that are kept as one result, so that no more than this is lost when a run is stopped, s of talk. */
const TOGETHER = 60;

/** Pieces in groups, in order. */
export function groupPieces(pieces: readonly Piece[]): Piece[][] {
  const groups: Piece[][] = [];
  let talk = 0;
  for (const piece of pieces) {
    const long = piece[1] - piece[0];
    const last = groups.at(-1);
    if (last && talk + long <= TOGETHER) last.push(piece);
    else {
      groups.push([piece]);
      talk = 0;
    }
    talk += long;
  }
  return groups;
}

/** Quiet is looked for in steps of this, s. */
const STEP = 0.1;

/**
 * Where to cut a piece that is too long to be recognised at once: at its quietest moments.
 *
 * @param rate samples a second
 * @returns from which sample to which, in order
 */
export function cutAtQuiet(samples: Float32Array, rate: number): [from: number, until: number][] {
  const [longest, step] = [Math.round(LONG * 1.2 * rate), Math.round(STEP * rate)];
  const cuts: [number, number][] = [];
  let from = 0;
  while (samples.length - from > longest) {
    let quietest = Number.POSITIVE_INFINITY;
    let cut = from + longest;
    for (let at = from + Math.round(longest / 2); at + step <= from + longest; at += step) {
      let power = 0;
      for (let i = at; i < at + step; i++) power += must(samples[i], 'a sample') ** 2;
      if (power < quietest) [quietest, cut] = [power, at + step / 2];
    }
    cuts.push([from, Math.round(cut)]);
    from = Math.round(cut);
  }
  return [...cuts, [from, samples.length]];
}
