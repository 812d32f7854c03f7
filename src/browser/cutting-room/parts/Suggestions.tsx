/** @jsxImportSource preact */
import { findCommand, openSuggestions, timecodeAt } from '../../../core/edit/index.ts';
import { toSeconds } from '../../../core/time/index.ts';
import type { Store } from '../store.ts';

/** Cuts worth making, each with its reason and what it wins; none is made without a yes. */
export function Suggestions({ store }: { readonly store: Store }) {
  const session = store.session.value;
  const open = openSuggestions(session);
  if (session.suggestions.length === 0) return null;
  const [accept, refuse] = [findCommand('accept'), findCommand('refuse')];
  const total = open.reduce((sum, { range }) => sum + range.end - range.start, 0);
  return (
    <section class="suggestions" aria-labelledby="suggestions-title">
      <h2 id="suggestions-title">
        Suggested cuts{' '}
        <small>
          {open.length} left, {Math.round(toSeconds(total))} s to win
        </small>
      </h2>
      <ol>
        {open.slice(0, 40).map(({ id, range, reason }) => (
          <li key={id}>
            <span class="at">{timecodeAt(range.start, session.view.labels)}</span>
            <span class="reason">
              {reason}, {Math.round(toSeconds(range.end - range.start))} s
            </span>
            <button type="button" onClick={() => accept && store.perform(accept, id)} aria-label={`Cut ${reason}`}>
              Yes
            </button>
            <button type="button" onClick={() => refuse && store.perform(refuse, id)} aria-label={`Keep ${reason}`}>
              No
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
