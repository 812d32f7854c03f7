import type { Caption } from '../../model/index.ts';
import { printClockTime, TICKS_PER_SECOND, ticks } from '../../time/index.ts';
import { correctWords, isUnread, markRead } from '../../words/index.ts';
import { applySplices, type Splice } from '../../write/index.ts';
import { captionsOf, captionText, unreadOf } from '../captions.ts';
import { onFrame } from '../moments.ts';
import { releaseTransport, type Session } from '../session.ts';
import { speedText } from '../shuttle.ts';
import { clearMarks } from './cut.ts';
import { change, type EditCommand, move, type Outcome, refuse } from './outcome.ts';

/** Speeds at which speech can be followed, times real time (common practice, no source). */
export const READING_SPEEDS: readonly number[] = [1, 1.5, 2, 2.5, 3];
/** So much before and behind a caption is heard too, so that no word is clipped, s. */
const LEAD = 0.2;

const ALL_READ = 'every caption is read';

/** The caption that is on in the reading pass; nothing outside of it, or where it is gone. */
export function captionBeingRead(session: Session): Caption | undefined {
  const { reading } = session;
  return reading === undefined ? undefined : captionsOf(session).find(({ at }) => at.start === reading);
}

/** Begins the reading pass at the next caption that nobody has read; in it, accepts the one heard and goes on. */
export const readCaption: EditCommand = (session) => {
  const here = captionBeingRead(session);
  if (!here) return toNext(session, session.reading ?? session.playhead);
  // What was corrected or undone meanwhile is as its file says.
  return isUnread(here) ? onwards(written(session, here, markRead, 'read')) : toNext(session, here.at.end);
};

/** Plays the caption of the reading pass again, in real time. */
export const hearAgain: EditCommand = (session) => {
  const here = captionBeingRead(session);
  return here ? playing(session, here, 1) : refuse('no reading pass is on; U begins it');
};

/**
 * Writes other words into the caption of the reading pass, which is read with that.
 *
 * @param goOn to the next caption, or to stay with this one
 */
export const correctCaption =
  (goOn: boolean): EditCommand =>
  (session, words = '') => {
    const here = captionBeingRead(session);
    if (!here) return refuse('no reading pass is on; U begins it');
    const said = words.trim();
    const label = said === here.text.trim() ? 'read' : said === '' ? 'took out' : 'corrected';
    const outcome = written(session, here, (text, caption) => correctWords(text, caption, words), label);
    return goOn ? onwards(outcome) : outcome;
  };

/** In the reading pass: plays the rest of its caption, or all of it again. */
export const readOn: EditCommand = (session) => {
  const here = captionBeingRead(session);
  if (!here) return readCaption({ ...session, reading: undefined });
  const rest = here.at.start <= session.playhead && session.playhead < here.at.end;
  return playing(session, here, session.readingSpeed, rest ? session.playhead : undefined);
};

/** In the reading pass: the next speed that can still be followed. */
export const readFaster: EditCommand = (session) => {
  const next = READING_SPEEDS.find((speed) => speed > session.readingSpeed) ?? session.readingSpeed;
  return readingSpeed(session, String(next));
};

/** How fast the reading pass plays, from now on. */
export const readingSpeed: EditCommand = (session, words = '') => {
  const speed = READING_SPEEDS.find((each) => each === Number(words));
  if (speed === undefined) return refuse(`the reading pass plays at ${READING_SPEEDS.join(', ')} times real time`);
  const running = session.transport.speed > 0;
  const transport = running ? { ...session.transport, speed } : session.transport;
  return move({ ...session, readingSpeed: speed, transport }, speedText(speed));
};

/** Ends the reading pass; what was accepted is. */
const leaveReading: EditCommand = (session) => {
  const left = unreadOf(session).length;
  return move(
    { ...session, reading: undefined, transport: { ...releaseTransport(session.transport), speed: 0 } },
    left === 0 ? ALL_READ : `left the reading pass; ${left} to read`,
  );
};

/** Leaves the reading pass; outside of it, clears the in and out points. */
export const leave: EditCommand = (session) =>
  session.reading === undefined ? clearMarks(session) : leaveReading(session);

function written(
  session: Session,
  caption: Caption,
  splices: (text: string, caption: Caption) => Splice[],
  did: string,
): Outcome {
  const source = captionText(session);
  if (!source || !session.content.texts.has(source.file))
    return refuse(`${source?.file ?? 'the caption file'} is no UTF-8 text, so it is not changed here`);
  const text = applySplices(source.text, splices(source.text, caption));
  const texts = new Map(session.content.texts).set(source.file, text);
  return change(session, { texts }, `${did} the caption at ${printClockTime(caption.at.start)}`, session.view);
}

function onwards(outcome: Outcome): Outcome {
  if ('refused' in outcome) return outcome;
  const next = toNext(outcome.session, (outcome.session.reading ?? outcome.session.playhead) + 1);
  // Where nothing is left the pass has ended; what was done was done all the same.
  return 'refused' in next ? outcome : { ...outcome, session: next.session, says: next.says ?? '' };
}

/** To the first unread caption that is not over at a moment, else around to the first of all. */
function toNext(session: Session, from: number): Outcome {
  const unread = unreadOf(session);
  const next = unread.find(({ at }) => at.end > from) ?? unread[0];
  if (next) return playing(session, next, session.readingSpeed);
  if (session.reading === undefined)
    return refuse(captionsOf(session).length === 0 ? 'the recording has no captions' : ALL_READ);
  return leaveReading(session);
}

function playing(session: Session, caption: Caption, speed: number, from?: number): Outcome {
  const { labels, length } = session.view;
  const lead = LEAD * TICKS_PER_SECOND;
  const { programme } = releaseTransport(session.transport);
  const left = unreadOf(session).length;
  return move(
    {
      ...session,
      reading: caption.at.start,
      playhead: onFrame(from ?? caption.at.start - lead, labels),
      transport: {
        speed,
        programme: false,
        until: ticks(Math.min(caption.at.end + lead, Math.max(0, length - 1))),
        after: programme,
      },
    },
    `${left} to read`,
  );
}
