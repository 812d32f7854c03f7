/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { type Side, settle } from '../../../core/edit/index.ts';
import type { SaveState } from '../saver.ts';
import type { Store } from '../store.ts';

/** A file that somebody else changed in the same lines: both versions side by side, and a choice for each place. */
export function Clashes({
  store,
  state,
}: {
  readonly store: Store;
  readonly state: Extract<SaveState, { kind: 'clash' }>;
}) {
  const box = useRef<HTMLDialogElement>(null);
  const sides = useSignal<readonly (Side | undefined)[]>(state.merge.clashes.map(() => undefined));
  useEffect(() => box.current?.showModal(), []);
  const all = sides.value.every((side) => side !== undefined);
  return (
    <dialog
      ref={box}
      class="clashes"
      aria-labelledby="clash-title"
      onKeyDown={(event) => event.stopPropagation()}
      onCancel={(event) => event.preventDefault()}
    >
      <h2 id="clash-title">Changed here and elsewhere</h2>
      <p>
        {state.file} was changed by something else in the lines you changed. Nothing was written over. Which version do
        you want to keep? Choose at each place.
      </p>
      <ol>
        {state.merge.clashes.map((clash, index) => (
          <li key={clash.line}>
            <p class="where">line {clash.line}</p>
            <div class="sides">
              {(['mine', 'theirs'] as const).map((side) => (
                <label key={side}>
                  <input
                    type="radio"
                    name={`clash-${index}`}
                    checked={sides.value[index] === side}
                    onChange={() => {
                      sides.value = sides.value.map((old, i) => (i === index ? side : old));
                    }}
                  />
                  {side === 'mine' ? 'From here' : 'From elsewhere'}
                  <pre>{clash[side] === '' ? '(taken out)' : clash[side]}</pre>
                </label>
              ))}
              <label class="both">
                <input
                  type="radio"
                  name={`clash-${index}`}
                  checked={sides.value[index] === 'both'}
                  onChange={() => {
                    sides.value = sides.value.map((old, i) => (i === index ? 'both' : old));
                  }}
                />
                Both, one after the other
              </label>
            </div>
          </li>
        ))}
      </ol>
      <p class="row">
        <button
          type="button"
          disabled={!all}
          onClick={() => {
            const chosen = sides.peek().flatMap((side) => side ?? []);
            box.current?.close();
            store.saver.settleClash(state.file, state.theirs, settle(state.merge, chosen));
          }}
        >
          Save this
        </button>
      </p>
    </dialog>
  );
}
