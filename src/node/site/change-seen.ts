/** One save may be told as several changes, which come within so long, ms. */
const ONE_SAVE = 50;
/** Who sets thirty cues in a row saves thirty times: those that follow the first are one, when it has been quiet so long, ms. */
const QUIET = 700;

/**
 * Does something once content has changed. It may take a while, and nothing else is done then: a change that comes by
 * itself is answered at once, of many in a row the first, and the others together.
 */
export class ChangeSeen {
  readonly #work: () => void;
  #wait: { readonly timer: NodeJS.Timeout; readonly quiet: number } | undefined;
  #done = Number.NEGATIVE_INFINITY;

  constructor(work: () => void) {
    this.#work = work;
  }

  seen(): void {
    const quiet = this.#wait?.quiet ?? (performance.now() - this.#done >= QUIET ? ONE_SAVE : QUIET);
    this.end();
    const timer = setTimeout(() => {
      this.#wait = undefined;
      this.#done = performance.now();
      this.#work();
    }, quiet);
    this.#wait = { timer, quiet };
  }

  end(): void {
    clearTimeout(this.#wait?.timer);
    this.#wait = undefined;
  }
}
