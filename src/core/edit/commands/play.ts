import { onFrame } from '../moments.ts';
import { joinNear, programmeStep, toKept } from '../programme-view.ts';
import { releaseTransport, type Session } from '../session.ts';
import { nextShuttleSpeed, nextSlowSpeed, speedText } from '../shuttle.ts';
import { type EditCommand, move, refuse } from './outcome.ts';
import { readFaster, readOn } from './reading.ts';

const AUDITION_SECONDS = 2;

function at(session: Session, speed: number): Session {
  return { ...session, transport: { ...releaseTransport(session.transport), speed } };
}

/** Stops where it plays, on a whole frame; plays at real time where it stands. */
export const playOrStop: EditCommand = (session) => {
  if (session.transport.speed !== 0) return stop(session);
  if (session.reading !== undefined) return readOn(session);
  const start = session.transport.programme ? toKept(session) : session;
  return move(at(start, 1), speedText(1));
};

export const stop: EditCommand = (session) => {
  const still = at(session, 0);
  return move({ ...still, playhead: onFrame(session.playhead, session.view.labels) }, speedText(0));
};

export const faster: EditCommand = (session) => {
  if (session.reading !== undefined) return readFaster(session);
  const speed = nextShuttleSpeed(session.transport.speed, 1);
  return move(at(session, speed), speedText(speed));
};

export const backwards: EditCommand = (session) => {
  const speed = nextShuttleSpeed(session.transport.speed, -1);
  return move(at(session, speed), speedText(speed));
};

/** Slow, and slower with each press. */
export const slow =
  (way: 1 | -1): EditCommand =>
  (session) => {
    const speed = nextSlowSpeed(session.transport.speed, way);
    return move(at(session, speed), speedText(speed));
  };

/** Plays without what is cut; while it plays, leaves out what is cut or plays the recording through. */
export const playAsProgramme: EditCommand = (session) => {
  const transport = releaseTransport(session.transport);
  if (transport.speed === 0) {
    const playing = { ...session, transport: { ...transport, programme: true, speed: 1 } };
    return move(toKept(playing), 'plays edited');
  }
  const programme = !transport.programme;
  const next = { ...session, transport: { ...transport, programme } };
  return move(programme ? toKept(next) : next, programme ? 'plays edited' : 'plays the whole recording');
};

/** Plays two seconds of the programme to either side of the nearest join. */
export const audition: EditCommand = (session) => {
  const join = joinNear(session, session.playhead);
  if (!join) return refuse('there is no join to hear: nothing is cut out yet');
  const start = programmeStep(session, join.start, -AUDITION_SECONDS);
  const until = programmeStep(session, join.end, AUDITION_SECONDS);
  return move(
    {
      ...session,
      playhead: start,
      transport: { speed: 1, programme: true, until, after: releaseTransport(session.transport).programme },
    },
    'playing two seconds either side of the join',
  );
};
