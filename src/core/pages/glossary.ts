import type { Lesson, Shop } from '../model/index.ts';

/** A word of the trade, with what it means. */
export interface WordExplained {
  readonly say: string;
  readonly meaning: string;
  /** Other names for it. */
  readonly also: readonly string[];
}

/** The words of a lesson that the shop has written a meaning for, by letter. */
export function glossary({ words }: Pick<Shop, 'words'>, lesson: Lesson): WordExplained[] {
  const passages = lesson.chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
  const text = [
    ...lesson.intro.map(({ text }) => text),
    ...passages.flatMap(({ title, prose, keyPoints, signals }) => [
      title,
      ...[...prose, ...keyPoints, ...signals].map(({ text }) => text),
    ]),
  ].join('\n');
  return (words.words ?? [])
    .flatMap(({ say, also, meaning }) => (meaning !== undefined && occurs(say, text) ? [{ say, also, meaning }] : []))
    .toSorted((a, b) => a.say.localeCompare(b.say));
}

/** A whole word or its plural, in large letters or small. */
function occurs(word: string, text: string): boolean {
  const literal = word.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(/\s+/g, '\\s+');
  return new RegExp(`(?<![\\p{L}\\p{N}])${literal}s?(?![\\p{L}\\p{N}])`, 'iu').test(text);
}
