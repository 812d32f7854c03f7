import type { Hear, HeardQuantity } from '../heard/index.ts';
import type { Chapter, Lesson, Passage, Recording, Shop, Utterance } from '../model/index.ts';
import type { Ticks } from '../time/index.ts';

/** A quantity in the words of a recording, and of which row of the spec table it speaks. */
export interface QuantityInWords {
  readonly lesson: Lesson;
  readonly chapter: Chapter;
  /** The step; the chapter where no step is on. */
  readonly passage: Passage;
  readonly recording: Recording;
  readonly heard: HeardQuantity;
  readonly how: 'said' | 'shown';
  /** The caption, or what was written down of the picture. */
  readonly words: Utterance;
  /** When they begin. */
  readonly at: Ticks<'recording'>;
  /** Id of the rows. */
  readonly spec: string;
}

/** What is listened to, and what it is held against. */
export type Compared = Pick<Shop, 'lessons' | 'recordings' | 'machines'> & {
  /** `findQuantities` where it is left out. */
  readonly hear?: Hear;
};
