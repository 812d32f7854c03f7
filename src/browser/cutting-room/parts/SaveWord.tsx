/** @jsxImportSource preact */
import type { SaveState } from '../saver.ts';
import type { Store } from '../store.ts';

function words(state: SaveState): string {
  switch (state.kind) {
    case 'saved':
      return 'Saved';
    case 'saving':
      return 'Saving';
    case 'waiting':
      return 'Liftside does not answer. Your work is kept here and saved when it is back.';
    case 'clash':
      return 'Changed elsewhere too';
    case 'failed':
      return `Not saved: ${state.problem}. ${state.help}.`;
  }
}

/** Where the work stands, always in sight. */
export function SaveWord({ store }: { readonly store: Store }) {
  const state = store.saver.state.value;
  return (
    <p class={`save ${state.kind}`} role="status">
      {words(state)}
    </p>
  );
}
