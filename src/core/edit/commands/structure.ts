import { ticks } from '../../time/index.ts';
import {
  cueAttribute,
  swapStretches,
  withBody,
  withCue,
  withCueId,
  withoutHeading,
  withoutStretch,
  withPassage,
  withTitle,
} from '../lesson-text.ts';
import { onFrame } from '../moments.ts';
import { bodyOf, type Passage } from '../passages.ts';
import { playingAt } from '../programme-view.ts';
import { chosenOf, type Session } from '../session.ts';
import { cueText } from './cue.ts';
import { editLesson, indexOf, tidy, titlesOf } from './lesson-edit.ts';
import { type EditCommand, type Outcome, quoteTitle, refuse } from './outcome.ts';

function insertAt<T>(row: readonly T[], at: number, value: T): T[] {
  return row.toSpliced(at, 0, value);
}

/** Index of the passage after a passage and everything in it. */
function after(session: Session, passage: Passage): number {
  const { passages } = session.view;
  const here = indexOf(session, passage);
  if (passage.kind === 'step') return here + 1;
  const next = passages.findIndex((p, i) => i > here && p.kind === 'chapter');
  return next === -1 ? passages.length : next;
}

function add(session: Session, kind: Passage['kind'], words: string): Outcome {
  const title = tidy(words);
  if (title === '') return refuse('a title is needed');
  const { passages, lessonText } = session.view;
  const chosen = chosenOf(session);
  if (!chosen && kind === 'step' && passages.length === 0) return refuse('open a chapter first; a step belongs to one');
  const anchor = chosen ?? passages.at(-1);
  const own = anchor && (kind === 'step' ? indexOf(session, anchor) + 1 : after(session, chapterOf(session, anchor)));
  const index = own ?? 0;
  const at = passages[index]?.own.start ?? lessonText.length;
  const cue = { at: cueText(session, onFrame(session.playhead, session.view.labels)) };
  return editLesson(
    session,
    `added ${kind} ${quoteTitle(title)}`,
    (text) => withPassage(text, at, { kind, title, cue }),
    {
      titles: insertAt(titlesOf(session), index, title),
      choose: index,
    },
  );
}

function chapterOf({ view }: Session, passage: Passage): Passage {
  return view.passages.find((p) => p.kind === 'chapter' && p.chapter === passage.chapter) ?? passage;
}

/** A new step below the chosen one, with its cue at the frame shown. */
export const addStep: EditCommand = (session, words = '') => add(session, 'step', words);
/** A new chapter below the chosen one, with its cue at the frame shown. */
export const addChapter: EditCommand = (session, words = '') => add(session, 'chapter', words);

/**
 * Gives the chosen passage another title. Its address was made from the old one and is what links, classes and the
 * shoot log name, so its cue keeps that address as its id.
 */
export const rename: EditCommand = (session, words = '') => {
  const chosen = chosenOf(session);
  const title = tidy(words);
  if (!chosen) return refuse('nothing is chosen');
  if (title === '') return refuse('a title is needed');
  if (title === chosen.title) return refuse('this is its title already');
  const index = indexOf(session, chosen);
  const label = `renamed ${quoteTitle(chosen.title)} to ${quoteTitle(title)}`;
  const meant = { titles: titlesOf(session).with(index, title), choose: index };
  const plain = editLesson(session, label, (text) => withTitle(text, chosen, title), meant);
  if ('refused' in plain || plain.session.content.chosen === chosen.id) return plain;
  if (!chosen.cue) return { ...plain, says: `${label}; without a cue it could not keep its old address` };
  return editLesson(session, label, (text) => withTitle(withCueId(text, chosen, chosen.id), chosen, title), meant);
};

/**
 * Splits at the frame shown. A step becomes two, the second from here to where the first one ended; where a chapter
 * is chosen, the steps that come from here on become a chapter of their own.
 */
export const split: EditCommand = (session, words = '') => {
  const chosen = chosenOf(session);
  const title = tidy(words);
  if (!chosen) return refuse('choose the chapter or step to split');
  if (title === '') return refuse('a title for the second part is needed');
  return chosen.kind === 'step' ? splitStep(session, chosen, title) : splitChapter(session, chosen, title);
};

function splitStep(session: Session, step: Passage, title: string): Outcome {
  const at = onFrame(session.playhead, session.view.labels);
  if (!step.cue) return refuse(`“${step.title}” has no cue yet; set it first`);
  if (at <= step.cue.at || (step.cue.until !== undefined && at >= step.cue.until))
    return refuse(`the playhead is not within “${step.title}”`);
  const until = cueAttribute(session.view.lessonText, step.cue, 'until');
  const first = cueAttribute(session.view.lessonText, step.cue, 'at') ?? '';
  const cue = { at: cueText(session, at), ...(until === undefined ? {} : { until }) };
  const index = indexOf(session, step) + 1;
  return editLesson(
    session,
    `split ${quoteTitle(step.title)}; the second part is ${quoteTitle(title)}`,
    (text) => {
      const second = withPassage(text, step.own.end, { kind: 'step', title, cue });
      return until === undefined
        ? second
        : withCue(second, step, { at: first, until: cueText(session, at, 'end', step) });
    },
    { titles: insertAt(titlesOf(session), index, title), choose: index },
  );
}

function splitChapter(session: Session, chapter: Passage, title: string): Outcome {
  const { passages } = session.view;
  const from = passages.findIndex(
    (p) => p.kind === 'step' && p.chapter === chapter.chapter && p.cue && p.cue.at >= session.playhead - 1,
  );
  const step = passages[from];
  if (!step?.cue) return refuse(`no step of “${chapter.title}” begins at or after the playhead`);
  if (step.step === 0) return refuse(`“${chapter.title}” would be left without steps`);
  const cue = { at: cueAttribute(session.view.lessonText, step.cue, 'at') ?? '' };
  return editLesson(
    session,
    `split chapter ${quoteTitle(chapter.title)} before ${quoteTitle(step.title)}`,
    (text) => withPassage(text, step.own.start, { kind: 'chapter', title, cue }),
    { titles: insertAt(titlesOf(session), from, title), choose: from },
  );
}

/** Makes the chosen step and the next one of its chapter one step, or the chosen chapter and the next one. */
export const merge: EditCommand = (session) => {
  const chosen = chosenOf(session);
  if (!chosen) return refuse('nothing is chosen');
  const { passages } = session.view;
  const here = indexOf(session, chosen);
  const index = chosen.kind === 'step' ? here + 1 : after(session, chosen);
  const next = passages[index];
  if (!next || next.kind !== chosen.kind) return refuse(`there is no ${chosen.kind} after it to merge with`);
  return editLesson(
    session,
    `merged ${quoteTitle(next.title)} into ${quoteTitle(chosen.title)}`,
    (text) => {
      const merged = withoutHeading(text, next);
      if (chosen.kind !== 'step' || !chosen.cue) return merged;
      const end = next.cue ? cueAttribute(text, next.cue, 'until') : undefined;
      const had = cueAttribute(text, chosen.cue, 'until');
      if (end === had) return merged;
      return withCue(merged, chosen, {
        at: cueAttribute(text, chosen.cue, 'at') ?? '',
        ...(end === undefined ? {} : { until: end }),
      });
    },
    { titles: titlesOf(session).toSpliced(index, 1), choose: here },
  );
};

/** Moves the chosen step, or the chosen chapter with its steps, up or down; a step goes on into the next chapter. */
export const reorder =
  (way: 1 | -1): EditCommand =>
  (session) => {
    const chosen = chosenOf(session);
    if (!chosen) return refuse('nothing is chosen');
    return chosen.kind === 'step' ? moveStep(session, chosen, way) : moveChapter(session, chosen, way);
  };

function moveStep(session: Session, step: Passage, way: 1 | -1): Outcome {
  const { passages } = session.view;
  const here = indexOf(session, step);
  const there = here + way;
  const other = passages[there];
  if (!other || there === 0) return refuse(`“${step.title}” can go no further`);
  const [first, second] = way === 1 ? [step, other] : [other, step];
  return editLesson(
    session,
    `moved ${quoteTitle(step.title)} ${way === 1 ? 'down' : 'up'}`,
    (text) => swapStretches(text, first.own, second.own),
    { titles: swapItems(titlesOf(session), here, there), choose: there },
  );
}

function moveChapter(session: Session, chapter: Passage, way: 1 | -1): Outcome {
  const { passages } = session.view;
  const chapters = passages.filter((p) => p.kind === 'chapter');
  const other = chapters[chapter.chapter + way];
  if (!other) return refuse(`“${chapter.title}” can go no further`);
  const [first, second] = way === 1 ? [chapter, other] : [other, chapter];
  const rows = (p: Passage) => passages.filter((row) => row.chapter === p.chapter).map(({ title }) => title);
  const start = indexOf(session, first);
  const titles = titlesOf(session).toSpliced(
    start,
    rows(first).length + rows(second).length,
    ...rows(second),
    ...rows(first),
  );
  return editLesson(
    session,
    `moved chapter ${quoteTitle(chapter.title)} ${way === 1 ? 'down' : 'up'}`,
    (text) => swapStretches(text, first.whole, second.whole),
    { titles, choose: way === 1 ? start + rows(second).length : start },
  );
}

function swapItems(row: readonly string[], a: number, b: number): string[] {
  return row.map((value, i) => (i === a ? (row[b] ?? value) : i === b ? (row[a] ?? value) : value));
}

/** Takes the chosen step out, or the chosen chapter with all its steps; its text can be had again by undo. */
export const removePassage: EditCommand = (session) => {
  const chosen = chosenOf(session);
  if (!chosen) return refuse('nothing is chosen');
  const here = indexOf(session, chosen);
  const rest = titlesOf(session).toSpliced(here, after(session, chosen) - here);
  return editLesson(
    session,
    `took ${chosen.kind} ${quoteTitle(chosen.title)} out`,
    (text) => withoutStretch(text, chosen.whole),
    { titles: rest, choose: Math.min(here, rest.length - 1) },
  );
};

/** The text of the chosen chapter or step, as a person types it. */
export function textOf(session: Session): string {
  const chosen = chosenOf(session);
  if (!chosen) return '';
  const { start, end } = bodyOf(session.view.lessonText, chosen);
  return session.view.lessonText.slice(start, end);
}

/** Writes the text of the chosen chapter or step. */
export const writeText: EditCommand = (session, words = '') => {
  const chosen = chosenOf(session);
  if (!chosen) return refuse('nothing is chosen');
  if (/^#{1,3}\s/m.test(words)) return refuse('a line that starts with # would be a heading; add a step instead');
  if (words.replace(/\r\n/g, '\n').trimEnd() === textOf(session).replace(/\r\n/g, '\n').trimEnd()) return { session };
  return editLesson(session, `wrote the text of ${quoteTitle(chosen.title)}`, (text) => withBody(text, chosen, words));
};

/** The passage that is on at the playhead becomes the chosen one. */
export const chooseWhatPlays: EditCommand = (session) => {
  const on = playingAt(session, ticks(session.playhead));
  if (!on) return refuse('no step has begun yet');
  return { session: { ...session, content: { ...session.content, chosen: on.id } }, says: on.title };
};
