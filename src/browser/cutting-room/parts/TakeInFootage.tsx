/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { slug } from '../../../core/read/index.ts';
import { type Api, Refused } from '../api.ts';
import { chosenFiles, droppedFiles } from '../dropped-files.ts';
import { type TakeFound, TakeLook } from './TakeLook.tsx';

/** How far the files have come. */
interface Copying {
  readonly name: string;
  readonly done: number;
  readonly total: number;
}

/** Footage chosen or dropped becomes a recording: copied, looked at, put in order, and written after one look. */
export function TakeInFootage({ api, room }: { readonly api: Api; readonly room: string }) {
  const title = useSignal('');
  const files = useSignal<readonly File[]>([]);
  const copying = useSignal<Copying | undefined>(undefined);
  const found = useSignal<TakeFound | undefined>(undefined);
  const taken = useSignal<readonly string[]>([]);
  const trouble = useSignal('');
  const over = useSignal(false);
  const stop = useSignal<AbortController | undefined>(undefined);

  const id = slug(title.value);
  const choose = (chosen: readonly File[]) => {
    files.value = chosen;
    found.value = undefined;
    trouble.value = chosen.length === 0 ? 'Among these is no film, sound or caption file.' : '';
  };
  const attempt = async (work: () => Promise<void>) => {
    trouble.value = '';
    try {
      await work();
    } catch (error) {
      const stopped = stop.peek()?.signal.aborted;
      const words = error instanceof Refused ? `${error.message}; ${error.help}` : 'Liftside does not answer';
      trouble.value = stopped ? 'Stopped; files that are copied need not be copied again.' : words;
    } finally {
      copying.value = undefined;
      stop.value = undefined;
    }
  };
  const look = (names: readonly string[]) =>
    api.get<TakeFound>(`footage/plan/?${names.map((name) => `file=${encodeURIComponent(name)}`).join('&')}`);

  const takeIn = () =>
    attempt(async () => {
      const ending = new AbortController();
      stop.value = ending;
      const total = files.peek().reduce((sum, { size }) => sum + size, 0);
      let before = 0;
      const names: string[] = [];
      for (const file of files.peek()) {
        const path = `footage/file/?id=${id}&name=${encodeURIComponent(file.name)}&modified=${file.lastModified}`;
        const hear = (done: number) => {
          copying.value = { name: file.name, done: before + done, total };
        };
        hear(0);
        names.push((await api.upload<{ file: string }>(path, file, hear, ending.signal)).file);
        before += file.size;
      }
      taken.value = names;
      found.value = await look(names);
    });
  const leaveOut = (file: string) =>
    attempt(async () => {
      taken.value = taken.peek().filter((name) => name !== file);
      found.value = await look(taken.peek());
    });
  const write = () =>
    attempt(async () => {
      const body = { id, title: title.peek().trim(), files: taken.peek() };
      const { recording, angles } = await api.post<{ recording: string; angles: number }>('footage/', body);
      await api.post('jobs/', { recording, work: 'analyse' });
      if (angles > 0) await api.post('jobs/', { recording, work: 'align' });
      location.assign(`${room}${recording}/`);
    });
  const share = copying.value && copying.value.total > 0 ? copying.value.done / copying.value.total : 0;
  return (
    <section class="take-footage" aria-labelledby="take-title">
      <h2 id="take-title">Take in footage</h2>
      <label>
        What was recorded{' '}
        <input
          value={title.value}
          disabled={found.value !== undefined || copying.value !== undefined}
          onInput={(event) => (title.value = event.currentTarget.value)}
          autocomplete="off"
        />
      </label>
      <fieldset
        class={over.value ? 'drop over' : 'drop'}
        onDragOver={(event) => {
          event.preventDefault();
          over.value = true;
        }}
        onDragLeave={() => (over.value = false)}
        onDrop={(event) => {
          event.preventDefault();
          over.value = false;
          if (event.dataTransfer) void droppedFiles(event.dataTransfer).then(choose);
        }}
      >
        <p>Drop the files or the folder of a card here: of every camera, phone and recorder that ran.</p>
        <label>
          Files <input type="file" multiple onChange={(event) => choose(chosenFiles(event.currentTarget.files))} />
        </label>
        <label>
          A folder{' '}
          <input
            type="file"
            ref={(field) => field?.setAttribute('webkitdirectory', '')}
            onChange={(event) => choose(chosenFiles(event.currentTarget.files))}
          />
        </label>
      </fieldset>
      {files.value.length > 0 && !found.value && (
        <p>
          {files.value.length === 1 ? '1 file' : `${files.value.length} files`},{' '}
          {(files.value.reduce((sum, { size }) => sum + size, 0) / 1e6).toFixed(0)} MB{' '}
          <button type="button" disabled={id === '' || copying.value !== undefined} onClick={() => void takeIn()}>
            Copy them in
          </button>
          {id === '' && ' First say what was recorded.'}
        </p>
      )}
      {copying.value && (
        <p>
          <progress value={share} max={1} aria-label="Copied" /> {Math.floor(share * 100)} %, {copying.value.name}{' '}
          <button type="button" onClick={() => stop.peek()?.abort()}>
            Stop
          </button>
        </p>
      )}
      {found.value && (
        <TakeLook found={found.value} leaveOut={(file) => void leaveOut(file)} write={() => void write()} />
      )}
      <p class="trouble" role="status">
        {trouble}
      </p>
    </section>
  );
}
