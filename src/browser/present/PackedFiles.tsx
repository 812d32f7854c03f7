/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type DayFile, dayFiles } from '../../core/day/index.ts';
import type { DayStore } from './day-store.ts';
import type { LaidAside, PackedDay } from './packed-day.ts';

/** What happened as files to take home, and what a package cannot do. */
export function PackedFiles({ store, day }: { store: DayStore; day: PackedDay }) {
  const aside = useSignal<readonly LaidAside[]>([]);
  const state = store.state.value;
  const written = store.unsent.value === 0;
  const { phase } = state;
  // Laid aside is another class, before this one has begun.
  useEffect(() => {
    void day.aside().then((now) => {
      aside.value = now;
    });
  }, [phase]);
  const files = dayFiles(store.sheet, state, store.sheet.shopClass.date);
  const { id } = store.sheet.shopClass;
  return (
    <details class="packed-files" open={phase === 'over'}>
      <summary>Take it back to the shop</summary>
      {day.lasting ? (
        <p class="quiet">Everything is kept in this browser as it happens, until it is saved and after.</p>
      ) : (
        <p class="notice">This browser keeps nothing of a folder: save the files before you close this window.</p>
      )}
      {files.length === 0 ? (
        <p class="quiet">There is something to save once a block has ended or a question was set aside.</p>
      ) : (
        <Saves
          files={files}
          ready={written}
          // What is on the shelf at this moment, not when the page was drawn.
          now={() => day.files()}
        />
      )}
      {files.length > 0 && (
        <p>
          In the shop:{' '}
          <code>
            liftside import {nameOf(files[0])} --into {id}
          </code>
        </p>
      )}
      {aside.value.map((one) => (
        <section key={`${one.date} ${one.files.length}`} aria-label={`Laid aside, ${one.date}`}>
          {one.files.length > 0 && (
            <>
              <h2>Laid aside, {one.date}</h2>
              <Saves files={one.files} ready now={async () => one.files} />
            </>
          )}
        </section>
      ))}
      <p class="quiet">
        From a package the room’s window is on this machine. A phone as a clicker, a screen on another machine and “What
        if …” need Liftside itself: <code>liftside start</code>.
      </p>
    </details>
  );
}

interface SavesProps {
  readonly files: readonly DayFile[];
  readonly ready: boolean;
  readonly now: () => Promise<readonly DayFile[]>;
}

function Saves({ files, ready, now }: SavesProps) {
  const saveNow = async ({ file }: DayFile) => {
    const found = (await now()).find((each) => each.file === file);
    if (found) save(nameOf(found), found.text);
  };
  return (
    <p class="buttons">
      {files.map((file) => (
        <button key={file.file} type="button" disabled={!ready} onClick={() => void saveNow(file)}>
          Save {file.file.startsWith('questions/') ? 'the questions' : 'what it took'}
        </button>
      ))}
    </p>
  );
}

/** `classes/chain.actual.yaml` as `chain.actual.yaml`, `questions/chain.yaml` as `chain.questions.yaml`. */
function nameOf(file: DayFile | undefined): string {
  return (file?.file ?? '').replace(/^classes\//, '').replace(/^questions\/(.+)\.yaml$/, '$1.questions.yaml');
}

function save(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
