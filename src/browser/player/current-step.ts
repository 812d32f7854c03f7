import { frameSeconds, type LessonData, partAt } from './lesson-data.ts';
import { settings } from './settings.ts';

/** After the viewer has scrolled, the page leaves the place alone for so long, milliseconds. */
const LEAVE_ALONE = 8000;

/** Shows which step is on screen: in the list, and as the card beside the video. */
export class CurrentStep {
  readonly #player: HTMLElement;
  readonly #data: LessonData;
  #shown: string | undefined;
  #scrolledAt = -LEAVE_ALONE;

  constructor(player: HTMLElement, data: LessonData) {
    this.#player = player;
    this.#data = data;
    for (const type of ['wheel', 'touchmove'])
      document.addEventListener(
        type,
        () => {
          this.#scrolledAt = performance.now();
        },
        { passive: true },
      );
  }

  /** @param seconds programme time */
  show(seconds: number, playing: boolean): void {
    const step = partAt(this.#data.steps, seconds, frameSeconds(this.#data))?.id;
    if (step === this.#shown) return;
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
    if (playing && step !== undefined) this.#bringIntoView(step);
  }

  #bringIntoView(id: string): void {
    if (!settings.follow || performance.now() - this.#scrolledAt < LEAVE_ALONE) return;
    const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
    document.getElementById(id)?.scrollIntoView({ block: 'start', behavior: calm ? 'instant' : 'smooth' });
  }
}
