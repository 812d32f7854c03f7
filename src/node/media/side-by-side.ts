/**
 * Does several things at once. When one fails the others are stopped, and have ended when this throws.
 *
 * @param works each gets a signal that stops it
 * @throws the signal's reason, or else the first failure
 */
export async function sideBySide(
  outer: AbortSignal,
  works: readonly ((signal: AbortSignal) => Promise<unknown>)[],
): Promise<void> {
  const failing = new AbortController();
  const signal = AbortSignal.any([outer, failing.signal]);
  await Promise.allSettled(
    works.map(async (work) => {
      try {
        await work(signal);
      } catch (error) {
        failing.abort(error);
      }
    }),
  );
  outer.throwIfAborted();
  failing.signal.throwIfAborted();
}
