import { Scope } from '../page/scope.ts';
import { plural, t } from '../page/words.ts';

/** Narrows a machine's spec table to the rows that hold some words, or that can hurt somebody. */
export class SpecFilter extends HTMLElement {
  #scope = new Scope();

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#scope.listen(this, 'input', () => this.#narrow());
    this.#scope.listen(this, 'submit', (event) => event.preventDefault());
    // A browser may bring back what stood in the field.
    this.#narrow();
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  #narrow(): void {
    const words = (this.querySelector<HTMLInputElement>('input[type=search]')?.value ?? '').toLowerCase().split(/\s+/);
    const critical = this.querySelector<HTMLInputElement>('input[type=checkbox]')?.checked ?? false;
    const narrowed = critical || words.some((word) => word !== '');
    let found = 0;
    for (const section of document.querySelectorAll<HTMLElement>('[data-kind]')) {
      let here = 0;
      let shown = true;
      for (const row of section.querySelectorAll<HTMLElement>('tbody tr')) {
        // What a row said before goes with it.
        if (!row.matches('.former')) {
          const text = row.textContent.toLowerCase();
          shown = words.every((word) => text.includes(word)) && (!critical || row.dataset.critical !== undefined);
          if (shown && !row.hidden) here++;
        }
        row.classList.toggle('filtered-out', !shown);
      }
      section.classList.toggle('filtered-out', narrowed && here === 0);
      const link = document.querySelector(`a[href="#kind-${section.dataset.kind}"]`);
      link?.classList.toggle('filtered-out', narrowed && here === 0);
      found += here;
    }
    const status = this.querySelector('[role=status]');
    if (status)
      status.textContent = !narrowed
        ? ''
        : found === 0
          ? t('No value fits.')
          : plural(found, '{n} value', '{n} values');
  }
}

customElements.define('spec-filter', SpecFilter);
