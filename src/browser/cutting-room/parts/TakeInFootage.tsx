/** @jsxImportSource preact */
import { type Signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type Api, Refused } from '../api.ts';
import { addFiles, type Chosen, placeNames, recordingId, sizeText } from '../chosen-footage.ts';
import { droppedFiles } from '../dropped-files.ts';
import { type TakeFound, TakeLook } from './TakeLook.tsx';

/** How far the files have come. */
interface Copying {
  readonly name: string;
  readonly done: number;
  readonly total: number;
}

const NOTHING: Chosen<File> = { files: [], left: [] };

interface Props {
  readonly api: Api;
  /** Address of the cutting room. */
  readonly room: string;
  /** Ids that recordings have already. */
  readonly recordings: readonly string[];
}

/** Footage chosen or dropped becomes a recording: copied, looked at, put in order, and written after one look. */
export function TakeInFootage({ api, room, recordings }: Props) {
  const title = useSignal('');
  const chosen = useSignal(NOTHING);
  const copying = useSignal<Copying | undefined>(undefined);
  const found = useSignal<TakeFound | undefined>(undefined);
  const taken = useSignal<readonly string[]>([]);
  const trouble = useSignal('');
  const over = useSignal(false);
  const stop = useSignal<AbortController | undefined>(undefined);

  const id = recordingId(title.value, recordings);
  const there = id !== undefined && recordings.includes(id);
  const choose = (more: readonly File[]) => {
    if (copying.peek() || more.length === 0) return;
    chosen.value = addFiles(chosen.peek(), more);
    found.value = undefined;
    trouble.value = chosen.peek().files.length === 0 ? 'Among these is no film, sound or caption file.' : '';
  };
  const clear = () => {
    chosen.value = NOTHING;
    found.value = undefined;
    trouble.value = '';
  };
  useDrop(over, choose);
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
      const { files } = chosen.peek();
      const places = placeNames(files);
      const total = sizeOf(files);
      let before = 0;
      const names: string[] = [];
      for (const [i, file] of files.entries()) {
        const path = `footage/file/?id=${id}&name=${encodeURIComponent(places[i] ?? file.name)}&modified=${file.lastModified}`;
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
      {there && (
        <p class="trouble">
          There is <a href={`${room}${id}/`}>a recording of that name</a> already: give this one another.
        </p>
      )}
      <fieldset class={over.value ? 'drop over' : 'drop'} disabled={copying.value !== undefined}>
        <p>Drop the files or the folder of a card here: of every camera, phone and recorder that ran, card by card.</p>
        <FilePick label="Choose files" choose={choose} />
        <FilePick label="Choose a folder" folder choose={choose} />
      </fieldset>
      {chosen.value.files.length > 0 && !found.value && (
        <>
          <p>
            {chosen.value.files.length === 1 ? '1 file' : `${chosen.value.files.length} files`},{' '}
            {sizeText(sizeOf(chosen.value.files))}:{' '}
            <span class="names">{chosen.value.files.map(({ name }) => name).join(', ')}</span>
          </p>
          {chosen.value.left.length > 0 && (
            <p class="hint">No footage, stays where it is: {shortList(chosen.value.left)}</p>
          )}
          <div class="row">
            <button
              type="button"
              class="chief"
              disabled={id === undefined || there || copying.value !== undefined}
              onClick={() => void takeIn()}
            >
              Copy them in
            </button>
            <button type="button" disabled={copying.value !== undefined} onClick={clear}>
              Choose anew
            </button>
            {id === undefined && <span>First say what was recorded.</span>}
          </div>
        </>
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

/** Files are taken wherever on the page they are let go; elsewhere a browser would leave the page for them. */
function useDrop(over: Signal<boolean>, choose: (files: readonly File[]) => void): void {
  useEffect(() => {
    const ended = new AbortController();
    const { signal } = ended;
    const isFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
    const hold = (event: DragEvent) => {
      if (!isFiles(event)) return;
      event.preventDefault();
      over.value = true;
    };
    const letGo = (event: DragEvent) => {
      over.value = false;
      if (!isFiles(event) || !event.dataTransfer) return;
      event.preventDefault();
      void droppedFiles(event.dataTransfer).then(choose);
    };
    const leave = (event: DragEvent) => {
      if (event.relatedTarget === null) over.value = false;
    };
    document.addEventListener('dragover', hold, { signal });
    document.addEventListener('drop', letGo, { signal });
    document.addEventListener('dragleave', leave, { signal });
    return () => ended.abort();
  }, []);
}

interface Pick {
  readonly label: string;
  readonly folder?: boolean;
  choose(files: readonly File[]): void;
}

/** A button that asks for files, or for a folder with all in it. */
function FilePick({ label, folder = false, choose }: Pick) {
  return (
    <label class="pick">
      {label}
      <input
        type="file"
        multiple
        ref={(field) => {
          if (folder) field?.setAttribute('webkitdirectory', '');
        }}
        onChange={({ currentTarget }) => {
          choose([...(currentTarget.files ?? [])]);
          // The same files can be chosen again after they were put away.
          currentTarget.value = '';
        }}
      />
    </label>
  );
}

function sizeOf(files: readonly File[]): number {
  return files.reduce((sum, { size }) => sum + size, 0);
}

function shortList(names: readonly string[]): string {
  return `${names.slice(0, 8).join(', ')}${names.length > 8 ? ', …' : ''}`;
}
