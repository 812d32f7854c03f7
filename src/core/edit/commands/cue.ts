import { printClockTime, type Ticks, ticks } from '../../time/index.ts';
import { cueAttribute, withCue, withoutCue } from '../lesson-text.ts';
import { onFrame, writeMoment } from '../moments.ts';
import type { Passage } from '../passages.ts';
import { playingAt } from '../programme-view.ts';
import { chosenOf, type Session } from '../session.ts';
import { editLesson } from './lesson-edit.ts';
import { type EditCommand, type Outcome, quoteTitle, refuse } from './outcome.ts';

type Moment = Ticks<'recording'>;

/** How the lesson writes its times: as it did before, in this cue or in any other. */
export function likeOthers({ view }: Session, passage?: Passage): string {
  for (const { cue } of passage ? [passage, ...view.passages] : view.passages) {
    const text = cue && cueAttribute(view.lessonText, cue, 'at');
    if (text !== undefined) return text;
  }
  return '';
}

export function cueText(session: Session, at: Moment, leaning: 'start' | 'end' = 'start', passage?: Passage): string {
  const labels = session.view.recording?.rate ? session.view.labels : undefined;
  return writeMoment(at, leaning, labels, likeOthers(session, passage));
}

function setCue(session: Session, passage: Passage, at: Moment): Outcome {
  const until = passage.cue?.until;
  const texts = {
    at: cueText(session, at, 'start', passage),
    // An end that the new start has passed makes no sense any more; the next cue ends the step.
    ...(until !== undefined && until > at
      ? { until: cueAttribute(session.view.lessonText, passage.cue ?? neverCue, 'until') ?? '' }
      : {}),
  };
  const verb = passage.cue ? 'moved' : 'set';
  return editLesson(session, `${verb} cue of ${quoteTitle(passage.title)}`, (text) => withCue(text, passage, texts));
}

const nowhere = { line: 1, column: 1, offset: 0 };
const neverCue = { at: ticks<'recording'>(0), place: { file: '', start: nowhere, end: nowhere } };

/** Sets the cue of the chosen chapter or step at the frame shown, and chooses the next one. */
export const setCueAndNext: EditCommand = (session) => {
  const chosen = chosenOf(session);
  if (!chosen) return refuse('choose a chapter or step first, or add one');
  const outcome = setCue(session, chosen, onFrame(session.playhead, session.view.labels));
  if ('refused' in outcome) return outcome;
  const { passages } = outcome.session.view;
  const next = passages[passages.findIndex(({ id }) => id === chosen.id) + 1];
  if (!next) return outcome;
  const { session: after } = outcome;
  return { ...outcome, session: { ...after, content: { ...after.content, chosen: next.id } } };
};

/** The step that is on ends at the frame shown, which is the first one that no longer belongs. */
export const setCueEnd: EditCommand = (session) => {
  const at = onFrame(session.playhead, session.view.labels);
  const chosen = chosenOf(session);
  const on = playingAt(session, ticks(Math.max(0, at - 1)));
  const passage = chosen?.cue && chosen.cue.at < at ? chosen : on;
  if (!passage?.cue || passage.cue.at >= at) return refuse('no step has begun before this; set its cue first');
  const cue = {
    at: cueAttribute(session.view.lessonText, passage.cue, 'at') ?? '',
    until: cueText(session, at, 'end', passage),
  };
  return editLesson(session, `set end of ${quoteTitle(passage.title)}`, (text) => withCue(text, passage, cue));
};

/** Moves the cue of the chosen chapter or step by whole frames; the playhead goes with it. */
export const nudgeCue =
  (count: number): EditCommand =>
  (session) => {
    const chosen = chosenOf(session);
    if (!chosen?.cue) return refuse('what is chosen has no cue yet');
    const { labels } = session.view;
    const at = labels.grid.step(chosen.cue.at, count);
    if (at === onFrame(chosen.cue.at, labels) || at >= session.view.length) return refuse('the cue can go no further');
    return setCue({ ...session, playhead: at }, chosen, at);
  };

/** Moves the cue of a given passage, as a hand drags it: `id ticks`. */
export const dragCue: EditCommand = (session, words = '') => {
  const [id, to] = words.split(' ');
  const passage = session.view.passages.find((p) => p.id === id);
  if (!passage) return refuse('that step is gone');
  return setCue(session, passage, onFrame(Math.max(0, Number(to)), session.view.labels));
};

/** Takes the cue of the chosen chapter or step out. */
export const clearCue: EditCommand = (session) => {
  const chosen = chosenOf(session);
  if (!chosen?.cue) return refuse('what is chosen has no cue');
  return editLesson(
    session,
    `took the cue of ${quoteTitle(chosen.title)} out, it was at ${printClockTime(chosen.cue.at)}`,
    (text) => withoutCue(text, chosen),
  );
};
