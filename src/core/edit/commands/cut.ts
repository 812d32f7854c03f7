import {
  type EditList,
  printClockTime,
  putBack,
  type Range,
  type Ticks,
  ticks,
  toProgramme,
  without,
} from '../../time/index.ts';
import { setYamlList } from '../../write/index.ts';
import { type Edge, edgesOf, entryTexts, nearestEdge, roomOf, sameFrames, withEdge, writable } from '../entries.ts';
import { inOrder, neighbour } from '../landmarks.ts';
import { onFrame, pointAt } from '../moments.ts';
import { landmarksOf, type Session, viewOf } from '../session.ts';
import { goTo } from './move.ts';
import { change, type EditCommand, move, type Outcome, refuse } from './outcome.ts';

type Moment = Ticks<'recording'>;

const NO_LENGTH = 'the recording has no length: its camera files are missing or cannot be read';

/** Writes another edit list, after reading back that it says exactly this. */
export function editKept(session: Session, wanted: EditList, label: string): Outcome {
  const kept = writable(wanted);
  const { desk, content, view } = session;
  const before = content.texts.get(desk.recordingFile);
  if (before === undefined || !view.recording) return refuse('the recording file cannot be read; mend it first');
  if (view.length === 0) return refuse(NO_LENGTH);
  if (kept.length === 0) return refuse('that would leave nothing of the recording in the programme');
  const after = setYamlList(before, ['edit'], entryTexts(kept, view.recording, view.labels));
  if (!after.ok) return refuse(`${after.problem}; ${after.help}`);
  const texts = new Map(content.texts).set(desk.recordingFile, after.value);
  const read = viewOf(desk, texts);
  if (!sameFrames(read.kept, kept, view.labels))
    return refuse('the edit list in the file could not be changed safely; its layout is unusual, so edit it by hand');
  return change(session, { texts }, label, read);
}

function lengthText({ start, end }: Range<'recording'>): string {
  return printClockTime(end - start);
}

export const markIn: EditCommand = (session) => {
  const at = onFrame(session.playhead, session.view.labels);
  const out = session.marks.out !== undefined && session.marks.out > at ? session.marks.out : undefined;
  return move({ ...session, marks: { in: at, out } }, 'in point set');
};

/** The frame shown is the first one left out; on the last frame the point is the end of the recording. */
export const markOut: EditCommand = (session) => {
  const { labels, length } = session.view;
  const shown = onFrame(session.playhead, labels);
  const at = pointAt(labels.grid.step(shown, 1), session.view) === length ? length : shown;
  const start = session.marks.in !== undefined && session.marks.in < at ? session.marks.in : undefined;
  return move({ ...session, marks: { in: start, out: at } }, 'out point set');
};

export const clearMarks: EditCommand = (session) => move({ ...session, marks: {} }, 'in and out points cleared');

/** What lies between the points, where both are set. */
export function markedRange({ marks }: Session): Range<'recording'> | undefined {
  return marks.in !== undefined && marks.out !== undefined ? { start: marks.in, end: marks.out } : undefined;
}

/** Takes out what lies between the in and the out point. */
export const cutMarked: EditCommand = (session) => {
  const wanted = markedRange(session);
  if (!wanted) return refuse('set an in and an out point around what is to go');
  const kept = without(session.view.kept, [wanted]);
  if (sameFrames(kept, session.view.kept, session.view.labels)) return refuse('this is cut out already');
  return editKept({ ...session, marks: {} }, kept, `cut ${lengthText(wanted)} out at ${printClockTime(wanted.start)}`);
};

/** Puts back what lies between the points or, without points, the cut the playhead is in: its two sides join. */
export const keepAgain: EditCommand = (session) => {
  const { view, playhead } = session;
  if (view.length === 0) return refuse(NO_LENGTH);
  const cut = toProgramme(view.kept, playhead).cut;
  const there = cut && { start: cut.start, end: ticks<'recording'>(Math.min(cut.end, view.length)) };
  const wanted = markedRange(session) ?? there;
  if (!wanted) return refuse('the playhead is not in a cut, and no in and out points are set');
  const kept = putBack(view.kept, wanted);
  if (sameFrames(kept, view.kept, view.labels)) return refuse('this is kept already');
  return editKept({ ...session, marks: {} }, kept, `put ${lengthText(wanted)} back at ${printClockTime(wanted.start)}`);
};

/** Takes out what comes before the playhead, back to the nearest edge: the head of the piece it is in. */
export const cutHead: EditCommand = (session) => trimPiece(session, 'head');
/** Takes out what comes from the playhead on, up to the next edge: the tail of the piece it is in. */
export const cutTail: EditCommand = (session) => trimPiece(session, 'tail');

function trimPiece(session: Session, end: 'head' | 'tail'): Outcome {
  const at = onFrame(session.playhead, session.view.labels);
  const piece = session.view.kept.find((kept) => kept.start <= at && at < kept.end);
  if (!piece) return refuse('the playhead is in a cut');
  const wanted = end === 'head' ? { start: piece.start, end: at } : { start: at, end: piece.end };
  if (wanted.start >= wanted.end) return refuse('the playhead stands at this edge already');
  return editKept(
    session,
    without(session.view.kept, [wanted]),
    `cut ${lengthText(wanted)} off the ${end} at ${printClockTime(at)}`,
  );
}

function moveEdge(session: Session, edge: Edge, to: Moment): Outcome {
  const { view } = session;
  const room = roomOf(view.kept, edge, view.length, view.labels);
  const at = pointAt(Math.min(Math.max(to, room.start), room.end), view);
  if (at === edge.at) return refuse('the edge can go no further');
  const name = edge.point === 'in' ? 'in point' : 'out point';
  return editKept(
    { ...session, playhead: goTo(session, at).playhead },
    withEdge(view.kept, edge, at),
    `moved the ${name} from ${printClockTime(edge.at)} to ${printClockTime(at)}`,
  );
}

/** Moves the edge nearest to the playhead by whole frames; the playhead goes with it. */
export const nudgeEdge =
  (count: number): EditCommand =>
  (session) => {
    const edge = nearestEdge(session.view.kept, session.playhead);
    if (!edge) return refuse('there is no edge');
    return moveEdge(session, edge, session.view.labels.grid.step(edge.at, count));
  };

/** Moves the nearest edge to the next silence, scene change or key frame, as snapping is set. */
export const edgeToLandmark =
  (way: 1 | -1): EditCommand =>
  (session) => {
    const edge = nearestEdge(session.view.kept, session.playhead);
    if (!edge) return refuse('there is no edge');
    const row = inOrder(session.snapTo.flatMap((kind) => landmarksOf(session)[kind]));
    const next = neighbour(row, edge.at, way);
    return next === undefined ? refuse('nothing to snap to this way') : moveEdge(session, edge, next);
  };

/** Brings the nearest edge to the playhead. */
export const edgeToPlayhead: EditCommand = (session) => {
  const edge = nearestEdge(session.view.kept, session.playhead);
  return edge ? moveEdge(session, edge, session.playhead) : refuse('there is no edge');
};

/** Moves one given edge, as a hand drags it: `entry point ticks`. */
export const dragEdge: EditCommand = (session, words = '') => {
  const [entry, point, to] = words.split(' ');
  const edge = edgesOf(session.view.kept).find((e) => e.entry === Number(entry) && e.point === point);
  return edge ? moveEdge(session, edge, ticks(Math.round(Number(to)))) : refuse('that edge is gone');
};
