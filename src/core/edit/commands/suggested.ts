import { without } from '../../time/index.ts';
import { onFrame } from '../moments.ts';
import { openSuggestions, type Session } from '../session.ts';
import { editKept } from './cut.ts';
import { change, type EditCommand, move, type Outcome, refuse } from './outcome.ts';

/** Goes to the next suggested cut, around again at the end. */
export const nextSuggestion: EditCommand = (session) => {
  const open = openSuggestions(session);
  const next = open.find(({ range }) => range.start > session.playhead) ?? open[0];
  if (!next) return refuse('no suggested cut is left');
  return move({ ...session, playhead: onFrame(next.range.start, session.view.labels) }, next.reason);
};

function suggestionHere(session: Session, id?: string) {
  const open = openSuggestions(session);
  if (id !== undefined && id !== '') return open.find((suggestion) => suggestion.id === id);
  const { playhead } = session;
  return (
    open.find(({ range }) => session.view.labels.grid.step(range.start, -1) <= playhead && playhead < range.end) ??
    open.find(({ range }) => range.start > playhead) ??
    open[0]
  );
}

/** Cuts what is suggested at the playhead and goes to the next suggestion. */
export const acceptSuggestion: EditCommand = (session, id) => {
  const suggestion = suggestionHere(session, id);
  if (!suggestion) return refuse('no suggested cut is left');
  const { labels } = session.view;
  const range = { start: onFrame(suggestion.range.start, labels), end: onFrame(suggestion.range.end, labels) };
  const outcome = editKept(session, without(session.view.kept, [range]), `accepted the cut “${suggestion.reason}”`);
  return 'refused' in outcome ? outcome : onwards(outcome);
};

/** Leaves what is suggested at the playhead in and goes to the next suggestion. */
export const refuseSuggestion: EditCommand = (session, id) => {
  const suggestion = suggestionHere(session, id);
  if (!suggestion) return refuse('no suggested cut is left');
  const refused = [...session.content.refused, suggestion.id];
  return onwards(change(session, { refused }, `refused the cut “${suggestion.reason}”`));
};

function onwards(outcome: Outcome): Outcome {
  if ('refused' in outcome) return outcome;
  const next = nextSuggestion(outcome.session);
  return 'refused' in next ? outcome : { ...outcome, session: next.session };
}
