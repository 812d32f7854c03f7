/** The clock of the class in this window: what the server said, and how long ago by the clock that nobody can set. */
export interface Ticker {
  /** s from the planned start; nothing before the class has begun. */
  now(): number | undefined;
  /** Takes up what the server says. */
  take(at: number | null): void;
}

/** @param rate how many times as fast as real time, for rehearsals */
export function classTicker(rate = 1): Ticker {
  let known: { readonly at: number; readonly heard: number } | undefined;
  const seconds = () => performance.now() / 1000;
  return {
    now: () => (known ? known.at + (seconds() - known.heard) * rate : undefined),
    take(at) {
      known = at === null ? undefined : { at, heard: seconds() };
    },
  };
}
