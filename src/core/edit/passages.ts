import type { Chapter, Cue, Lesson, Step } from '../model/index.ts';

/** Offsets into a lesson's text, half-open. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** A chapter or a step as one row of the lesson, with the text it owns. */
export interface Passage {
  readonly kind: 'chapter' | 'step';
  readonly id: string;
  readonly title: string;
  readonly cue?: Cue;
  /** Position in the row of chapters, and of the step in its chapter. */
  readonly chapter: number;
  readonly step?: number;
  /** The heading line, without its line end. */
  readonly heading: Stretch;
  /** From its heading to the next heading of any passage. */
  readonly own: Stretch;
  /** From its heading to the next one of its rank: a chapter with its steps. */
  readonly whole: Stretch;
  readonly words: { readonly keyPoints: number; readonly cites: number; readonly signals: number };
}

/**
 * Every chapter and step of a lesson in reading order, with the stretch of text each owns.
 *
 * @param text of the lesson file, without a byte order mark
 */
export function passagesOf(lesson: Lesson, text: string): Passage[] {
  const rows = lesson.chapters.flatMap((chapter, c) => [
    { at: chapter as Chapter | Step, kind: 'chapter' as const, chapter: c },
    ...chapter.steps.map((step, s) => ({ at: step as Chapter | Step, kind: 'step' as const, chapter: c, step: s })),
  ]);
  return rows.map(({ at, ...row }, index) => {
    const start = at.place.start.offset;
    const next = rows[index + 1];
    const peer = rows.slice(index + 1).find((other) => row.kind === 'step' || other.kind === 'chapter');
    return {
      ...row,
      id: at.id,
      title: at.title,
      ...(at.cue ? { cue: at.cue } : {}),
      heading: { start, end: at.place.end.offset },
      own: { start, end: next?.at.place.start.offset ?? text.length },
      whole: { start, end: peer?.at.place.start.offset ?? text.length },
      words: { keyPoints: at.keyPoints.length, cites: at.cites.length, signals: at.signals.length },
    };
  });
}

/** A stretch of text that holds words: without the blank lines after it. */
export function trimStretch(text: string, { start, end }: Stretch): Stretch {
  let to = end;
  while (to > start && /\s/.test(text.charAt(to - 1))) to--;
  return { start, end: to };
}

/**
 * The text of a passage that a person types: below its heading, and below its cue where that has a line of its own.
 */
export function bodyOf(text: string, passage: Passage): Stretch {
  const { end } = trimStretch(text, passage.own);
  let start = Math.min(skipLineEnd(text, passage.heading.end), end);
  const cue = passage.cue?.place;
  if (cue && text.slice(start, cue.start.offset).trim() === '') {
    const after = cue.end.offset;
    const rest = text.slice(after, end);
    const blank = /^[ \t]*(?:\r?\n|$)/.exec(rest);
    start = blank ? after + blank[0].length : after;
  }
  while (start < end && /[\r\n]/.test(text.charAt(start))) start++;
  return { start: Math.min(start, end), end };
}

function skipLineEnd(text: string, offset: number): number {
  const at = text.indexOf('\n', offset);
  return at === -1 ? text.length : at + 1;
}
