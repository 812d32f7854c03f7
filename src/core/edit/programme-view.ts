import { type EditList, fromSeconds, type Range, type Ticks, ticks, toProgramme, toRecording } from '../time/index.ts';
import type { Kept } from './kept.ts';
import { onFrame } from './moments.ts';
import type { Session } from './session.ts';

type Moment = Ticks<'recording'>;

/** The kept ranges alone; angles that meet stay apart. */
export function editOf(kept: readonly Kept[]): EditList {
  return kept.map((entry) => ({ start: entry.in.at, end: entry.out.at }));
}

/** What lies between two entries that do not meet, in order. */
export function joinsOf(kept: readonly Kept[]): Range<'recording'>[] {
  return kept.flatMap((entry, i) => {
    const next = kept[i + 1];
    return next && entry.out.at < next.in.at ? [{ start: entry.out.at, end: next.in.at }] : [];
  });
}

/** Everything that is left out, before the first entry and after the last one too. */
export function cutsOf(kept: readonly Kept[], length: Moment): Range<'recording'>[] {
  const zero = ticks<'recording'>(0);
  const first = kept[0]?.in.at ?? length;
  const last = kept.at(-1)?.out.at ?? length;
  return [
    ...(first > zero ? [{ start: zero, end: first }] : []),
    ...joinsOf(kept),
    ...(last < length ? [{ start: last, end: length }] : []),
  ];
}

/** The cut between two kept ranges that is nearest to a moment. */
export function joinNear({ view }: Session, to: Moment): Range<'recording'> | undefined {
  const away = ({ start, end }: Range<'recording'>) => (to < start ? start - to : to > end ? to - end : 0);
  return joinsOf(view.kept).toSorted((a, b) => away(a) - away(b))[0];
}

/**
 * A moment so many seconds of the programme away.
 *
 * @param seconds of programme time; negative for earlier
 */
export function programmeStep({ view }: Session, from: Moment, seconds: number): Moment {
  const edit = editOf(view.kept);
  const at = toProgramme(edit, from).at + fromSeconds<'programme'>(seconds);
  const moment = toRecording(edit, ticks(Math.max(0, at)), seconds < 0 ? 'after' : 'before');
  return onFrame(moment, view.labels);
}

/** The session with its playhead out of a cut: at the next frame kept, or at the first when none comes. */
export function toKept(session: Session): Session {
  const { kept } = session.view;
  const { cut } = toProgramme(editOf(kept), session.playhead);
  if (!cut) return session;
  const next = kept.find((entry) => entry.in.at >= session.playhead) ?? kept[0];
  return next ? { ...session, playhead: next.in.at } : session;
}

/** Where the playhead goes on when the programme is played: over a cut to the next frame kept; nothing at the end. */
export function overCut(kept: readonly Kept[], playhead: Moment, way: 1 | -1): Moment | undefined {
  const { cut } = toProgramme(editOf(kept), playhead);
  if (!cut) return playhead;
  if (way === 1) return kept.find((entry) => entry.in.at >= playhead)?.in.at;
  const before = kept.findLast((entry) => entry.out.at <= playhead);
  return before ? ticks(before.out.at - 1) : undefined;
}

/** The chapter or step that is on at a moment: the last one whose cue has come and, where it says so, has not ended. */
export function playingAt({ view }: Session, moment: Moment) {
  return view.passages
    .filter(({ cue }) => cue && cue.at <= moment + 1 && (cue.until === undefined || moment < cue.until))
    .toSorted((a, b) => (a.cue?.at ?? 0) - (b.cue?.at ?? 0) || rank(a.kind) - rank(b.kind))
    .at(-1);
}

function rank(kind: 'chapter' | 'step'): number {
  return kind === 'chapter' ? 0 : 1;
}
