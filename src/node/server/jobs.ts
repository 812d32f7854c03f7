import { spawn } from 'node:child_process';
import { join } from 'node:path';

/** What takes long and can be started from the page. */
export const WORKS = ['analyse', 'align', 'render', 'burn'] as const;
export type Work = (typeof WORKS)[number];

/** The command line of each. */
const WORDS: Readonly<Record<Work, (recording: string) => readonly string[]>> = {
  analyse: (recording) => ['analyse', recording],
  align: (recording) => ['align', recording, '--write'],
  render: (recording) => ['render', recording],
  burn: (recording) => ['render', recording, '--burn'],
};

/** A piece of work, as the page shows it. */
export interface Job {
  readonly id: number;
  readonly recording: string;
  readonly work: Work;
  readonly state: 'waiting' | 'running' | 'done' | 'failed' | 'stopped';
  /** 0 … 1, of the part that is under way; nothing before it can be told. */
  readonly share?: number;
  /** What is under way, and how long it will take, in words. */
  readonly now: string;
  /** What it said, a line each; where it failed the reason stands last. */
  readonly lines: readonly string[];
}

/** A process that works on a job. */
export interface Worker {
  /** Resolves with the exit code. */
  readonly ended: Promise<number>;
  stop(): void;
}

/** Starts a process; hands over each line that it says. */
export type StartWorker = (words: readonly string[], hear: (line: string) => void) => Worker;

const ENDED_SHOWN = 8;
const LINES_KEPT = 60;
/** As `Progress` writes it: what, how much of it, how long still. */
const PROGRESS = /^(.*): (\d+) %(?:, (about .* left))?$/;

/**
 * Work on footage that pages start, watch and stop: one after the other, since each takes the whole machine; in
 * processes of their own, so that whatever becomes of them the page is there.
 */
export class Jobs {
  readonly #start: StartWorker;
  readonly #tell: (jobs: readonly Job[]) => void;
  #jobs: readonly Job[] = [];
  #next = 1;
  #running: { readonly id: number; readonly worker: Worker; stopped: boolean } | undefined;

  constructor(start: StartWorker, tell: (jobs: readonly Job[]) => void) {
    this.#start = start;
    this.#tell = tell;
  }

  get all(): readonly Job[] {
    return this.#jobs;
  }

  /** Puts work into the row; what waits or runs already is not put there again. */
  add(recording: string, work: Work): void {
    const there = this.#jobs.some((job) => isOpen(job) && job.recording === recording && job.work === work);
    if (there) return;
    // What was tried before is told no longer once it is tried again.
    const others = this.#jobs.filter((job) => job.recording !== recording || job.work !== work || isOpen(job));
    const ended = others.filter((job) => !isOpen(job)).slice(-ENDED_SHOWN);
    const open = others.filter(isOpen);
    this.#set([...ended, ...open, { id: this.#next++, recording, work, state: 'waiting', now: '', lines: [] }]);
    this.#go();
  }

  /** Ends work that runs, takes out what waits; what was done so far serves the next run. */
  stop(id: number): void {
    if (this.#running?.id === id) {
      this.#running.stopped = true;
      this.#change(id, { now: 'Stopping' });
      this.#running.worker.stop();
    } else if (this.#jobs.some((job) => job.id === id && job.state === 'waiting'))
      this.#change(id, { state: 'stopped' });
  }

  /** Ends all work, when the server ends. */
  close(): void {
    for (const job of this.#jobs) if (job.state === 'waiting') this.#change(job.id, { state: 'stopped' });
    if (this.#running) this.stop(this.#running.id);
  }

  #go(): void {
    const next = this.#jobs.find(({ state }) => state === 'waiting');
    if (this.#running || !next) return;
    const { id, recording, work } = next;
    const worker = this.#start(WORDS[work](recording), (line) => this.#hear(id, line));
    const running = { id, worker, stopped: false };
    this.#running = running;
    this.#change(id, { state: 'running', now: 'Reading' });
    void worker.ended.then((code) => {
      this.#running = undefined;
      this.#change(id, { state: running.stopped ? 'stopped' : code === 0 ? 'done' : 'failed', now: '' });
      this.#go();
    });
  }

  #hear(id: number, line: string): void {
    const [, what, percent, left] = PROGRESS.exec(line) ?? [];
    if (what !== undefined) {
      const stopping = this.#running?.id === id && this.#running.stopped;
      if (!stopping) this.#change(id, { share: Number(percent) / 100, now: left ? `${what}, ${left}` : what });
      return;
    }
    const lines = this.#jobs.find((job) => job.id === id)?.lines ?? [];
    if (line.trim() !== '') this.#change(id, { lines: [...lines, line].slice(-LINES_KEPT) });
  }

  #change(id: number, change: Partial<Job>): void {
    this.#set(this.#jobs.map((job) => (job.id === id ? { ...job, ...change } : job)));
  }

  #set(jobs: readonly Job[]): void {
    this.#jobs = jobs;
    this.#tell(jobs);
  }
}

function isOpen({ state }: Job): boolean {
  return state === 'waiting' || state === 'running';
}

/** Starts Liftside's own commands on a content folder. */
export function commandWorker(home: string, content: string): StartWorker {
  const main = join(home, 'src/node/cli/liftside.mjs');
  return (words, hear) => {
    const child = spawn(process.execPath, [main, ...words, '--content', content], {
      stdio: ['ignore', 'ignore', 'pipe'],
      env: { ...process.env, LIFTSIDE_PROGRESS: 'often' },
    });
    let rest = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      const lines = (rest + text).split('\n');
      rest = lines.pop() ?? '';
      for (const line of lines) hear(line);
    });
    const ended = new Promise<number>((done) => {
      child.on('error', (error) => {
        hear(error.message);
        done(1);
      });
      child.on('close', (code) => {
        if (rest !== '') hear(rest);
        done(code ?? 1);
      });
    });
    return { ended, stop: () => child.kill('SIGTERM') };
  };
}
