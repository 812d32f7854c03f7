import { type EditList, fromSeconds, type Range, type Ticks, ticks, toProgramme, toRecording } from '../time/index.ts';
import { onFrame } from './moments.ts';
import type { Session } from './session.ts';

type Moment = Ticks<'recording'>;

/** What lies between two entries that do not meet, in order. */
export function joinsOf(kept: EditList): Range<'recording'>[] {
  return kept.flatMap((entry, i) => {
    const next = kept[i + 1];
    return next && entry.end < next.start ? [{ start: entry.end, end: next.start }] : [];
  });
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
  const at = toProgramme(view.kept, from).at + fromSeconds<'programme'>(seconds);
  const moment = toRecording(view.kept, ticks(Math.max(0, at)), seconds < 0 ? 'after' : 'before');
  return onFrame(moment, view.labels);
}

/** The session with its playhead out of a cut: at the next frame kept, or at the first when none comes. */
export function toKept(session: Session): Session {
  const { kept } = session.view;
  const { cut } = toProgramme(kept, session.playhead);
  if (!cut) return session;
  const next = kept.find((entry) => entry.start >= session.playhead) ?? kept[0];
  return next ? { ...session, playhead: next.start } : session;
}

/** Where the playhead goes on when the programme is played: over a cut to the next frame kept; nothing at the end. */
export function overCut(kept: EditList, playhead: Moment, way: 1 | -1): Moment | undefined {
  const { cut } = toProgramme(kept, playhead);
  if (!cut) return playhead;
  if (way === 1) return kept.find((entry) => entry.start >= playhead)?.start;
  const before = kept.findLast((entry) => entry.end <= playhead);
  return before ? ticks(before.end - 1) : undefined;
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
