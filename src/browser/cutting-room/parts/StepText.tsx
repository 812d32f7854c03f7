import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { chosenOf, closeEntry, textOf } from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';

const PAUSE_MS = 300;

/** The text of the chosen chapter or step, saved as it is typed. Escape goes back to the picture. */
export function StepText({ store, focus }: { readonly store: Store; readonly focus: Signal<number> }) {
  const session = store.session.value;
  const chosen = chosenOf(session);
  const field = useRef<HTMLTextAreaElement>(null);
  const typed = useSignal<{ id: string; text: string } | undefined>(undefined);
  const trouble = useSignal('');
  const timer = useRef(0);
  const draft = typed.value?.id === chosen?.id ? typed.value?.text : undefined;
  const text = draft ?? textOf(session);

  const keep = () => {
    clearTimeout(timer.current);
    const now = typed.peek();
    if (!now || now.id !== store.session.peek().content.chosen) return;
    if (store.write(now.text)) {
      typed.value = undefined;
      trouble.value = '';
      localStorage.removeItem(`liftside-draft-${now.id}`);
    } else {
      // Half a tag is no text yet: it is kept in the browser until it is whole.
      trouble.value = `not saved yet: ${store.said.peek()}`;
      localStorage.setItem(`liftside-draft-${now.id}`, now.text);
    }
  };
  useEffect(() => {
    const kept = chosen && localStorage.getItem(`liftside-draft-${chosen.id}`);
    typed.value = chosen && kept ? { id: chosen.id, text: kept } : undefined;
    trouble.value = '';
    store.history.value = closeEntry(store.history.peek());
    return () => clearTimeout(timer.current);
  }, [chosen?.id]);
  useEffect(() => {
    if (focus.value > 0) field.current?.focus();
  }, [focus.value]);

  if (!chosen) return null;
  return (
    <section class="text" aria-labelledby="text-title">
      <h2 id="text-title">
        Text <small>{chosen.title}</small>
      </h2>
      <textarea
        ref={field}
        aria-labelledby="text-title"
        aria-describedby="text-trouble"
        spellcheck
        rows={8}
        value={text}
        onInput={(event) => {
          typed.value = { id: chosen.id, text: event.currentTarget.value };
          clearTimeout(timer.current);
          timer.current = window.setTimeout(keep, PAUSE_MS);
        }}
        onBlur={keep}
        onKeyDown={(event) => {
          if (event.key !== 'Escape') return;
          event.stopPropagation();
          keep();
          document.querySelector<HTMLElement>('.strip .over')?.focus();
        }}
      />
      <p id="text-trouble" class="trouble" role="status">
        {trouble.value}
      </p>
    </section>
  );
}
