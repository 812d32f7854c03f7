/** @jsxImportSource preact */
import './policy.ts';
import { render } from 'preact';
import { Api, type DeskData, type Job, type Opened, Refused } from './api.ts';
import { startChecker } from './checker.ts';
import { Footage } from './footage.ts';
import { Journal } from './journal.ts';
import { followCaptions, loadFootage } from './load-footage.ts';
import { Room } from './Room.tsx';
import { Store } from './store.ts';

async function start(): Promise<void> {
  const place = document.querySelector('#cutting-room');
  const handed = document.querySelector('#desk')?.textContent;
  if (!place || !handed) return;
  const data = JSON.parse(handed) as DeskData;
  const api = new Api({ ...data, page: `${data.base}cutting-room/${data.recording}/` });
  const ended = new AbortController();
  try {
    const opened = await api.get<Opened>(`open/?recording=${data.recording}`);
    const journal = await Journal.open(data.recording);
    const store = new Store(api, opened, journal, await journal.read());
    const footage = new Footage();
    place.replaceChildren();
    render(<Room store={store} footage={footage} data={data} />, place);
    followCaptions(store, footage, ended.signal);
    startChecker(store, footage, data.recording, ended.signal);
    void api.news(
      ended.signal,
      (news) => hear(store, footage, data.recording, news),
      (there) => {
        if (!there) return;
        store.saver.noteChange();
        void api
          .get<{ jobs: Job[] }>('jobs/')
          .then(({ jobs }) => hearJobs(store, footage, data.recording, jobs))
          // The page says already when nobody answers.
          .catch(() => undefined);
      },
    );
    void loadFootage(store, footage, data.recording);
    (document.querySelector<HTMLElement>('#new-title') ?? document.querySelector<HTMLElement>('.strip .over'))?.focus();
  } catch (error) {
    const words = error instanceof Refused ? `${error.message}; ${error.help}` : String(error);
    place.textContent = `The cutting room could not be opened: ${words}`;
  }
}

interface FileNews {
  readonly kind: 'file';
  readonly file: string;
  readonly text: string | null;
}

function hear(store: Store, footage: Footage, recording: string, news: unknown): void {
  if (typeof news !== 'object' || news === null || !('kind' in news)) return;
  if (news.kind === 'file') {
    const { file, text } = news as FileNews;
    // Of captions only those of this recording are on the table.
    if (!file.endsWith('.vtt') || file === store.view.peek().recording?.captions?.file)
      store.saver.noteForeignChange(file, text);
  } else if (news.kind === 'shoot-log') store.logged.value++;
  else if (news.kind === 'phones') store.phonesHeard.value++;
  else if (news.kind === 'facts' && 'facts' in news) {
    if (store.takeInFacts(news.facts as Opened['facts'])) void loadFootage(store, footage, recording);
  } else if (news.kind === 'jobs' && 'jobs' in news && Array.isArray(news.jobs))
    hearJobs(store, footage, recording, news.jobs as Job[]);
}

/** Takes in how work on this recording goes on; what an analysis found is loaded when it has ended. */
function hearJobs(store: Store, footage: Footage, recording: string, all: readonly Job[]): void {
  const before = new Map(store.jobs.peek().map((job) => [job.id, job.state]));
  const jobs = all.filter((job) => job.recording === recording);
  store.jobs.value = jobs;
  const ended = jobs.some(
    ({ id, work, state }) =>
      (work === 'analyse' || work === 'align') &&
      state === 'done' &&
      before.get(id) !== 'done' &&
      (before.has(id) || footage.missing.peek()),
  );
  if (ended) void loadFootage(store, footage, recording);
}

void start();
