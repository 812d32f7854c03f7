/** @jsxImportSource preact */
import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import {
  type CommandRow,
  correctCaption,
  findCommand,
  READING_SPEEDS,
  readingSpeed,
} from '../../../core/edit/index.ts';
import type { Caption } from '../../../core/model/index.ts';
import { isUnread } from '../../../core/words/index.ts';
import type { Store } from '../store.ts';
import { CommandButton } from './CommandButton.tsx';

interface Props {
  readonly store: Store;
  readonly caption: Caption | undefined;
  /** How many nobody has read, this one among them. */
  readonly left: number;
  readonly correct: Signal<number>;
  readonly perform: (row: CommandRow) => void;
}

/** One caption of the reading pass: its words in a field, and what can be done with it. Escape in the field lets be. */
export function ReadCaption({ store, caption, left, correct, perform }: Props) {
  const field = useRef<HTMLTextAreaElement>(null);
  const begun = useRef(correct.value);
  const typed = useSignal<string | undefined>(undefined);
  useEffect(() => {
    // Only a press since this caption came on.
    if (correct.value > begun.current) field.current?.focus();
  }, [correct.value]);
  const stop = () => {
    const row = findCommand('stop');
    if (row && store.session.peek().transport.speed !== 0) perform(row);
  };
  const keep = (goOn: boolean) => {
    const words = typed.peek();
    typed.value = undefined;
    if (goOn || words !== undefined) store.run(correctCaption(goOn), words ?? caption?.text ?? '');
  };
  const back = () => document.querySelector<HTMLElement>('.strip .over')?.focus();
  const { readingSpeed: speed } = store.session.value;
  return (
    <section class="caption reading" aria-labelledby="reading-title">
      <h2 id="reading-title">
        Read captions <small>{left} to read</small>
      </h2>
      {caption ? (
        <textarea
          ref={field}
          rows={2}
          spellcheck
          aria-label="Words of this caption; Enter keeps them and goes on"
          class={isUnread(caption) ? 'unread' : ''}
          value={typed.value ?? caption.text}
          onFocus={stop}
          onInput={(event) => (typed.value = event.currentTarget.value)}
          onBlur={() => keep(false)}
          onKeyDown={(event) => {
            if (event.isComposing || (event.key !== 'Escape' && event.key !== 'Enter') || event.shiftKey) return;
            event.preventDefault();
            event.stopPropagation();
            if (event.key === 'Enter') keep(true);
            else typed.value = undefined;
            back();
          }}
        />
      ) : (
        <p>This caption is taken out.</p>
      )}
      <p class="row">
        <CommandButton id="read" store={store} perform={perform} name="Right, next" />
        <CommandButton id="hear-again" store={store} perform={perform} />
        <CommandButton id="correct" store={store} perform={perform} />
        <CommandButton id="clear-marks" store={store} perform={perform} name="Leave" />
        <label>
          Speed{' '}
          <select
            value={String(speed)}
            onChange={(event) => {
              store.run(readingSpeed, event.currentTarget.value);
              back();
            }}
          >
            {READING_SPEEDS.map((each) => (
              <option key={each} value={String(each)}>
                {each}×
              </option>
            ))}
          </select>
        </label>
      </p>
    </section>
  );
}
