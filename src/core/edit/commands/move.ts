import { TICKS_PER_SECOND, ticks } from '../../time/index.ts';
import { type LandmarkKind, neighbour } from '../landmarks.ts';
import { onFrame } from '../moments.ts';
import { chosenOf, landmarksOf, releaseTransport, type Session } from '../session.ts';
import { type EditCommand, move, refuse } from './outcome.ts';

/** The playhead at a moment, on a whole frame within the recording; what plays plays on from there. */
export function goTo(session: Session, moment: number): Session {
  const { length, labels } = session.view;
  const at = onFrame(Math.min(Math.max(0, moment), Math.max(0, length - 1)), labels);
  const transport = releaseTransport(session.transport);
  return { ...session, playhead: at < length ? at : labels.grid.down(Math.max(0, length - 1)), transport };
}

/** By whole frames, standing. */
export const frames =
  (count: number): EditCommand =>
  (session) => {
    const there = goTo(session, session.view.labels.grid.step(session.playhead, count));
    return move({ ...there, transport: { ...there.transport, speed: 0 } });
  };

export const seconds =
  (count: number): EditCommand =>
  (session) =>
    move(goTo(session, session.playhead + count * TICKS_PER_SECOND));

export const toStart: EditCommand = (session) => move(goTo(session, 0));
export const toEnd: EditCommand = (session) => move(goTo(session, session.view.length));

const WORDS: Readonly<Record<LandmarkKind, string>> = {
  silence: 'silence',
  scene: 'scene change',
  cut: 'edge of a cut',
  cue: 'cue',
  caption: 'caption',
  word: 'word',
  keyframe: 'key frame',
};

/** What the two jump keys look for. */
export const jumpBy =
  (kind: LandmarkKind): EditCommand =>
  (session) =>
    move({ ...session, jumpBy: kind }, `jumping by ${WORDS[kind]}`);

export const jump =
  (way: 1 | -1): EditCommand =>
  (session) => {
    // A written moment lies up to a millisecond inside its frame: from there the next one is asked for.
    const from = way === 1 ? session.view.labels.grid.step(session.playhead, 1) - 1 : session.playhead;
    const next = neighbour(landmarksOf(session)[session.jumpBy], ticks(from), way);
    if (next === undefined) return refuse(`no ${WORDS[session.jumpBy]} ${way === 1 ? 'after' : 'before'} this`);
    return move(goTo(session, next));
  };

export const toIn: EditCommand = (session) =>
  session.marks.in === undefined ? refuse('no in point is set') : move(goTo(session, session.marks.in));
export const toOut: EditCommand = (session) =>
  session.marks.out === undefined ? refuse('no out point is set') : move(goTo(session, session.marks.out));

/** Chooses the chapter or step above or below. */
export const choose =
  (way: 1 | -1): EditCommand =>
  (session) => {
    const { passages } = session.view;
    const here = passages.findIndex(({ id }) => id === session.content.chosen);
    const next = passages[here === -1 ? 0 : here + way];
    if (!next) return refuse(passages.length === 0 ? 'the lesson has no steps yet' : 'there is no further one');
    return move({ ...session, content: { ...session.content, chosen: next.id } }, next.title);
  };

export const chooseById: EditCommand = (session, id) => {
  const passage = session.view.passages.find((p) => p.id === id);
  return passage
    ? move({ ...session, content: { ...session.content, chosen: passage.id } }, passage.title)
    : refuse('that step is gone');
};

/** To the cue of the chosen chapter or step. */
export const toCue: EditCommand = (session) => {
  const chosen = chosenOf(session);
  if (!chosen) return refuse('nothing is chosen');
  if (!chosen.cue) return refuse(`“${chosen.title}” has no cue yet`);
  return move(goTo(session, chosen.cue.at), chosen.title);
};
