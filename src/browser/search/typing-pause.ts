/** Who typed a letter so shortly before, ms, is likely to type one more. */
const HURRIED = 150;
const PAUSE = 40;

/**
 * How long a letter is held before it is searched for, ms: letters that come at once are one search, one that comes by
 * itself is answered at once.
 *
 * @param since ms from the letter before it
 */
export function pauseAfter(since: number): number {
  return since < HURRIED ? PAUSE : 0;
}
