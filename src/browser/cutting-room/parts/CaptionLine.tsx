/** @jsxImportSource preact */
import { type Signal, useComputed } from '@preact/signals';
import { type CommandRow, captionBeingRead, unreadOf } from '../../../core/edit/index.ts';
import type { Footage } from '../footage.ts';
import type { Store } from '../store.ts';
import { CommandButton } from './CommandButton.tsx';
import { ReadCaption } from './ReadCaption.tsx';

interface Props {
  readonly store: Store;
  readonly footage: Footage;
  /** Counts up when the words are to be corrected. */
  readonly correct: Signal<number>;
  readonly perform: (row: CommandRow) => void;
}

/** What is said at the frame shown; in the reading pass the caption that is read, to be corrected where it stands. */
export function CaptionLine({ store, footage, correct, perform }: Props) {
  const words = useComputed(() => footage.captionAt(store.playhead).value);
  const session = store.session.value;
  const left = unreadOf(session).length;
  if (session.reading === undefined)
    return (
      <div class="caption">
        <p>{words}</p>
        {left > 0 && <CommandButton id="read" store={store} perform={perform} />}
      </div>
    );
  const caption = captionBeingRead(session);
  return (
    <ReadCaption
      key={session.reading}
      store={store}
      caption={caption}
      left={left}
      correct={correct}
      perform={perform}
    />
  );
}
