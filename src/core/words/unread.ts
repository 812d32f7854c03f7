import type { Caption } from '../model/index.ts';
import { type EditList, intersect, TICKS_PER_SECOND } from '../time/index.ts';
import type { WordCaption } from './caption-words.ts';

const MS = TICKS_PER_SECOND / 1000;
/** How the id of a caption begins that a machine wrote and nobody has read. */
const UNREAD = 'unread-';

type Marked = Pick<Caption, 'at' | 'text'>;

/**
 * The id of a caption that a machine wrote: it says so, and from which words and times it was made, so that a caption
 * that a person has touched is known by the file alone.
 * Source of the sum: FNV-1a, 32 bits.
 */
export function unreadId({ at, text }: Marked): string {
  const words = `${Math.round(at.start / MS)} ${Math.round(at.end / MS)} ${text.replaceAll(/\s+/g, ' ').trim()}`;
  let sum = 0x811c9dc5;
  for (const byte of new Uint8Array(bytesOf(words))) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  return `${UNREAD}${sum.toString(16).padStart(8, '0')}`;
}

function bytesOf(text: string): number[] {
  return [...text].flatMap((letter) => {
    const code = letter.codePointAt(0) ?? 0;
    return [code & 255, (code >> 8) & 255, code >> 16];
  });
}

/** True for a caption that a machine wrote and that is as it wrote it: nobody has read it, or said so. */
export function isUnread(caption: Pick<Caption, 'at' | 'text' | 'id'>): boolean {
  return caption.id?.startsWith(UNREAD) === true && caption.id === unreadId(caption);
}

/** Captions that a machine wrote, that nobody has read, and of which the programme keeps at least a part. */
export function unreadHeard<C extends Pick<Caption, 'at' | 'text' | 'id'>>(
  captions: readonly C[],
  kept: EditList,
): readonly C[] {
  return captions.filter(
    (caption) => isUnread(caption) && kept.some((one) => intersect(one, caption.at) !== undefined),
  );
}

/** What a machine heard, beside what is there. */
export interface MergedWords {
  readonly captions: readonly Omit<Caption, 'place'>[];
  /** Captions of persons, which stay; of the machine, left out because a person's stand at their time; and new ones. */
  readonly kept: number;
  readonly yielded: number;
  readonly fresh: number;
}

/**
 * Captions a machine made, merged by time into those that are there: what a person wrote or touched stays as it is, and
 * the machine's give way to it; what it wrote itself earlier is made anew.
 */
export function mergeWords(present: readonly Caption[], made: readonly WordCaption[]): MergedWords {
  const kept = present.filter((caption) => !isUnread(caption));
  const free = made.filter(({ at }) => !kept.some((one) => one.at.start < at.end && at.start < one.at.end));
  const fresh = free.map((caption) => ({ ...caption, id: unreadId(caption), settings: '' }));
  const touched = kept.map(({ id, ...caption }) =>
    // What a person has changed, a person has read.
    id === undefined || id.startsWith(UNREAD) ? caption : { ...caption, id },
  );
  return {
    captions: [...touched, ...fresh].toSorted((a, b) => a.at.start - b.at.start),
    kept: kept.length,
    yielded: made.length - free.length,
    fresh: fresh.length,
  };
}
