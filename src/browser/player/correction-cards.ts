import type { LessonData } from './lesson-data.ts';

/** Shows the cards of corrections over the picture, each from its moment until its step ends. */
export class CorrectionCards {
  readonly #over: HTMLElement | null;
  readonly #cards: ReadonlyMap<string, HTMLElement>;
  readonly #spans: NonNullable<LessonData['corrections']>;

  constructor(player: HTMLElement, { corrections = [] }: LessonData) {
    this.#over = player.querySelector<HTMLElement>('.slips');
    const cards = [...player.querySelectorAll<HTMLElement>('[data-correction]')];
    this.#cards = new Map(cards.map((card) => [card.dataset.correction ?? '', card]));
    this.#spans = corrections;
  }

  /** Puts the cards into the player itself, so that they are there in full screen too. */
  moveInto(element: HTMLElement): void {
    if (this.#over) element.append(this.#over);
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
