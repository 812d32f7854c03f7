import { chosenMachine } from '../my-machine/chosen.ts';
import { Scope } from '../page/scope.ts';
import { today } from '../page/today.ts';
import { machineInWords } from '../record/machine-words.ts';
import { sheetMiddle } from './sheet-middle.ts';

/**
 * Prints a lesson, or one of its chapters or steps alone; each sheet says on which day and for which machine it was
 * printed. The rest of its foot is a style of the page itself.
 */
export class LessonPrint extends HTMLElement {
  #scope = new Scope();
  readonly #sheet = new CSSStyleSheet();

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#scope.onEnd(() => this.#takeFootAway());
    // Not before: a new sheet, though it be for paper alone, lays the whole page out again.
    this.#scope.listen(window, 'beforeprint', () => this.#writeFoot());
    this.#scope.listen(window, 'afterprint', () => {
      this.#takeFootAway();
      this.#showAll();
    });
    this.#scope.listen(document, 'click', ({ target }) => {
      const button = target instanceof Element ? target.closest<HTMLElement>('[data-print]') : null;
      if (!button) return;
      this.#only(document.getElementById(button.dataset.print ?? ''));
      print();
    });
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  #writeFoot(): void {
    const title = this.dataset.machine ?? '';
    const chosen = chosenMachine();
    const own = chosen?.machine === this.dataset.machineId ? chosen : undefined;
    const machine = own?.year === undefined ? `${title}, all years` : machineInWords(title, own);
    this.#sheet.replaceSync(`@page { @bottom-center { content: ${sheetMiddle(today(), machine)} } }`);
    this.#takeFootAway();
    document.adoptedStyleSheets.push(this.#sheet);
  }

  #takeFootAway(): void {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== this.#sheet);
  }

  /** @param part what alone is printed; all of the lesson when there is none */
  #only(part: HTMLElement | null): void {
    this.#showAll();
    if (!part) return;
    document.documentElement.classList.add('part-on-paper');
    for (const each of document.querySelectorAll('.chapter, .step'))
      if (!each.contains(part) && !part.contains(each)) each.classList.add('not-on-paper');
    for (const words of part.matches('.step')
      ? (part.parentElement?.querySelectorAll(':scope > :not(h2, .step)') ?? [])
      : [])
      words.classList.add('not-on-paper');
  }

  #showAll(): void {
    document.documentElement.classList.remove('part-on-paper');
    for (const each of document.querySelectorAll('.not-on-paper')) each.classList.remove('not-on-paper');
  }
}

customElements.define('lesson-print', LessonPrint);
