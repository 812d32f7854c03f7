import { onFrame } from '../moments.ts';
import { joinNear, programmeStep, toKept } from '../programme-view.ts';
import { released, type Session } from '../session.ts';
import { shuttled, slowed, speedText } from '../shuttle.ts';
import { type EditCommand, moved, refuse } from './outcome.ts';

const AUDITION_SECONDS = 2;

function at(session: Session, speed: number): Session {
  return { ...session, transport: { ...released(session.transport), speed } };
}

/** Stops where it plays, on a whole frame; plays at real time where it stands. */
export const playOrStop: EditCommand = (session) => {
  if (session.transport.speed !== 0) return stop(session);
  const start = session.transport.programme ? toKept(session) : session;
  return moved(at(start, 1), speedText(1));
};

export const stop: EditCommand = (session) => {
  const still = at(session, 0);
  return moved({ ...still, playhead: onFrame(session.playhead, session.view.labels) }, speedText(0));
};

export const faster: EditCommand = (session) => {
  const speed = shuttled(session.transport.speed, 1);
  return moved(at(session, speed), speedText(speed));
};

export const backwards: EditCommand = (session) => {
  const speed = shuttled(session.transport.speed, -1);
  return moved(at(session, speed), speedText(speed));
};

/** Slow, and slower with each press. */
export const slow =
  (way: 1 | -1): EditCommand =>
  (session) => {
    const speed = slowed(session.transport.speed, way);
    return moved(at(session, speed), speedText(speed));
  };

/** Leaves out what is cut while playing, or plays the recording through. */
export const playAsProgramme: EditCommand = (session) => {
  const transport = released(session.transport);
  const programme = !transport.programme;
  const next = { ...session, transport: { ...transport, programme } };
  return moved(programme ? toKept(next) : next, programme ? 'plays as programme' : 'plays the whole recording');
};

/** Plays two seconds of the programme to either side of the nearest join. */
export const audition: EditCommand = (session) => {
  const join = joinNear(session, session.playhead);
  if (!join) return refuse('there is no join to hear: nothing is cut out yet');
  const start = programmeStep(session, join.start, -AUDITION_SECONDS);
  const until = programmeStep(session, join.end, AUDITION_SECONDS);
  return moved(
    {
      ...session,
      playhead: start,
      transport: { speed: 1, programme: true, until, after: released(session.transport).programme },
    },
    'playing two seconds either side of the join',
  );
};
