import { hash } from 'node:crypto';
import type { Browser } from 'playwright-core';
import type { CardCorner } from '../../core/model/index.ts';
import type { PictureCard } from '../../core/programme/index.ts';
import { OutsideFailure } from '../failure.ts';
import { launchChromium } from '../programs/index.ts';
import { cardPage, FIT, siteLook } from './card-page.ts';
import { type Task, type Wanted, want } from './pool.ts';

interface DrawingParams {
  readonly page: string;
  /** Fingerprint of the style sheet: other letters and colours are another drawing. */
  readonly look: string;
  readonly width: number;
  readonly height: number;
}

/** Seconds of output a drawing counts as, for the progress display. */
const WORTH = 1;

/**
 * Draws cards as pictures with transparency, by Chromium: it sets any script, right to left too, and breaks lines well.
 * One browser does all the drawings of a run; it is started by the first that is not there yet.
 */
export class CardDesk {
  readonly #browser: string;
  readonly #look = siteLook();
  #running: Promise<Browser> | undefined;

  /** @param browser absolute path of a Chromium */
  constructor(browser: string) {
    this.#browser = browser;
  }

  /** The job that draws cards over a picture of this size, as it is shown. */
  drawing(
    cards: readonly PictureCard[],
    { width, height }: { readonly width: number; readonly height: number },
    corner: CardCorner,
  ): Wanted {
    const look = hash('sha256', this.#look);
    return want(
      this.#task(cards),
      [],
      { page: cardPage(cards, { width, height }, corner), look, width, height },
      WORTH,
    );
  }

  async close(): Promise<void> {
    await (await this.#running?.catch(() => undefined))?.close();
  }

  #task(cards: readonly PictureCard[]): Task<DrawingParams> {
    return {
      name: 'draw-cards',
      version: 2,
      extension: 'png',
      run: async ({ page: text, width, height }, _inputs, output, { signal }) => {
        const browser = await this.#open();
        signal.throwIfAborted();
        const page = await browser.newPage({ viewport: { width, height } });
        try {
          await page.setContent(text);
          await page.addStyleTag({ content: this.#look });
          await page.evaluate('document.fonts.ready');
          if (!(await page.evaluate(FIT)))
            throw new OutsideFailure(
              `the cards do not fit into a picture of ${width} × ${height}: ${cards.map(({ head }) => `"${head}"`).join(', ')}`,
              'shorten the words of the step, or divide it into two',
            );
          await page.screenshot({ path: output, type: 'png', omitBackground: true });
        } finally {
          await page.close();
        }
      },
    };
  }

  #open(): Promise<Browser> {
    this.#running ??= launchChromium(this.#browser);
    return this.#running;
  }
}
