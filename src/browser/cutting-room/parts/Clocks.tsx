/** @jsxImportSource preact */
import { useComputed } from '@preact/signals';
import { onFrame, speedText, timecodeAt, unreadOf } from '../../../core/edit/index.ts';
import { ticks } from '../../../core/time/index.ts';
import { programmeAt } from '../player.ts';
import type { Store } from '../store.ts';

/** Recording and programme time of the frame shown, side by side, as timecode. */
export function Clocks({ store }: { readonly store: Store }) {
  const recording = useComputed(() => timecodeAt(store.playhead.value, store.session.value.view.labels));
  const programme = useComputed(() => {
    const { labels } = store.session.value.view;
    const { at, cut } = programmeAt(store, onFrame(store.playhead.value, labels));
    return cut ? 'Not in programme' : timecodeAt(ticks<'programme'>(at), { ...labels, startFrame: 0 });
  });
  const speed = useComputed(() => {
    const { speed: now, programme: only } = store.session.value.transport;
    return `${speedText(now)}${only ? ', edited' : ''}`;
  });
  const unread = useComputed(() => unreadOf(store.session.value));
  const captions = useComputed(() => {
    const now = store.playhead.value;
    const { reading } = store.session.value;
    const here = unread.value.some(({ at }) => (at.start <= now && now < at.end) || at.start === reading);
    return `${here ? 'this one, ' : ''}${unread.value.length} in all`;
  });
  return (
    <dl class="clocks">
      <div>
        <dt>Recording</dt>
        <dd>{recording}</dd>
      </div>
      <div>
        <dt>Programme</dt>
        <dd>{programme}</dd>
      </div>
      <div>
        <dt>Speed</dt>
        <dd class="speed">{speed}</dd>
      </div>
      {unread.value.length > 0 && (
        <div class="unread">
          <dt>Captions to read</dt>
          <dd>{captions}</dd>
        </div>
      )}
    </dl>
  );
}
