import { effect } from '@preact/signals';
import { editList } from '../../core/time/index.ts';
import type { Checked, CheckOrder } from './check-worker.ts';
import type { Footage } from './footage.ts';
import type { Store } from './store.ts';

const PAUSE_MS = 200;

/** Checks the whole content in the background, a moment after each change. */
export function startChecker(store: Store, footage: Footage, recording: string, signal: AbortSignal): void {
  const worker = new Worker(new URL('./check-worker.ts', import.meta.url), { type: 'module' });
  let number = 0;
  let timer = 0;
  const end = effect(() => {
    const { texts } = store.session.value.content;
    const heard = footage.speech.value;
    const facts = store.facts.value;
    const by = footage.speechBy.value;
    clearTimeout(timer);
    store.checking.value = true;
    timer = window.setTimeout(() => {
      const { today } = store.opened;
      const speech = new Map(heard.length > 0 ? [[recording, { by, stretches: editList(heard) }]] : []);
      const order: CheckOrder = { number: ++number, texts, facts, today, speech };
      worker.postMessage(order);
    }, PAUSE_MS);
  });
  worker.addEventListener('message', ({ data }: MessageEvent<Checked>) => {
    if (data.number !== number) return;
    store.diagnostics.value = data.diagnostics;
    store.checkedTexts = data.texts;
    store.budgets.value = data.budgets;
    store.checking.value = false;
  });
  signal.addEventListener('abort', () => {
    end();
    clearTimeout(timer);
    worker.terminate();
  });
}
