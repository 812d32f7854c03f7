import type { CardCorner } from '../model/index.ts';
import type { PictureCard, PlacedCard } from '../programme/index.ts';
import type { FrameRate } from '../time/index.ts';

/** A run of the programme over which the same cards lie, frames. */
export interface CardRun {
  readonly at: number;
  readonly count: number;
  /** What has to be said against the picture first: corrections, then the words of caution, then steps. */
  readonly cards: readonly PictureCard[];
  /** Where the recording wants them. */
  readonly corner?: CardCorner;
}

const ORDER: readonly PictureCard['kind'][] = ['correction', 'safety', 'step'];

/**
 * Cards as runs of whole frames, so that each run is one drawing: where one comes or goes the next begins.
 *
 *     cards   |-----a-----|
 *                  |-----b-----|
 *     runs    |-a--|--ab--|-b--|
 *
 * @param length of the programme, frames
 */
export function planCards(cards: readonly PlacedCard[], rate: FrameRate, length: number): CardRun[] {
  const corner = cards.find((card) => card.corner)?.corner;
  const placed = cards.map(({ card, at }) => ({
    card,
    from: Math.min(length, Math.round(at.start / rate.ticksPerFrame)),
    until: Math.min(length, Math.round(at.end / rate.ticksPerFrame)),
  }));
  const borders = [...new Set(placed.flatMap(({ from, until }) => [from, until]))].toSorted((a, b) => a - b);
  return borders.flatMap((at, i): CardRun[] => {
    const until = borders[i + 1] ?? at;
    const on = placed
      .filter(({ from, until: end }) => from <= at && at < end)
      .map(({ card }) => card)
      .toSorted((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));
    return on.length > 0 && until > at ? [{ at, count: until - at, cards: on, ...(corner && { corner }) }] : [];
  });
}
