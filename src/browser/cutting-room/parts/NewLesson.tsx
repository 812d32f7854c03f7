/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { scalarText } from '../../../core/write/index.ts';
import type { Store } from '../store.ts';

/** A recording that no lesson shows yet: the title makes one. */
export function NewLesson({ store, id }: { readonly store: Store; readonly id: string }) {
  // Most lessons are called what their recording is; typing replaces it.
  const title = useSignal(store.view.peek().recording?.title ?? '');
  const machines = store.opened.machines;
  const machine = useSignal(machines[0] ?? '');
  return (
    <form
      class="new-lesson"
      onSubmit={(event) => {
        event.preventDefault();
        const words = title.value.trim();
        if (words === '') {
          store.say('a title is needed');
          return;
        }
        const front = [`title: ${scalarText(words)}`, `recording: ${id}`, `machine: ${machine.value}`];
        store.startLesson(id, `---\n${front.join('\n')}\n---\n`);
        document.querySelector<HTMLElement>('.strip .over')?.focus();
      }}
    >
      <h2>Start the lesson</h2>
      <p class="hint">No lesson shows this recording yet.</p>
      <label for="new-title">Title</label>
      <input
        id="new-title"
        autocomplete="off"
        value={title.value}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => (title.value = event.currentTarget.value)}
      />
      {machines.length > 1 && (
        <>
          <label for="new-machine">Machine</label>
          <select
            id="new-machine"
            value={machine.value}
            onChange={(event) => (machine.value = event.currentTarget.value)}
          >
            {machines.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </>
      )}
      <button type="submit">Start</button>
    </form>
  );
}
