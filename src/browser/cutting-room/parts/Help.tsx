/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { COMMANDS, DEFAULT_BINDINGS, GROUPS, keyName, keyText, remap } from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';

/** Every key, made from the table of commands; a press on a key gives the command another one. */
export function Help({ store, close }: { readonly store: Store; readonly close: () => void }) {
  const box = useRef<HTMLDialogElement>(null);
  const asking = useSignal('');
  const trouble = useSignal('');
  useEffect(() => box.current?.showModal(), []);
  const bindings = store.bindings.value;
  return (
    <dialog
      ref={box}
      class="help"
      aria-labelledby="help-title"
      onClose={close}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (asking.value === '' || ['Shift', 'Control', 'Alt', 'Meta', 'AltGraph', 'Tab'].includes(event.key)) return;
        event.preventDefault();
        if (event.key === 'Escape') asking.value = '';
        else {
          const next = remap(bindings, asking.value, keyName(event));
          trouble.value = next.ok ? '' : `${next.problem}; ${next.help}`;
          if (next.ok) {
            store.setBindings(next.value);
            asking.value = '';
          }
        }
      }}
    >
      <h2 id="help-title">Keys</h2>
      <p class="trouble" role="status">
        {asking.value === '' ? trouble.value : `${trouble.value} Press the new key, or Esc.`}
      </p>
      <div class="groups">
        {GROUPS.map((group) => (
          <section key={group}>
            <h3>{group}</h3>
            <ul>
              {COMMANDS.filter((row) => row.group === group).map(({ id, title }) => (
                <li key={id}>
                  <span>{title}</span>
                  <button
                    type="button"
                    aria-label={`${title}: ${(bindings.get(id) ?? []).map(keyText).join(' or ')}. Change`}
                    aria-pressed={asking.value === id}
                    onClick={() => {
                      asking.value = id;
                      trouble.value = '';
                    }}
                  >
                    {asking.value === id ? '…' : (bindings.get(id) ?? []).map(keyText).join(' or ')}
                  </button>
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
      <p class="row">
        <button type="button" onClick={() => store.setBindings(DEFAULT_BINDINGS)}>
          Reset keys
        </button>
        <button type="button" onClick={() => box.current?.close()}>
          Close
        </button>
      </p>
    </dialog>
  );
}
