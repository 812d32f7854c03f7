import { intersect, lengthOf, range, TICKS_PER_SECOND, ticks } from '../time/index.ts';
import { onFrame } from './moments.ts';
import type { Decision, Session, Suggestion } from './session.ts';

/** A step that begins this near to a cue, or to where one was proposed and answered, is that one, ticks. */
const SAME_START = 2 * TICKS_PER_SECOND;
/** Of a cut that was answered, this share makes another one the same. */
const SAME_CUT = 0.5;

/**
 * Proposals that still stand: not answered yet; a cut of which something is kept, counted in whole frames as cuts are
 * made; a step that begins in what is kept, where no cue lies yet.
 */
export function openSuggestions(session: Session): Suggestion[] {
  return session.suggestions.filter((one) => !isAnswered(session, one) && !isDone(session, one));
}

/** What is kept of a proposal once it was answered. */
export function decisionOf({ range, title }: Suggestion, { desk }: Session): Decision {
  const { start, end } = range;
  return title === undefined ? { kind: 'cut', start, end } : { kind: 'step', start, end, lesson: desk.lessonFile };
}

function isAnswered(session: Session, one: Suggestion): boolean {
  const own = decisionOf(one, session);
  return session.content.decided.some(({ kind, start, end, lesson }) => {
    if (kind !== own.kind) return false;
    if (kind === 'step') return lesson === own.lesson && Math.abs(start - own.start) <= SAME_START;
    const common = intersect(one.range, range(ticks<'recording'>(start), ticks<'recording'>(end)));
    return common !== undefined && lengthOf(common) > SAME_CUT * (own.end - own.start);
  });
}

function isDone({ view }: Session, { range, title }: Suggestion): boolean {
  const [start, end] = [onFrame(range.start, view.labels), onFrame(range.end, view.labels)];
  if (title === undefined) return !view.kept.some((kept) => kept.start < end && start < kept.end);
  const shown = view.kept.some((kept) => kept.start <= start && start < kept.end);
  return !shown || view.passages.some(({ cue }) => cue && Math.abs(cue.at - start) <= SAME_START);
}
