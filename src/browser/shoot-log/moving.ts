import { renderSVG } from 'uqr';
import { codesOf } from './codes.ts';
import { button, element } from './element.ts';
import { takenInWords, tapsInFiles } from './take-in.ts';
import type { Tap } from './taps.ts';

interface Mover {
  waiting(): readonly Tap[];
  takeIn(taps: readonly Tap[]): void;
}

/**
 * For taps whose page the cutting room has left behind at an old address: out as a file or as codes, and in from
 * either. A code is read from a picture, because a page at such an address may not use the camera itself.
 */
export class Moving {
  readonly #root: HTMLElement;
  readonly #mover: Mover;
  readonly #out = element('div', {});
  /** Over everything else: whatever lies over a code keeps it from being read. */
  readonly #shown = element('dialog', { 'aria-label': 'Code' });
  readonly #words = element('p', { 'aria-live': 'polite' });

  constructor(root: HTMLElement, mover: Mover) {
    this.#root = root;
    this.#mover = mover;
    const input = element('input', { id: 'taken', type: 'file', multiple: '', accept: 'image/*,.json' });
    input.addEventListener('change', () => void this.#read([...(input.files ?? [])]));
    root.replaceChildren(
      element('summary', {}, 'Hand taps over'),
      this.#out,
      this.#shown,
      element('h2', {}, 'Take in taps'),
      element(
        'label',
        { for: 'taken' },
        'Pictures of codes from another page or phone, or a file with taps. From this same phone: a screenshot of each code.',
      ),
      input,
      this.#words,
    );
    this.draw(false);
  }

  /** @param pressing true where taps wait and are not going to be sent */
  draw(pressing: boolean): void {
    const count = this.#mover.waiting().length;
    if (pressing && count > 0 && !this.#root.hasAttribute('open')) this.#root.setAttribute('open', '');
    if (this.#out.dataset.count === String(count)) return;
    this.#out.dataset.count = String(count);
    if (this.#shown.open) this.#shown.close();
    if (count === 0) this.#out.replaceChildren(element('p', {}, 'No tap waits on this page.'));
    else
      this.#out.replaceChildren(
        element('p', {}, `${count === 1 ? '1 tap waits' : `${count} taps wait`} on this page.`),
        element(
          'div',
          { class: 'pair' },
          button('Show as codes', {}, () => void this.#show()),
          button('Save as a file', {}, () => this.#save()),
        ),
      );
  }

  #save(): void {
    const address = URL.createObjectURL(
      new Blob([JSON.stringify(this.#mover.waiting())], { type: 'application/json' }),
    );
    element('a', { href: address, download: 'shoot-log-taps.json' }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }

  async #show(at = 0): Promise<void> {
    const codes = await codesOf(this.#mover.waiting());
    const index = (at + codes.length) % Math.max(1, codes.length);
    const code = codes[index];
    if (code === undefined) return;
    const picture = element('div', {
      class: 'code',
      role: 'img',
      'aria-label': `code ${index + 1} of ${codes.length}`,
    });
    picture.innerHTML = renderSVG(code, { border: 4, ecc: 'M' });
    const others =
      codes.length > 1
        ? [
            button('Code before', {}, () => void this.#show(index - 1)),
            button('Next code', {}, () => void this.#show(index + 1)),
          ]
        : [];
    this.#shown.replaceChildren(
      element('p', {}, `Code ${index + 1} of ${codes.length}: take each one in on the new page.`),
      picture,
      element(
        'div',
        { class: 'pair' },
        ...others,
        button('Done', {}, () => this.#shown.close()),
      ),
    );
    if (!this.#shown.open) this.#shown.showModal();
  }

  async #read(files: readonly File[]): Promise<void> {
    this.#words.textContent = 'Reading.';
    try {
      const read = await tapsInFiles(files, async () => {
        // A script of its own: few need it, and it is as large as all the rest.
        const script: typeof import('./pictures.ts') = await import(
          /* @vite-ignore */ `${location.origin}/pictures.js`
        );
        return script.codeInPicture;
      });
      this.#mover.takeIn(read.taps);
      this.#words.textContent = takenInWords(read);
    } catch {
      this.#words.textContent =
        'Pictures are read only while the cutting room answers; a file can be taken in any time.';
    }
  }
}
