import type { Scope } from '../page/scope.ts';
import { frameSeconds, type LessonData, partAt, type TimedPart } from './lesson-data.ts';
import { settings } from './settings.ts';

/** Keys by which a reader scrolls. */
const SCROLL_KEYS = new Set(['PageUp', 'PageDown', 'Home', 'End', 'ArrowUp', 'ArrowDown']);

/**
 * Shows which step is on screen: in the list, and as the card beside the video. The page follows what plays until
 * its reader scrolls away; from then on a button leads back.
 */
export class CurrentStep {
  readonly #player: HTMLElement;
  readonly #data: LessonData;
  readonly #back: HTMLButtonElement | null;
  #shown: string | undefined;
  #away = false;
  #playing = false;

  constructor(player: HTMLElement, data: LessonData, scope: Scope) {
    this.#player = player;
    this.#data = data;
    this.#back = player.querySelector<HTMLButtonElement>('[data-back-to-step]');
    const leave = () => {
      if (this.#playing && this.#shown !== undefined) this.#away = true;
    };
    for (const type of ['wheel', 'touchmove']) scope.listen(document, type, leave, { passive: true });
    scope.listen(document, 'keydown', (event) => {
      if (event instanceof KeyboardEvent && SCROLL_KEYS.has(event.key) && !event.defaultPrevented) leave();
    });
    scope.listen(document, 'scroll', () => this.#offerWayBack(), { passive: true });
    if (this.#back)
      scope.listen(this.#back, 'click', () => {
        this.#away = false;
        if (this.#shown !== undefined) this.#bringIntoView(this.#shown);
      });
  }

  /** The step on screen. */
  get part(): TimedPart | undefined {
    return this.#data.steps.find(({ id }) => id === this.#shown);
  }

  /** A step was chosen: the page follows again. */
  follow(): void {
    this.#away = false;
    this.#offerWayBack();
  }

  /** @param seconds programme time */
  show(seconds: number, playing: boolean): void {
    this.#playing = playing;
    const step = partAt(this.#data.steps, seconds, frameSeconds(this.#data))?.id;
    if (step !== this.#shown) {
      this.#shown = step;
      for (const section of document.querySelectorAll<HTMLElement>('.step')) {
        const current = section.id === step;
        section.classList.toggle('current', current);
        const link = section.querySelector('a.part');
        if (current) link?.setAttribute('aria-current', 'step');
        else link?.removeAttribute('aria-current');
      }
      for (const card of this.#player.querySelectorAll<HTMLElement>('[data-card]'))
        card.hidden = card.dataset.card !== step;
      if (playing && step !== undefined && settings.follow && !this.#away) this.#bringIntoView(step);
    }
    this.#offerWayBack();
  }

  /** The button stands there only while it leads somewhere: playing, and the step out of sight. */
  #offerWayBack(): void {
    if (!this.#back) return;
    const box =
      this.#away && this.#shown !== undefined && document.getElementById(this.#shown)?.getBoundingClientRect();
    const inSight = !box || (box.bottom > 0 && box.top < innerHeight);
    if (inSight && this.#away && !this.#playing) this.#away = false;
    this.#back.hidden = inSight || !this.#playing;
  }

  #bringIntoView(id: string): void {
    const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
    document.getElementById(id)?.scrollIntoView({ block: 'start', behavior: calm ? 'instant' : 'smooth' });
  }
}
