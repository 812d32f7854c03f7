import type { KeyAction } from './keys.ts';

const ACTIONS: readonly (readonly [MediaSessionAction, KeyAction])[] = [
  ['play', 'toggle'],
  ['pause', 'toggle'],
  ['previoustrack', 'previous'],
  ['nexttrack', 'next'],
  ['seekbackward', 'back'],
  ['seekforward', 'on'],
];

/** Lets the keys of a keyboard, a headset or a lock screen move by steps. Does nothing where a browser has none. */
export function bindMediaKeys(act: (action: KeyAction) => void): void {
  if (!('mediaSession' in navigator)) return;
  for (const [name, action] of ACTIONS)
    try {
      navigator.mediaSession.setActionHandler(name, () => act(action));
    } catch {
      // A browser may not know every action.
    }
}

/** What a lock screen shows. */
export function nameWhatPlays(step: string, lesson: string): void {
  if ('mediaSession' in navigator) navigator.mediaSession.metadata = new MediaMetadata({ title: step, album: lesson });
}
