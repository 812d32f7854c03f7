/**
 * Does several things at once. When one fails the others are stopped, and have ended when this throws; those that were
 * to begin later do not.
 *
 * @param outer stops all; left out where nobody does
 * @param works each gets a signal that stops it; they begin in this order
 * @param atOnce so many are under way at the same time
 * @throws the signal's reason, or else the first failure
 */
export async function sideBySide(
  outer: AbortSignal | undefined,
  works: readonly ((signal: AbortSignal) => Promise<unknown>)[],
  atOnce = works.length,
): Promise<void> {
  const failing = new AbortController();
  const signal = outer ? AbortSignal.any([outer, failing.signal]) : failing.signal;
  const left = works.values();
  const oneByOne = async () => {
    for (const work of left) {
      if (signal.aborted) return;
      try {
        await work(signal);
      } catch (error) {
        failing.abort(error);
      }
    }
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, works.length) }, oneByOne));
  signal.throwIfAborted();
}
