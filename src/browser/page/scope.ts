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
    options: AddEventListenerOptions = {},
  ): void {
    target.addEventListener(type, handler, { ...options, signal: this.signal });
  }

  /** Runs `work` once after `ms` milliseconds, unless the scope has ended or the returned function was called. */
  after(ms: number, work: () => void): () => void {
    if (this.signal.aborted) return () => {};
    const stop = () => clearTimeout(timer);
    const timer = setTimeout(() => {
      this.signal.removeEventListener('abort', stop);
      work();
    }, ms);
    this.signal.addEventListener('abort', stop, { once: true });
    return stop;
  }

  /** Runs `undo` when the scope ends. */
  onEnd(undo: () => void): void {
    if (this.signal.aborted) undo();
    else this.signal.addEventListener('abort', undo, { once: true });
  }

  end(): void {
    this.#ending.abort();
  }
}
