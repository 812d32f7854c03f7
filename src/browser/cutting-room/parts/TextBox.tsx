/** @jsxImportSource preact */
import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { closeEntry } from '../../../core/edit/index.ts';
import type { Pointed, Store } from '../store.ts';

const PAUSE_MS = 300;

interface Props {
  readonly store: Store;
  /** Of what is written here: another one gets a box, and undo entries, of its own. */
  readonly id: string;
  readonly titleId: string;
  readonly text: string;
  /** Takes what was typed; false where it cannot be had yet. */
  readonly write: (words: string) => boolean;
  readonly pointed?: Pointed | undefined;
  readonly focus: Signal<number>;
  readonly rows: number;
}

/** Text that is saved as it is typed. Escape goes back to the picture. */
export function TextBox({ store, id, titleId, text, write, pointed, focus, rows }: Props) {
  const field = useRef<HTMLTextAreaElement>(null);
  const typed = useSignal<{ id: string; text: string } | undefined>(undefined);
  const trouble = useSignal('');
  const timer = useRef(0);
  const shown = useRef(0);
  const draft = typed.value?.id === id ? typed.value.text : undefined;
  const draftKey = `liftside-draft-${id}`;

  const keep = () => {
    clearTimeout(timer.current);
    const now = typed.peek();
    if (now?.id !== id) return;
    if (write(now.text)) {
      typed.value = undefined;
      trouble.value = '';
      localStorage.removeItem(draftKey);
    } else {
      // Half a tag is no text yet: it is kept in the browser until it is whole.
      trouble.value = `not saved yet: ${store.said.peek()}`;
      localStorage.setItem(draftKey, now.text);
    }
  };
  useEffect(() => {
    const kept = localStorage.getItem(draftKey);
    typed.value = kept ? { id, text: kept } : undefined;
    trouble.value = '';
    store.history.value = closeEntry(store.history.peek());
    return () => clearTimeout(timer.current);
  }, [id]);
  useEffect(() => {
    if (focus.value > 0) field.current?.focus();
  }, [focus.value]);
  useEffect(() => {
    if (!pointed || pointed.n === shown.current || !field.current) return;
    shown.current = pointed.n;
    point(field.current, pointed);
  }, [pointed?.n, id]);

  return (
    <>
      <textarea
        ref={field}
        aria-labelledby={titleId}
        aria-describedby="text-trouble"
        spellcheck
        rows={rows}
        value={draft ?? text}
        onInput={(event) => {
          typed.value = { id, text: event.currentTarget.value };
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
    </>
  );
}

/** Selects a stretch and scrolls the box, and only the box, to it. */
function point(field: HTMLTextAreaElement, { from, to, enter }: Pointed): void {
  field.setSelectionRange(from, to);
  const lines = field.value.split('\n');
  const line = field.value.slice(0, from).split('\n').length - 1;
  field.scrollTop = (field.scrollHeight / Math.max(1, lines.length)) * line - field.clientHeight / 3;
  if (enter) field.focus();
}
