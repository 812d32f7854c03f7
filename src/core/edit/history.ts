import { carriedOver, outsideChange, type Theirs, withTheirs } from './carried-change.ts';
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
 * Takes a change from outside into every state, so that undoing does not undo what somebody else wrote. Where a state
 * clashes with it, the entries from there outwards are let go: they cannot be undone without writing over somebody's work.
 *
 * @param now the state now, with the outside change in it
 */
export function rebase(history: History, now: Content, outside: Theirs): Rebased {
  const past = carried(history.past.toReversed(), true, history.now, now, outside).reverse();
  const future = carried(history.future, false, history.now, now, outside);
  const lost = history.past.length - past.length + history.future.length - future.length;
  return { history: { now, past, future }, lost };
}

/** Entries, from now outwards, that have taken in a change from outside; up to the first that clashes with it. */
function carried(entries: readonly Entry[], back: boolean, own: Content, taken: Content, theirs: Theirs): Entry[] {
  const step = back ? withoutChange : withChange;
  const found: Entry[] = [];
  let [mine, outside] = [own, outsideChange(theirs, own)];
  for (const entry of entries) {
    const over = carriedOver(entry.change, back, mine, outside);
    const next = step(entry.change, mine);
    if (over) found.push({ ...entry, change: over.change });
    else {
      const [here, there] = [mine === own ? taken : withTheirs(theirs, mine), withTheirs(theirs, next)];
      if (!here || !there) break;
      found.push({ ...entry, change: back ? changeBetween(there, here) : changeBetween(here, there) });
    }
    outside = over?.outside ?? outsideChange(theirs, next);
    mine = next;
  }
  return found;
}
