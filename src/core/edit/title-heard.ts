import { TICKS_PER_SECOND } from '../time/index.ts';
import { captionsOf } from './captions.ts';
import type { Session } from './session.ts';
import { titleFromSpeech } from './step-title.ts';

/** Words that begin later than this belong to something else, s. */
const SOON = 8;
/** A caption that ends within this is over, s: captions stay a little after their last word. */
const OVER = 0.5;

/** A title made of what is said at the playhead, or soon after it; empty where nothing is. */
export function titleHeard(session: Session): string {
  const { playhead } = session;
  const said = captionsOf(session)
    .filter(({ at }) => at.end > playhead + OVER * TICKS_PER_SECOND && at.start < playhead + SOON * TICKS_PER_SECOND)
    .toSorted((a, b) => a.at.start - b.at.start)
    .map(({ text }) =>
      text
        .replaceAll(/\[[^\]]*\]/g, ' ')
        .replaceAll(/\s+/g, ' ')
        .trim(),
    );
  return titleFromSpeech(said.join(' ')) ?? '';
}
