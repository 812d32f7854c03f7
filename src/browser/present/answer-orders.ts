import type { Highs } from 'highs';
import { type DaySheet, type DayState, type Way, waysFrom } from '../../core/day/index.ts';
import { highsSolver } from '../../core/fit/index.ts';

/** Where a class stands, to be looked at. */
export interface AdviceOrder {
  readonly number: number;
  readonly sheet?: DaySheet;
  readonly state: DayState;
  readonly at: number;
}

export interface Advised {
  readonly number: number;
  readonly ways: readonly Way[];
  /** How long it took, ms. */
  readonly took: number;
}

/** In a worker: looks for ways out whenever it is asked to, with a solver that is still being loaded. */
export function answerOrders(loading: Promise<Highs>): void {
  const solver = loading.then(highsSolver);
  let sheet: DaySheet | undefined;
  addEventListener('message', async ({ data }: MessageEvent<AdviceOrder | { readonly solver: ArrayBuffer }>) => {
    if ('solver' in data) return;
    const known = data.sheet ?? sheet;
    sheet = known;
    if (!known) return;
    // Loading the solver is no part of the look.
    await solver.catch(() => undefined);
    const began = performance.now();
    // Without an answer the page would wait for it: a look that fails finds nothing, and the next one is asked for.
    const ways = await solver
      .then((ready) => waysFrom(known, data.state, data.at, ready))
      .catch((error) => {
        console.error(error);
        return [];
      });
    const advised: Advised = { number: data.number, ways, took: performance.now() - began };
    postMessage(advised);
  });
}
