import type { Chapter, Lesson, Passage, Recording, Utterance } from '../model/index.ts';
import { contains, type Range, range, rangeToProgramme, toProgramme } from '../time/index.ts';
import { lessonTimes } from './lesson-times.ts';

/** What is said, or shown, while a chapter or step lasts, as one text: words of a value may stand in two captions. */
export interface PassageWords {
  readonly chapter: Chapter;
  /** The step; the chapter itself where no step is on. */
  readonly passage: Passage;
  readonly how: 'said' | 'shown';
  readonly text: string;
  /** The utterances, each with where it starts in the text. */
  readonly parts: readonly { readonly words: Utterance; readonly start: number }[];
}

/**
 * The words of everything a recording keeps while a lesson is on, passage by passage. What stands between two steps,
 * after a step's `until` for instance, belongs to its chapter; what was cut is neither heard nor seen.
 *
 *     chapter      |----------------------|
 *     steps           |---1---|  |--2--|
 *     words of     |c |   1   |c |  2  | c|
 */
export function wordsOfPassages(lesson: Lesson, recording: Recording): readonly PassageWords[] {
  return lessonTimes(lesson, recording).chapters.flatMap(({ chapter, recording: whole, steps }, index, chapters) => {
    const next = chapters[index + 1]?.recording.start;
    const lasts = next === undefined ? whole : range(whole.start, next);
    const within = steps.map(({ recording: own }) => own);
    const between = [lasts.start, ...within.flatMap(({ start, end }) => [start, end]), lasts.end];
    const gaps = between.flatMap((start, i) => {
      const end = between[i + 1];
      return i % 2 === 0 && end !== undefined && end > start ? [range(start, end)] : [];
    });
    return [
      ...gaps.map((gap) => ({ passage: chapter, spans: gap })),
      ...steps.map(({ step, recording: own }) => ({ passage: step, spans: own })),
    ].flatMap(({ passage, spans }) =>
      wordsWithin(recording, spans).map((words): PassageWords => ({ chapter, passage, ...words })),
    );
  });
}

/** What is said within a stretch as one text; each thing shown stands alone. */
function wordsWithin(
  { captions, shows, edit }: Recording,
  within: Range<'recording'>,
): Omit<PassageWords, 'chapter' | 'passage'>[] {
  const stays = ({ at }: Utterance) =>
    contains(within, at.start) &&
    (at.end > at.start ? rangeToProgramme(edit, at).length > 0 : !toProgramme(edit, at.start).cut);
  const parts: { words: Utterance; start: number }[] = [];
  let text = '';
  for (const words of captions?.cues.filter(stays) ?? []) {
    parts.push({ words, start: text.length });
    text += `${words.text} `;
  }
  return [
    { how: 'said', text, parts },
    ...shows.filter(stays).map((words) => ({ how: 'shown' as const, text: words.text, parts: [{ words, start: 0 }] })),
  ];
}
