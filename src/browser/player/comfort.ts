import { choose, isSetting, settings } from './settings.ts';

/** Larger than what the browser is set to, on top of it. */
function showTextSize(): void {
  document.documentElement.classList.toggle('larger-text', settings.largerText);
}

/** The switches in the key help. */
export class ComfortSwitches extends HTMLElement {
  connectedCallback(): void {
    showTextSize();
    for (const box of this.querySelectorAll<HTMLInputElement>('input[type=checkbox]')) {
      const { setting } = box.dataset;
      if (!isSetting(setting)) continue;
      box.checked = settings[setting];
      box.addEventListener('change', () => {
        choose(setting, box.checked);
        showTextSize();
      });
    }
  }
}

customElements.define('comfort-switches', ComfortSwitches);
