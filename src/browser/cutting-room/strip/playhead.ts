import { lineOf, type Scale } from '../../../core/edit/index.ts';
import { columnsOf } from './columns.ts';

/**
 * The playhead over the strip: elements of their own that are only shifted, so that a frame of playing costs no
 * drawing at all.
 */
export class PlayheadMark {
  readonly #line: HTMLElement;
  readonly #label: HTMLElement;
  readonly #whole: HTMLElement;
  #text = '';

  constructor(holder: HTMLElement) {
    this.#line = part(holder, 'playhead');
    this.#label = part(this.#line, 'time');
    this.#whole = part(holder, 'whereabouts');
  }

  /** Lies across these columns from now on. */
  fit(width: number, thumbs: boolean, spoken: boolean): void {
    const { ruler, sound, words, whole } = columnsOf(width, thumbs, spoken);
    const edge = words.w > 0 ? words : sound;
    this.#line.style.left = `${ruler.x}px`;
    this.#line.style.width = `${edge.x + edge.w - ruler.x + 4}px`;
    this.#whole.style.width = `${whole.w}px`;
  }

  put(scale: Scale, at: number, length: number, height: number, text: string): void {
    const y = lineOf(scale, at);
    const seen = y >= -12 && y <= height + 12;
    // The label stays whole at the ends.
    const shift = Math.min(Math.max(0, 10 - y), 10) - Math.min(Math.max(0, y + 10 - height), 10);
    this.#line.style.transform = seen ? `translateY(${y - 1}px)` : 'translateY(-99px)';
    this.#label.style.transform = `translateY(${shift}px)`;
    this.#whole.style.transform = `translateY(${(at / Math.max(1, length)) * height - 1}px)`;
    if (text === this.#text) return;
    this.#text = text;
    this.#label.textContent = text;
  }
}

function part(holder: HTMLElement, name: string): HTMLElement {
  const element = document.createElement('div');
  element.className = name;
  holder.append(element);
  return element;
}
