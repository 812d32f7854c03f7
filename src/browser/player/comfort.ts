import { choose, isSetting, settings } from './settings.ts';

/** The switches in the key help. */
export class ComfortSwitches extends HTMLElement {
  connectedCallback(): void {
    for (const box of this.querySelectorAll<HTMLInputElement>('input[type=checkbox]')) {
      const { setting } = box.dataset;
      if (!isSetting(setting)) continue;
      box.checked = settings[setting];
      box.addEventListener('change', () => choose(setting, box.checked));
    }
  }
}

customElements.define('comfort-switches', ComfortSwitches);
