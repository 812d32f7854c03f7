import { without } from '../../time/index.ts';
import { withPassage } from '../lesson-text.ts';
import { onFrame, pointAt } from '../moments.ts';
import { decisionOf, openSuggestions } from '../open-suggestions.ts';
import type { Session, Suggestion } from '../session.ts';
import { cueText } from './cue.ts';
import { editKept } from './cut.ts';
import { editLesson, tidy, titlesOf } from './lesson-edit.ts';
import { change, type EditCommand, move, type Outcome, quoteTitle, refuse } from './outcome.ts';

const NONE_LEFT = 'no proposal is left';

/** Goes to the next proposal, or the one before, without an answer; around again at the end. */
export const toSuggestion =
  (way: 1 | -1): EditCommand =>
  (session) => {
    const { labels } = session.view;
    const open = openSuggestions(session);
    const next =
      way === 1
        ? (open.find(({ range }) => onFrame(range.start, labels) > session.playhead) ?? open[0])
        : (open.findLast(({ range }) => onFrame(range.start, labels) < session.playhead) ?? open.at(-1));
    if (!next) return refuse(NONE_LEFT);
    return move({ ...session, playhead: onFrame(next.range.start, labels) }, inWords(next));
  };

/** A proposal as it is said to who cannot see it. */
function inWords({ title, reason }: Suggestion): string {
  return title === undefined ? `cut: ${reason}` : `step ${quoteTitle(title)}: ${reason}`;
}

/** The proposal that begins at the playhead, the one it stands in, or the next one. */
function suggestionHere(session: Session, id?: string): Suggestion | undefined {
  const open = openSuggestions(session);
  if (id !== undefined && id !== '') return open.find((suggestion) => suggestion.id === id);
  const { playhead, view } = session;
  return (
    open.find(({ range }) => onFrame(range.start, view.labels) === playhead) ??
    open.find(({ range }) => view.labels.grid.step(range.start, -1) <= playhead && playhead < range.end) ??
    open.find(({ range }) => range.start > playhead) ??
    open[0]
  );
}

/**
 * Does what is proposed at the playhead and goes to the next proposal: cuts, or adds the step with its title and cue.
 */
export const acceptSuggestion: EditCommand = (session, id) => accept(session, 'step', id);
/** The same, but a step is added as a chapter. */
export const acceptAsChapter: EditCommand = (session, id) => accept(session, 'chapter', id);

function accept(session: Session, kind: 'step' | 'chapter', id?: string): Outcome {
  const suggestion = suggestionHere(session, id);
  if (!suggestion) return refuse(NONE_LEFT);
  const decided = [...session.content.decided, decisionOf(suggestion, session)];
  const answered = { ...session, content: { ...session.content, decided } };
  const { title } = suggestion;
  return onwards(title === undefined ? cut(answered, suggestion) : addProposed(answered, suggestion, title, kind));
}

function cut(session: Session, { range, reason }: Suggestion): Outcome {
  const { view } = session;
  const wanted = { start: pointAt(range.start, view), end: pointAt(range.end, view) };
  return editKept(session, without(view.kept, [wanted]), `accepted the cut “${reason}”`);
}

/** Below the last chapter or step that begins before it; an empty lesson is given a chapter of its own name first. */
function addProposed(session: Session, { range }: Suggestion, words: string, kind: 'step' | 'chapter'): Outcome {
  const { passages, lessonText, lesson, labels } = session.view;
  if (!lesson) return refuse('no lesson is open; start one first');
  const title = tidy(words);
  const at = onFrame(range.start, labels);
  const cue = { at: cueText(session, at) };
  const label = `accepted the ${kind} ${quoteTitle(title)}`;
  const titles = titlesOf(session);
  if (passages.length === 0 && kind === 'step') {
    const chapter = tidy(lesson.title);
    return editLesson(
      session,
      label,
      (text) => {
        const opened = withPassage(text, lessonText.length, { kind: 'chapter', title: chapter, cue });
        return withPassage(opened, opened.length, { kind, title, cue });
      },
      { titles: [chapter, title], choose: 1 },
    );
  }
  const before = passages.findLastIndex((passage) => passage.cue && passage.cue.at <= at);
  // What comes before the first cue can only be a step of the first chapter, below its heading.
  const index = before === -1 ? Math.min(1, passages.length) : before + 1;
  const place = passages[index]?.own.start ?? lessonText.length;
  return editLesson(session, label, (text) => withPassage(text, place, { kind, title, cue }), {
    titles: titles.toSpliced(index, 0, title),
    choose: index,
  });
}

/** Answers what is proposed at the playhead with no, for good, and goes to the next proposal. */
export const refuseSuggestion: EditCommand = (session, id) => {
  const suggestion = suggestionHere(session, id);
  if (!suggestion) return refuse(NONE_LEFT);
  const decided = [...session.content.decided, decisionOf(suggestion, session)];
  const { title, reason } = suggestion;
  const label = title === undefined ? `refused the cut “${reason}”` : `refused the step ${quoteTitle(title)}`;
  return onwards(change(session, { decided }, label));
};

function onwards(outcome: Outcome): Outcome {
  if ('refused' in outcome) return outcome;
  const next = toSuggestion(1)(outcome.session);
  return 'refused' in next ? outcome : { ...outcome, session: next.session };
}
