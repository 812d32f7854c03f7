import { type ContentChange, changeBetween, ownCopy, withChange, withoutChange } from './content-change.ts';
import type { Content } from './session.ts';

/** One thing that was done, named by its meaning: "moved cue of “Crack the axle nut”". */
interface Entry {
  readonly change: ContentChange;
  readonly label: string;
  /** Entries in a row with the same key become one, as typing does. */
  readonly join?: string;
}

/** Everything that was done and undone, without limit. A value: doing and undoing give a new one. */
export interface History {
  readonly now: Content;
  readonly past: readonly Entry[];
  readonly future: readonly Entry[];
}

export function begin(now: Content): History {
  return { now, past: [], future: [] };
}

/**
 * @param label what was done, past tense, small letter, no full stop
 * @param join entries in a row with the same key are undone together
 */
export function addEntry({ now, past, future }: History, after: Content, label: string, join?: string): History {
  const last = past.at(-1);
  const joined = last !== undefined && join !== undefined && last.join === join && future.length === 0;
  const entry: Entry = {
    change: changeBetween(joined ? withoutChange(last.change, now) : now, after),
    label: ownCopy(label),
    ...(join === undefined ? {} : { join }),
  };
  return { now: after, past: [...(joined ? past.slice(0, -1) : past), entry], future: [] };
}

/** Replaces what is now without making an entry: moving about is not a change, so the texts are the same. */
export function replaceNow(history: History, now: Content): History {
  return { ...history, now };
}

/** The next row of typing starts an entry of its own. */
export function closeEntry(history: History): History {
  const last = history.past.at(-1);
  if (last?.join === undefined) return history;
  const { join: _, ...closed } = last;
  return { ...history, past: [...history.past.slice(0, -1), closed] };
}

/** What an undo or a redo would do, and the history after it; nothing where there is nothing to do. */
export interface Stepped {
  readonly history: History;
  readonly label: string;
}

export function undo({ now, past, future }: History): Stepped | undefined {
  const last = past.at(-1);
  if (!last) return undefined;
  return {
    history: { now: withoutChange(last.change, now), past: past.slice(0, -1), future: [last, ...future] },
    label: last.label,
  };
}

export function redo({ now, past, future }: History): Stepped | undefined {
  const [next, ...rest] = future;
  if (!next) return undefined;
  return { history: { now: withChange(next.change, now), past: [...past, next], future: rest }, label: next.label };
}

/** A history whose every state took in a change from outside; `lost` counts the entries that could not. */
export interface Rebased {
  readonly history: History;
  readonly lost: number;
}

/**
 * Takes a change from outside into every state, so that undoing does not undo what somebody else wrote.
 *
 * @param change a state with the outside change in it; nothing where the two do not go together. From there
 *   outwards the entries are let go, because they cannot be undone without writing over somebody's work.
 */
export function rebase(history: History, now: Content, change: (state: Content) => Content | undefined): Rebased {
  const past: Entry[] = [];
  let [mine, after] = [history.now, now];
  for (const entry of history.past.toReversed()) {
    mine = withoutChange(entry.change, mine);
    const before = change(mine);
    if (before === undefined) break;
    past.unshift({ ...entry, change: changeBetween(before, after) });
    after = before;
  }
  const future: Entry[] = [];
  let before = now;
  mine = history.now;
  for (const entry of history.future) {
    mine = withChange(entry.change, mine);
    const next = change(mine);
    if (next === undefined) break;
    future.push({ ...entry, change: changeBetween(before, next) });
    before = next;
  }
  const lost = history.past.length - past.length + history.future.length - future.length;
  return { history: { now, past, future }, lost };
}
