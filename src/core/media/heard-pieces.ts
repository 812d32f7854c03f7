import { VOICE_RATE, VOICE_WINDOW } from './voice-args.ts';

/** Part of a sound that is listened to by itself, so that several are at once; and what was heard in it. */
export interface HeardPiece {
  /** Its first sample in the whole sound. */
  readonly from: number;
  /** How many samples it has. */
  readonly length: number;
  /** Where somebody speaks, samples from its first. */
  readonly speech: readonly (readonly [start: number, end: number])[];
}

/**
 * Each piece hears the last samples of the one before again, until the network has come to much the same mind: what it
 * heard minutes ago moves the end of every fourth stretch by a window or two. Whole windows, or it would hear other ones.
 */
export const PIECE_OVERLAP = Math.round((12 * VOICE_RATE) / VOICE_WINDOW) * VOICE_WINDOW;
/** Two beginnings so near to each other are one, samples. */
const ALIKE = 2 * VOICE_WINDOW;
/**
 * Samples that a piece hears besides; so many are soon heard, and are no burden to memory. The same on every machine:
 * results do not depend on how many processors there are.
 */
export const PIECE_LENGTH = 20 * PIECE_OVERLAP;

/**
 * What is spoken in the whole sound.
 *
 *     piece 1     ──▬▬▬──▬▬▬▬▬──▬▬▬┤
 *     piece 2               ├▬──▬▬▬▬▬▬──▬▬──       both hear the last stretch of piece 1 begin: from there on, piece 2
 *     whole       ──▬▬▬──▬▬▬▬▬──▬▬▬▬▬▬──▬▬──
 *
 * @param pieces in order
 * @returns samples of the whole sound
 */
export function joinHeard(pieces: readonly HeardPiece[]): [start: number, end: number][] {
  let whole: [number, number][] = [];
  let seam = 0;
  for (const { from, length, speech } of pieces) {
    const own = speech.map(([start, end]): [number, number] => [from + start, from + end]);
    const meetings = whole.map(([start]) =>
      start < from ? -1 : own.findIndex(([other]) => Math.abs(other - start) <= ALIKE),
    );
    const last = meetings.findLastIndex((meeting) => meeting >= 0);
    if (last >= 0) whole = [...whole.slice(0, last), ...own.slice(meetings[last])];
    else {
      // Nothing is heard alike where both listen, as in a speech without a rest: each is believed on its side.
      const before = seam;
      whole.push(
        ...own.flatMap(([start, end]): [number, number][] => (end > before ? [[Math.max(start, before), end]] : [])),
      );
    }
    seam = from + length;
  }
  return whole;
}
