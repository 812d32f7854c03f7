/** Ends everything a page part has started: listeners, timers, observers. */
export class Scope {
  readonly #ending = new AbortController();

  /** Aborted when the scope ends; hand it to `addEventListener` and `fetch`. */
  get signal(): AbortSignal {
    return this.#ending.signal;
  }

  listen<K extends keyof HTMLElementEventMap>(
    target: EventTarget,
    type: K | (string & {}),
    handler: (event: Event) => void,
  ): void {
    target.addEventListener(type, handler, { signal: this.signal });
  }

  /** Runs `undo` when the scope ends. */
  onEnd(undo: () => void): void {
    this.signal.addEventListener('abort', undo, { once: true });
  }

  end(): void {
    this.#ending.abort();
  }
}
