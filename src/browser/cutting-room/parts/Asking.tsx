/** @jsxImportSource preact */
import { useEffect, useRef } from 'preact/hooks';
import type { CommandRow } from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';

/** One line for the words a command needs; Enter runs it, Escape lets it be. */
export function Asking({
  store,
  row,
  close,
}: {
  readonly store: Store;
  readonly row: CommandRow;
  readonly close: () => void;
}) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    field.current?.focus();
    field.current?.select();
  }, [row.id]);
  return (
    <form
      class="asking"
      onSubmit={(event) => {
        event.preventDefault();
        if (store.perform(row, field.current?.value ?? '')) close();
      }}
    >
      <label for="asking-field">{row.asks?.label}</label>
      <input
        id="asking-field"
        ref={field}
        autocomplete="off"
        defaultValue={row.asks?.start?.(store.now()) ?? ''}
        onKeyDown={(event) => {
          event.stopPropagation();
          if (event.key === 'Escape') close();
        }}
      />
      <button type="submit">{row.title}</button>
      <button type="button" onClick={close}>
        Leave it
      </button>
    </form>
  );
}
