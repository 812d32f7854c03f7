/** @jsxImportSource preact */
import { useComputed } from '@preact/signals';
import {
  angleAt,
  anglesOf,
  onFrame,
  SNAP_CHOICES,
  snapChoice,
  snapToOther,
  switchAngle,
} from '../../../core/edit/index.ts';
import type { Store } from '../store.ts';

/** What dragging snaps to, and which camera shows the kept range under the playhead. */
export function Choices({ store }: { readonly store: Store }) {
  const session = store.session.value;
  const angles = anglesOf(session);
  const angle = useComputed(() => {
    const now = store.session.value;
    return angleAt(now, onFrame(store.playhead.value, now.view.labels)) ?? '';
  });
  return (
    <div class="choices">
      <label>
        Snap to{' '}
        <select
          value={String(snapChoice(session))}
          onChange={(event) => store.run(snapToOther, event.currentTarget.value)}
        >
          {SNAP_CHOICES.map(({ name }, index) => (
            <option key={name} value={String(index)}>
              {name}
            </option>
          ))}
          <option value="-1">nothing</option>
        </select>
      </label>
      {angles.length > 0 && (
        <label>
          Camera here{' '}
          <select
            value={angle}
            onChange={(event) => {
              // Refused, in a cut say, the old one is shown again.
              if (!store.run(switchAngle, event.currentTarget.value)) event.currentTarget.value = angle.peek();
            }}
          >
            <option value="">the camera files</option>
            {angles.map((id) => (
              <option key={id} value={id}>
                {id}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
}
