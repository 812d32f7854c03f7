import type { Scope } from '../page/scope.ts';

/** `screen` is the picture as large as it goes; `bench` is large words and large keys for work with dirty hands. */
export type FullViewKind = 'screen' | 'bench';

/**
 * Lets the stage fill the screen: picture, keys, and the card with values and warnings, so that nothing is missing
 * there. Where a browser cannot do that with an element, the stage fills the window.
 */
export class FullView {
  readonly #stage: HTMLElement;
  readonly #cards: HTMLElement | null;
  readonly #changed: (kind: FullViewKind | undefined) => void;
  /** Where the cards stand in the page. */
  readonly #home = document.createComment('cards');
  #kind: FullViewKind | undefined;

  constructor(
    stage: HTMLElement,
    cards: HTMLElement | null,
    scope: Scope,
    changed: (kind: FullViewKind | undefined) => void,
  ) {
    this.#stage = stage;
    this.#cards = cards;
    this.#changed = changed;
    scope.listen(document, 'fullscreenchange', () => {
      if (this.#kind && !document.fullscreenElement) this.#leave();
    });
    scope.listen(document, 'keydown', (event) => {
      if (this.#kind && event instanceof KeyboardEvent && event.key === 'Escape' && !event.defaultPrevented)
        this.#leave();
    });
    scope.onEnd(() => this.#leave());
  }

  get kind(): FullViewKind | undefined {
    return this.#kind;
  }

  toggle(kind: FullViewKind): void {
    const was = this.#kind;
    if (was === kind) {
      this.#leave();
      return;
    }
    this.#kind = kind;
    this.#stage.classList.add('filling');
    this.#stage.classList.toggle('bench-view', kind === 'bench');
    document.documentElement.classList.add('stage-fills');
    if (this.#cards && !was) {
      this.#cards.before(this.#home);
      this.#stage.append(this.#cards);
    }
    // Refused in a frame that may not, absent on some phones: then the stage fills the window.
    if (!document.fullscreenElement) this.#stage.requestFullscreen?.().catch(() => {});
    this.#changed(kind);
  }

  #leave(): void {
    if (!this.#kind) return;
    this.#kind = undefined;
    this.#stage.classList.remove('filling', 'bench-view');
    document.documentElement.classList.remove('stage-fills');
    if (this.#cards) this.#home.replaceWith(this.#cards);
    if (document.fullscreenElement === this.#stage) document.exitFullscreen().catch(() => {});
    this.#changed(undefined);
  }
}
