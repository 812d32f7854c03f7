/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { printClockTime, TICKS_PER_SECOND } from '../../../core/time/index.ts';
import type { MadeProgramme } from '../api.ts';
import type { Store } from '../store.ts';

/** A finished programme: how long, whether it is still what was cut, and the film itself to look at. */
export function FinishedProgramme({
  store,
  recording,
  made,
}: {
  readonly store: Store;
  readonly recording: string;
  readonly made: MadeProgramme;
}) {
  const shown = useSignal(false);
  const { burnt, name, captions, length, current } = made;
  const title = burnt ? 'Programme with cards' : 'Programme';
  const seconds = Math.round(length / TICKS_PER_SECOND) * TICKS_PER_SECOND;
  return (
    <p class="finished">
      <b>{title}</b>, {printClockTime(seconds)}
      {current ? '' : ', made before the last changes'}{' '}
      <button type="button" onClick={() => (shown.value = true)} aria-label={`Open: ${title}`}>
        Open
      </button>
      {shown.value && (
        <Film
          title={title}
          film={store.api.programmeFile(recording, burnt, name)}
          captions={captions === undefined ? undefined : store.api.programmeFile(recording, burnt, captions)}
          close={() => (shown.value = false)}
        />
      )}
    </p>
  );
}

function Film({
  title,
  film,
  captions,
  close,
}: {
  readonly title: string;
  readonly film: string;
  readonly captions: string | undefined;
  close(): void;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="film" aria-label={title} onClose={close}>
      <video src={film} controls>
        <track kind="captions" src={captions} label="Captions" />
      </video>
      <p class="row">
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </p>
    </dialog>
  );
}
