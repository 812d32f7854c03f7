import type { Ticks } from '../../time/index.ts';
import { type LandmarkKind, nearestLandmark } from '../landmarks.ts';
import { onFrame } from '../moments.ts';
import { landmarksOf, type Session } from '../session.ts';
import { type EditCommand, move } from './outcome.ts';

type Moment = Ticks<'recording'>;

export const toggleSnapping: EditCommand = (session) =>
  move({ ...session, snapping: !session.snapping }, session.snapping ? 'snapping off' : 'snapping on');

/** What snapping can look for, each with the name it goes by. */
export const SNAP_CHOICES: readonly { readonly kinds: readonly LandmarkKind[]; readonly name: string }[] = [
  { kinds: ['silence', 'scene'], name: 'silences and scene changes' },
  { kinds: ['silence'], name: 'silences' },
  { kinds: ['scene'], name: 'scene changes' },
  { kinds: ['keyframe'], name: 'key frames' },
  { kinds: ['silence', 'scene', 'keyframe'], name: 'silences, scene changes and key frames' },
];

/** Index of what snapping looks for now; -1 while it is off. */
export function snapChoice({ snapping, snapTo }: Session): number {
  return snapping ? SNAP_CHOICES.findIndex(({ kinds }) => kinds.join() === snapTo.join()) : -1;
}

/** Lets snapping look for something else: the choice of that index, or the next one; -1 turns it off. */
export const snapToOther: EditCommand = (session, words) => {
  const index = words ? Number(words) : (snapChoice(session) + 1) % SNAP_CHOICES.length;
  const choice = SNAP_CHOICES[index];
  if (!choice) return move({ ...session, snapping: false }, 'snapping off');
  return move({ ...session, snapping: true, snapTo: choice.kinds }, `snapping to ${choice.name}`);
};

/**
 * Where a dragged edge would come to lie: on a silence, scene change or key frame within reach, otherwise on a frame.
 *
 * @param reach ticks; how far a hand may be off, by the scale of what is seen
 */
export function snap(session: Session, to: Moment, reach: number): Moment {
  const near = session.snapping ? nearestLandmark(landmarksOf(session), session.snapTo, to, reach) : undefined;
  return onFrame(near?.at ?? to, session.view.labels);
}
