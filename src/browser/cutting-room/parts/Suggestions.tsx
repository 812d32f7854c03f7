/** @jsxImportSource preact */
import { findCommand, openSuggestions, type Suggestion, timecodeAt } from '../../../core/edit/index.ts';
import { listWords, plural } from '../../../core/read/index.ts';
import { toSeconds } from '../../../core/time/index.ts';
import type { Store } from '../store.ts';

/** Shown at once. */
const ROWS = 100;

/** Cuts worth making and steps that seem to begin, in the order of the recording; nothing is done without a yes. */
export function Suggestions({ store }: { readonly store: Store }) {
  const session = store.session.value;
  const open = openSuggestions(session);
  if (session.suggestions.length === 0) return null;
  const cuts = open.filter(({ title }) => title === undefined);
  const steps = open.length - cuts.length;
  const total = cuts.reduce((sum, { range }) => sum + range.end - range.start, 0);
  return (
    <section class="suggestions" aria-labelledby="suggestions-title">
      <h2 id="suggestions-title">
        Proposals{' '}
        <small>
          {listWords([
            ...(cuts.length > 0 ? [`${plural(cuts.length, 'cut')} (${Math.round(toSeconds(total))} s)`] : []),
            ...(steps > 0 ? [plural(steps, 'step')] : []),
          ]) || 'all answered'}
        </small>
      </h2>
      <ol>
        {open.slice(0, ROWS).map((one) => (
          <Row key={one.id} store={store} one={one} />
        ))}
      </ol>
    </section>
  );
}

function Row({ store, one }: { readonly store: Store; readonly one: Suggestion }) {
  const { id, range, reason, title } = one;
  const [accept, refuse] = [findCommand('accept'), findCommand('refuse')];
  const what = title === undefined ? reason : `step “${title}”`;
  return (
    <li>
      <span class="at">{timecodeAt(range.start, store.session.value.view.labels)}</span>
      <span class="reason">
        {title === undefined ? (
          `${reason}, ${Math.round(toSeconds(range.end - range.start))} s`
        ) : (
          <>
            <b>{title}</b> {reason}
          </>
        )}
      </span>
      <button
        type="button"
        onClick={() => accept && store.perform(accept, id)}
        aria-label={title === undefined ? `Yes, cut: ${what}` : `Yes, add the ${what}`}
      >
        Yes
      </button>
      <button type="button" onClick={() => refuse && store.perform(refuse, id)} aria-label={`No: ${what}`}>
        No
      </button>
    </li>
  );
}
