/** One thing that was done, named by its meaning: "moved cue of “Crack the axle nut”". */
interface Entry<S> {
  readonly before: S;
  readonly after: S;
  readonly label: string;
  /** Entries in a row with the same key become one, as typing does. */
  readonly join?: string;
}

/** Everything that was done and undone, without limit. A value: doing and undoing give a new one. */
export interface History<S> {
  readonly now: S;
  readonly past: readonly Entry<S>[];
  readonly future: readonly Entry<S>[];
}

export function begin<S>(now: S): History<S> {
  return { now, past: [], future: [] };
}

/**
 * @param label what was done, past tense, small letter, no full stop
 * @param join entries in a row with the same key are undone together
 */
export function addEntry<S>(history: History<S>, after: S, label: string, join?: string): History<S> {
  const last = history.past.at(-1);
  const joined = join !== undefined && last?.join === join && history.future.length === 0;
  const entry: Entry<S> = {
    before: joined ? last.before : history.now,
    after,
    label,
    ...(join === undefined ? {} : { join }),
  };
  return { now: after, past: [...(joined ? history.past.slice(0, -1) : history.past), entry], future: [] };
}

/** Replaces what is now without making an entry: moving about is not a change. */
export function replaceNow<S>(history: History<S>, now: S): History<S> {
  return { ...history, now };
}

/** The next row of typing starts an entry of its own. */
export function closeEntry<S>(history: History<S>): History<S> {
  const last = history.past.at(-1);
  if (last?.join === undefined) return history;
  const { join: _, ...closed } = last;
  return { ...history, past: [...history.past.slice(0, -1), closed] };
}

/** What an undo or a redo would do, and the history after it; nothing where there is nothing to do. */
export interface Stepped<S> {
  readonly history: History<S>;
  readonly label: string;
}

export function undo<S>({ past, future }: History<S>): Stepped<S> | undefined {
  const last = past.at(-1);
  if (!last) return undefined;
  return {
    history: { now: last.before, past: past.slice(0, -1), future: [last, ...future] },
    label: last.label,
  };
}

export function redo<S>({ past, future }: History<S>): Stepped<S> | undefined {
  const [next, ...rest] = future;
  if (!next) return undefined;
  return { history: { now: next.after, past: [...past, next], future: rest }, label: next.label };
}

/** A history whose every state took in a change from outside; `lost` counts the entries that could not. */
export interface Rebased<S> {
  readonly history: History<S>;
  readonly lost: number;
}

/**
 * Takes a change from outside into every state, so that undoing does not undo what somebody else wrote.
 *
 * @param change a state with the outside change in it; nothing where the two do not go together. From there
 *   outwards the entries are let go, because they cannot be undone without writing over somebody's work.
 */
export function rebase<S>(history: History<S>, now: S, change: (state: S) => S | undefined): Rebased<S> {
  const past: Entry<S>[] = [];
  let after = now;
  for (const entry of history.past.toReversed()) {
    const before = change(entry.before);
    if (before === undefined) break;
    past.unshift({ ...entry, before, after });
    after = before;
  }
  const future: Entry<S>[] = [];
  let before = now;
  for (const entry of history.future) {
    const next = change(entry.after);
    if (next === undefined) break;
    future.push({ ...entry, before, after: next });
    before = next;
  }
  const lost = history.past.length - past.length + history.future.length - future.length;
  return { history: { now, past, future }, lost };
}
