import type { Caption } from '../model/index.ts';
import { captionWords, timedWords } from '../read/index.ts';
import { type Range, range, type Ticks, ticks } from '../time/index.ts';
import { isUnread } from './unread.ts';

type Moment = Ticks<'recording'>;

/** A word of what is said, with the time it stands at. */
export interface SpokenWord {
  readonly at: Range<'recording'>;
  readonly text: string;
  /** A machine wrote it and nobody has read it. */
  readonly unread: boolean;
}

/**
 * The words of captions, in order of time. A word that carries its own time begins there; those between two times share
 * what lies between them by their letters, as they do where a caption carries no times at all.
 */
export function spokenWords(captions: readonly Caption[]): SpokenWord[] {
  return captions.flatMap(wordsOf).toSorted((a, b) => a.at.start - b.at.start);
}

function wordsOf(caption: Caption): SpokenWord[] {
  const unread = isUnread(caption);
  const runs = timedWords(caption.markup, caption.at.start);
  return runs.flatMap(({ at, markup }, i) => {
    const words = captionWords(markup)
      .split(/\s+/)
      .filter((word) => word !== '');
    const end = Math.max(at, Math.min(runs[i + 1]?.at ?? caption.at.end, caption.at.end));
    const letters = words.reduce((sum, word) => sum + word.length, 0);
    let before = 0;
    return words.map((text): SpokenWord => {
      const share = (count: number): Moment => ticks(Math.round(at + ((end - at) * count) / letters));
      const from = share(before);
      before += text.length;
      return { at: range(from, share(before)), text, unread };
    });
  });
}
