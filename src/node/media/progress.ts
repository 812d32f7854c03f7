/** Shows how far a long piece of work has come. */
export interface Display {
  /** True when a person watches. */
  readonly terminal: boolean;
  /** A line that the next one replaces on a terminal; elsewhere a line of its own. */
  line(text: string): void;
  /** Milliseconds on a clock that only goes on. */
  now(): number;
}

/** How often a line is shown where nobody watches, ms. */
const SELDOM = 15_000;
const OFTEN = 250;

/** Adds up what is done of what has to be done, in seconds of footage, and tells the time left. */
export class Progress {
  readonly #display: Display;
  #what = '';
  #expected = 0;
  #done = 0;
  #had = 0;
  #began = 0;
  #shown = Number.NEGATIVE_INFINITY;

  constructor(display: Display) {
    this.#display = display;
  }

  /** Begins another part of the work. */
  start(what: string): void {
    this.#what = what;
    this.#expected = 0;
    this.#done = 0;
    this.#had = 0;
    this.#began = this.#display.now();
    this.#shown = this.#display.terminal ? Number.NEGATIVE_INFINITY : this.#began;
  }

  /** Something to do, in seconds of footage. */
  expect(seconds: number): void {
    this.#expected += seconds;
  }

  /** Something that was already there. */
  had(seconds: number): void {
    this.#had += seconds;
  }

  /** Seconds of footage that had a result already. */
  get reused(): number {
    return this.#had;
  }

  step(seconds: number): { reached(done: number): void; end(): void } {
    let at = 0;
    const to = (done: number) => {
      const next = Math.min(seconds, Math.max(at, done));
      this.#done += next - at;
      at = next;
      this.#show();
    };
    return { reached: to, end: () => to(seconds) };
  }

  #show(): void {
    const now = this.#display.now();
    if (now - this.#shown < (this.#display.terminal ? OFTEN : SELDOM) || this.#expected === 0) return;
    this.#shown = now;
    const share = this.#done / this.#expected;
    const left = share > 0.02 ? `, about ${inWords((((now - this.#began) / share) * (1 - share)) / 1000)} left` : '';
    this.#display.line(`${this.#what}: ${Math.floor(share * 100)} %${left}`);
  }
}

/** A rough length of time. @param seconds s */
export function inWords(seconds: number): string {
  if (seconds < 90) return `${Math.max(1, Math.round(seconds))} s`;
  if (seconds < 5400) return `${Math.round(seconds / 60)} min`;
  return `${(seconds / 3600).toFixed(1)} h`;
}

/** A display that shows nothing, for tests and callers that do not watch. */
export const SILENT: Display = { terminal: false, line: () => {}, now: () => 0 };
