/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { anglesToAlign } from '../../../core/edit/index.ts';
import { type Job, type MadeProgramme, Refused } from '../api.ts';
import type { Footage } from '../footage.ts';
import type { Store } from '../store.ts';
import { AngleOffers } from './AngleOffers.tsx';
import { ExportFile } from './ExportFile.tsx';
import { FinishedProgramme } from './FinishedProgramme.tsx';

type Work = Job['work'];

export const WORK_NAMES: Readonly<Record<Work, string>> = {
  analyse: 'Analyse the footage',
  align: 'Find where further cameras lie',
  render: 'Render the programme',
  burn: 'Render with cards in the picture',
};
const ENDED: Readonly<Record<Job['state'], string>> = {
  waiting: 'waits its turn',
  running: '',
  done: 'done',
  failed: 'did not come to an end',
  stopped: 'stopped; what was done so far serves the next run',
};

/** What takes long: started, watched and stopped here; and what came of it. */
export function FilmWork({
  store,
  footage,
  recording,
}: {
  readonly store: Store;
  readonly footage: Footage;
  readonly recording: string;
}) {
  const made = useSignal<readonly MadeProgramme[]>([]);
  const jobs = store.jobs.value;
  const ended = jobs.filter(({ state }) => state === 'done').length;
  // Written anew on each save; with what is on disk a programme is up to date or not.
  const saved = store.saver.state.value.kind === 'saved';
  useEffect(() => {
    if (!saved) return;
    void store.api
      .get<{ made: MadeProgramme[] }>(`programme/?recording=${recording}`)
      .then((answer) => (made.value = answer.made))
      // The page says already when nobody answers.
      .catch(() => undefined);
  }, [ended, saved]);
  return (
    <section class="film-work" aria-labelledby="film-title">
      <h2 id="film-title">Footage and programme</h2>
      <p class="row">
        {anglesToAlign(store.session.value) && <StartButton store={store} work="align" recording={recording} />}
        <StartButton store={store} work="render" recording={recording} />
        <StartButton store={store} work="burn" recording={recording} />
      </p>
      <ol>
        {jobs.map((job) => (
          <JobRow key={job.id} store={store} job={job} />
        ))}
      </ol>
      <AngleOffers store={store} footage={footage} />
      {made.value.map((one) => (
        <FinishedProgramme key={String(one.burnt)} store={store} recording={recording} made={one} />
      ))}
      <ExportFile store={store} recording={recording} />
    </section>
  );
}

/** Starts work; while it runs it cannot be started again. */
export function StartButton({
  store,
  work,
  recording,
}: {
  readonly store: Store;
  readonly work: Work;
  readonly recording: string;
}) {
  const open = store.jobs.value.some(
    (job) => job.work === work && (job.state === 'waiting' || job.state === 'running'),
  );
  const start = async () => {
    if (store.saver.state.peek().kind !== 'saved') {
      store.say('wait until everything is saved: it works from the files');
      return;
    }
    await tell(store, 'jobs/', { recording, work });
  };
  return (
    <button type="button" disabled={open} onClick={() => void start()}>
      {WORK_NAMES[work]}
    </button>
  );
}

function JobRow({ store, job }: { readonly store: Store; readonly job: Job }) {
  const { id, work, state, share, now, lines } = job;
  const open = state === 'running' || state === 'waiting';
  const said = state === 'failed' ? lines : lines.slice(-4);
  return (
    <li class={`job ${state}`}>
      <p>
        <b>{WORK_NAMES[work]}</b> <span role="status">{now || ENDED[state]}</span>
      </p>
      {state === 'running' && (
        <progress aria-label={WORK_NAMES[work]} {...(share === undefined ? {} : { value: share })} max={1} />
      )}
      {open && (
        <button
          type="button"
          aria-label={`Stop: ${WORK_NAMES[work]}`}
          onClick={() => void tell(store, 'jobs/stop/', { id })}
        >
          Stop
        </button>
      )}
      {said.length > 0 && state !== 'running' && <pre>{said.join('\n')}</pre>}
    </li>
  );
}

async function tell(store: Store, path: string, body: object): Promise<void> {
  try {
    await store.api.post(path, body);
  } catch (error) {
    store.say(error instanceof Refused ? `${error.message}; ${error.help}` : 'Liftside does not answer');
  }
}
