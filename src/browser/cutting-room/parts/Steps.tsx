/** @jsxImportSource preact */
import { useEffect, useRef } from 'preact/hooks';
import { chooseById, timecodeAt } from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';
import { numbersOf } from '../strip/labels.ts';

/** The lesson's chapters and steps as a list; the chosen one is what cue keys act on. */
export function Steps({ store }: { readonly store: Store }) {
  const { view, content } = store.session.value;
  const list = useRef<HTMLDivElement>(null);
  const numbers = numbersOf(view.passages);
  useEffect(() => {
    // Only the list itself scrolls: the picture stays where it is.
    const box = list.current;
    const row = box?.querySelector<HTMLElement>('[aria-selected="true"]');
    if (!box || !row) return;
    const above = row.offsetTop - box.scrollTop;
    const below = above + row.offsetHeight - box.clientHeight;
    if (above < 0) box.scrollTop += above;
    else if (below > 0) box.scrollTop += below;
  }, [content.chosen]);
  const set = view.passages.filter(({ cue }) => cue).length;
  return (
    <section class="steps" aria-labelledby="steps-title">
      <h2 id="steps-title">
        Chapters and steps{' '}
        <small>
          {set} of {view.passages.length} have a cue
        </small>
      </h2>
      {view.passages.length === 0 ? (
        <p class="hint">No chapter yet. C adds one at the frame shown, A a step.</p>
      ) : (
        <div
          ref={list}
          class="entries"
          role="listbox"
          onPointerDown={(event) => {
            const row = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-id]') : undefined;
            if (row?.dataset.id) store.run(chooseById, row.dataset.id);
          }}
          aria-labelledby="steps-title"
          tabIndex={0}
          aria-activedescendant={content.chosen ? `row-${content.chosen}` : undefined}
        >
          {view.passages.map(({ id, title, kind, cue }) => (
            <div
              key={id}
              id={`row-${id}`}
              role="option"
              tabIndex={-1}
              class={`entry ${kind}`}
              aria-selected={id === content.chosen}
              data-id={id}
            >
              <span class="number">{numbers.get(id)}</span>
              <span class="title">{title}</span>
              <span class="at">{cue ? timecodeAt(cue.at, view.labels) : 'no cue'}</span>
            </div>
          ))}
        </div>
      )}
    </section>
  );
}
