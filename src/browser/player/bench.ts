import type { Scope } from '../page/scope.ts';

/** Keeps the screen awake while it is on, where the browser can; asks again when the page comes back to the front. */
export class StayAwake {
  #lock: WakeLockSentinel | undefined;
  #wanted = false;

  constructor(scope: Scope) {
    scope.listen(document, 'visibilitychange', () => {
      if (this.#wanted && document.visibilityState === 'visible') this.#take();
    });
    scope.onEnd(() => this.set(false));
  }

  set(wanted: boolean): void {
    this.#wanted = wanted;
    if (wanted) this.#take();
    else {
      this.#lock?.release().catch(() => {});
      this.#lock = undefined;
    }
  }

  async #take(): Promise<void> {
    // Absent outside a secure context; refused on an empty battery. The screen then sleeps as it always does.
    const lock = await navigator.wakeLock?.request('screen').catch(() => undefined);
    if (this.#wanted) this.#lock = lock;
    else lock?.release().catch(() => {});
  }
}

/** Reads a step's card aloud with the browser's own voice. */
export class ReadAloud {
  readonly available = 'speechSynthesis' in window;
  on = false;

  /** Says the title, the warnings and the values; whatever was being said stops. */
  say(card: HTMLElement | null): void {
    this.stop();
    if (!this.available || !card) return;
    const words = new SpeechSynthesisUtterance(spokenText(card));
    words.lang = document.documentElement.lang;
    // A voice of the device speaks without a network, and sends nothing.
    const [language] = words.lang.split('-');
    words.voice =
      speechSynthesis.getVoices().find(({ lang, localService }) => localService && lang.split('-')[0] === language) ??
      null;
    speechSynthesis.speak(words);
  }

  stop(): void {
    if (this.available) speechSynthesis.cancel();
  }
}

/** A card as a person would read it out: what is hidden from this viewer, and sources, are left out. */
export function spokenText(card: HTMLElement): string {
  const parts: string[] = [];
  const walk = (node: Node): void => {
    if (node instanceof Text) parts.push(node.data);
    else if (node instanceof HTMLElement) {
      if (node.hidden || node.matches('.spec-note, .balloon, [aria-hidden=true]')) return;
      node.childNodes.forEach(walk);
      if (node.matches('h2, p, dt, dd, li')) parts.push('. ');
    }
  };
  walk(card);
  return parts
    .join('')
    .replaceAll(/\s+/g, ' ')
    .replaceAll(/\s*\.(?:\s*\.)+/g, '.')
    .trim();
}
