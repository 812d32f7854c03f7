import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Peaks, Suggestion } from '../../core/edit/index.ts';
import type { SpeechBy } from '../../core/media/index.ts';
import type { Range, Ticks } from '../../core/time/index.ts';
import type { SpokenWord } from '../../core/words/index.ts';
import type { Thumbs } from './strip/scene.ts';

/** A caption of the recording. */
export interface Caption {
  readonly range: Range<'recording'>;
  readonly text: string;
}

/** Where a further camera or recorder may begin that its sound alone could not place. */
export interface AngleOffer {
  /** Its place among the recording's angles. */
  readonly index: number;
  readonly file: string;
  /** Of its first frame or sample; negative before the recording. */
  readonly at: Ticks<'recording'>;
}

/** What is known of the footage beyond its length; it comes in while the page is already in use. */
export class Footage {
  readonly peaks: Signal<Peaks | undefined> = signal(undefined);
  readonly thumbs: Signal<Thumbs | undefined> = signal(undefined);
  readonly silences: Signal<readonly Range<'recording'>[]> = signal([]);
  readonly speech: Signal<readonly Range<'recording'>[]> = signal([]);
  /** How speech was found. */
  readonly speechBy: Signal<SpeechBy> = signal('loudness');
  readonly captions: Signal<readonly Caption[]> = signal([]);
  /** What is said, word by word. */
  readonly spoken: Signal<readonly SpokenWord[]> = signal([]);
  /** Cuts that an analysis proposes. */
  readonly cuts: Signal<readonly Suggestion[]> = signal([]);
  readonly offers: Signal<readonly AngleOffer[]> = signal([]);
  /** True where nobody has looked through the footage yet. */
  readonly missing = signal(false);
  /** Words about an analysis that runs, or why there is none. */
  readonly words = signal('');
  readonly captionAt: (at: ReadonlySignal<number>) => ReadonlySignal<string>;

  constructor() {
    this.captionAt = (at) =>
      computed(() => {
        const now = at.value;
        return this.captions.value
          .filter(({ range }) => range.start <= now && now < range.end)
          .map(({ text }) => text)
          .join('\n');
      });
  }
}
