import type { LessonData } from './lesson-data.ts';

/** Shows the cards of corrections over the picture, each from its moment until its step ends. */
export class CorrectionCards {
  readonly #cards: ReadonlyMap<string, HTMLElement>;
  readonly #spans: NonNullable<LessonData['corrections']>;

  constructor(player: HTMLElement, { corrections = [] }: LessonData) {
    const cards = [...player.querySelectorAll<HTMLElement>('[data-correction]')];
    this.#cards = new Map(cards.map((card) => [card.dataset.correction ?? '', card]));
    this.#spans = corrections;
  }

  /** @param seconds programme time */
  show(seconds: number): void {
    for (const { id, start, end } of this.#spans) {
      const card = this.#cards.get(id);
      // Half a millisecond: a player's own rounding must not put the moment before the card begins.
      if (card) card.hidden = seconds + 0.0005 < start || seconds >= end;
    }
  }
}
