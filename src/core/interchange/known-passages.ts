import type { Lesson, Passage } from '../model/index.ts';
import { slug } from '../read/index.ts';
import type { ImportedMark } from './imported.ts';

/**
 * Finds the chapter or step of a lesson that a mark stands for: the one with its id, else of those with its title the
 * one whose cue is nearest in time. None is found twice, so that two steps of one title keep a cue each.
 */
export function knownPassages({ chapters }: Lesson): (mark: ImportedMark) => Passage | undefined {
  const free = new Set(chapters.flatMap((chapter): Passage[] => [chapter, ...chapter.steps]));
  return (mark) => {
    const name = slug(mark.title);
    const named = [...free].filter(({ id, title }) => id === name || slug(title) === name);
    const away = ({ cue }: Passage) => (cue ? Math.abs(cue.at - mark.at) : Number.POSITIVE_INFINITY);
    const found =
      [...free].find(({ id }) => id === mark.id) ??
      named.toSorted((a, b) => (away(a) === away(b) ? 0 : away(a) - away(b)))[0];
    if (found) free.delete(found);
    return found;
  };
}
