import { printClockTime, printSignedTime, type Range, showBy, type Ticks } from '../../time/index.ts';
import { setYaml } from '../../write/index.ts';
import { sameFrames } from '../entries.ts';
import { onFrame } from '../moments.ts';
import { type Session, viewOf } from '../session.ts';
import { editKept, markedRange } from './cut.ts';
import { change, type EditCommand, refuse } from './outcome.ts';

type Moment = Ticks<'recording'>;

/** Further cameras of the recording, by id; files of one camera share it. A sound recorder has no picture to show. */
export function anglesOf({ view }: Session): string[] {
  const cameras = view.recording?.angles.filter(({ facts }) => facts.state !== 'media' || facts.media.width) ?? [];
  return [...new Set(cameras.map(({ id }) => id))];
}

/** True where further cameras or recorders are named, whose places can be found. */
export function anglesToAlign({ view }: Session): boolean {
  return (view.recording?.angles.length ?? 0) > 0;
}

/** What the angle keys act on: what lies between the points or, without points, the kept range under the playhead. */
export function angleRange(session: Session): Range<'recording'> | undefined {
  const { view, playhead } = session;
  const here = view.kept.find((kept) => kept.start <= playhead && playhead < kept.end);
  return markedRange(session) ?? (here && { start: here.start, end: here.end });
}

/** The angle that is shown at the playhead; nothing for the camera files themselves. */
export function angleAt({ view }: Session, at: Moment): string | undefined {
  return view.kept.find((kept) => kept.start <= at && at < kept.end)?.angle;
}

/** Shows a kept range by another camera: the angle of that id, the camera files for an empty one, or the next angle. */
export const switchAngle: EditCommand = (session, words) => {
  const angles = anglesOf(session);
  if (angles.length === 0)
    return refuse('the recording has one camera only; further ones are listed in its file, under angles');
  const wanted = angleRange(session);
  if (!wanted) return refuse('the playhead is in a cut; go to what is kept, or set an in and an out point');
  const row = [undefined, ...angles];
  const from = onFrame(session.playhead, session.view.labels);
  const next = words === undefined ? row[(row.indexOf(angleAt(session, from)) + 1) % row.length] : words || undefined;
  if (!row.includes(next)) return refuse(`there is no camera ${next ?? ''}; there are ${angles.join(', ')}`);
  const kept = showBy(session.view.kept, wanted, next);
  if (sameFrames(kept, session.view.kept, session.view.labels)) return refuse('this is shown by that camera already');
  const label = next === undefined ? 'showed the main camera' : `showed the angle “${next}”`;
  return editKept({ ...session, marks: {} }, kept, `${label} from ${printClockTime(wanted.start)}`);
};

/**
 * Writes where a file of a further camera or recorder begins.
 *
 * @param index its place among the recording's angles
 * @param at of its first frame, or first sample; negative before the recording
 */
export const placeAngle =
  (index: number, at: Moment): EditCommand =>
  (session) => {
    const { desk, content, view } = session;
    const angle = view.recording?.angles[index];
    const before = content.texts.get(desk.recordingFile);
    if (!angle || before === undefined) return refuse('the recording file cannot be read; mend it first');
    const clock = printSignedTime(at);
    const after = setYaml(before, ['angles', index, 'offset'], clock);
    if (!after.ok) return refuse(`${after.problem}; ${after.help}`);
    const texts = new Map(content.texts).set(desk.recordingFile, after.value);
    const read = viewOf(desk, texts);
    if (read.recording?.angles[index]?.offset !== at)
      return refuse('the place could not be written safely; its layout is unusual, so write it by hand');
    return change(session, { texts }, `placed “${angle.id}” at ${clock}`, read);
  };
