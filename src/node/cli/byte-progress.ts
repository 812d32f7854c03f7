import type { Context } from './command.ts';

/** How often a line is shown where nobody watches, and where somebody does, ms. */
const SELDOM = 15_000;
const OFTEN = 250;

/** Bytes in the units in which disks and files are sold: 1 MB is a million. */
export function byteText(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes < 1_000_000) return `${Math.round(bytes / 1000)} kB`;
  if (bytes < 1_000_000_000) return `${(bytes / 1_000_000).toFixed(1)} MB`;
  return `${(bytes / 1_000_000_000).toFixed(2)} GB`;
}

/** Tells how many bytes of a piece of work are done. */
export class ByteProgress {
  readonly #context: Pick<Context, 'live' | 'say' | 'now'>;
  readonly #what: string;
  readonly #total: number;
  #done = 0;
  #shown: number;

  constructor(context: Pick<Context, 'live' | 'say' | 'now'>, what: string, total: number) {
    this.#context = context;
    this.#what = what;
    this.#total = total;
    this.#shown = context.live ? Number.NEGATIVE_INFINITY : context.now().getTime();
  }

  add(bytes: number): void {
    this.#done += bytes;
    const { live, say, now } = this.#context;
    const at = now().getTime();
    if (at - this.#shown < (live ? OFTEN : SELDOM)) return;
    this.#shown = at;
    const share = this.#total > 0 ? Math.floor((100 * this.#done) / this.#total) : 100;
    (live ?? say)(`${this.#what}: ${share} %, ${byteText(this.#done)} of ${byteText(this.#total)}`);
  }
}
