/** One line of the shot list. */
export interface Shot {
  readonly id: string;
  readonly kind: 'chapter' | 'step';
  readonly title: string;
}

/** One tap; it carries its lesson, so that it finds its log whatever the cutting room shows when it arrives. */
export interface Tap {
  readonly id: string;
  readonly lesson: string;
  /** The phone's clock, milliseconds since 1970. */
  readonly at: number;
  readonly kind: 'begin' | 'good' | 'bad' | 'rest' | 'clap' | 'camera';
  readonly step?: string;
  readonly take?: number;
  readonly shows?: string;
}

/** What the phone keeps. */
export interface PhoneState {
  readonly phone?: string;
  readonly lesson?: string;
  readonly title?: string;
  readonly shots: readonly Shot[];
  readonly taps: readonly Tap[];
  /** Ids of taps that the cutting room has not confirmed yet. */
  readonly waiting: readonly string[];
}

const KEY = 'liftside-shoot-log';

/** What an earlier visit kept at this address. */
export function loadKept(storage: Pick<Storage, 'getItem'>): PhoneState {
  try {
    const value: unknown = JSON.parse(storage.getItem(KEY) ?? 'null');
    if (typeof value === 'object' && value !== null && 'taps' in value) {
      const kept = value as PhoneState;
      // Taps of an earlier version belong to the lesson that was shown then.
      return { ...kept, taps: kept.taps.map((tap) => ({ ...tap, lesson: tap.lesson ?? kept.lesson ?? '' })) };
    }
  } catch {
    // Nothing kept, or damaged: the list comes from the cutting room again.
  }
  return { shots: [], taps: [], waiting: [] };
}

/** @returns false where the phone does not keep it: full, or a private window */
export function storeKept(storage: Pick<Storage, 'setItem'>, kept: PhoneState): boolean {
  try {
    storage.setItem(KEY, JSON.stringify(kept));
    return true;
  } catch {
    return false;
  }
}

/** Taps that the cutting room has not confirmed. */
export function waitingTaps({ taps, waiting }: PhoneState): Tap[] {
  return taps.filter(({ id }) => waiting.includes(id));
}

/** With taps from elsewhere, each once; all of them wait to be confirmed. */
export function takenIn(kept: PhoneState, more: readonly Tap[]): PhoneState {
  const known = new Set(kept.taps.map(({ id }) => id));
  const fresh = more.filter(({ id }) => !known.has(id));
  const taps = [...kept.taps, ...fresh].toSorted((a, b) => a.at - b.at);
  return { ...kept, taps, waiting: [...kept.waiting, ...fresh.map(({ id }) => id)] };
}
