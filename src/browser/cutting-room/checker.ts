import { effect } from '@preact/signals';
import type { Checked, CheckOrder } from './check-worker.ts';
import type { Store } from './store.ts';

const PAUSE_MS = 200;

/** Checks the whole content in the background, a moment after each change. */
export function startChecker(store: Store, signal: AbortSignal): void {
  const worker = new Worker(new URL('./check-worker.ts', import.meta.url), { type: 'module' });
  let number = 0;
  let timer = 0;
  const end = effect(() => {
    const { texts } = store.session.value.content;
    clearTimeout(timer);
    store.checking.value = true;
    timer = window.setTimeout(() => {
      const { facts, today } = store.opened;
      const order: CheckOrder = { number: ++number, texts, facts, today };
      worker.postMessage(order);
    }, PAUSE_MS);
  });
  worker.addEventListener('message', ({ data }: MessageEvent<Checked>) => {
    if (data.number !== number) return;
    store.diagnostics.value = data.diagnostics;
    store.budgets.value = data.budgets;
    store.checking.value = false;
  });
  signal.addEventListener('abort', () => {
    end();
    clearTimeout(timer);
    worker.terminate();
  });
}
