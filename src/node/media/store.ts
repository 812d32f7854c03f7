import { hash, randomBytes } from 'node:crypto';
import { mkdir, readdir, rename, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { type Job, jobText } from '../../core/media/index.ts';
import { errorCode } from '../files/error-code.ts';
import { isRunning } from '../files/is-running.ts';
import { privateFolder } from '../files/private-folder.ts';
import { holdRoom, makeWritable } from './disk.ts';

/** Results no run has asked for in this time are removed, ms. */
const KEPT_FOR = 30 * 24 * 3600 * 1000;

/** What tells one job from all others: its task, and a sum of all that decides its result. */
export function jobId(job: Job, toolVersion: string): string {
  return `${job.task}-${hash('sha256', jobText(job, toolVersion)).slice(0, 32)}`;
}

/**
 * Results of jobs, by content: `.liftside/media` in the content folder. A result is written under a temporary name and
 * renamed when whole, so that what lies here under its own name is whole.
 */
export class Store {
  /** `.liftside` in the content folder. */
  readonly root: string;
  readonly #temporary: string;
  /** Temporary folders of this process that are in use: one store may be open while another is. */
  static readonly #inUse = new Set<string>();

  private constructor(root: string) {
    this.root = root;
    this.#temporary = join(root, 'tmp', `${process.pid}-${randomBytes(4).toString('hex')}`);
  }

  /**
   * Opens the store of a content folder, and clears away what runs that were killed have left.
   *
   * @throws OutsideFailure when nothing can be written there
   */
  static async open(content: string): Promise<Store> {
    const store = new Store(join(content, '.liftside'));
    await makeWritable(store.root, 'make it writable for yourself, or work on a copy of the content folder');
    await privateFolder(content, 'media');
    await privateFolder(content, 'tmp');
    Store.#inUse.add(store.#temporary);
    await store.#clear();
    await mkdir(store.#temporary, { recursive: true });
    return store;
  }

  /** Where the result of a job lies once it is done. */
  path(job: Job, toolVersion: string, extension: string): string {
    return this.named(`${jobId(job, toolVersion)}.${extension}`);
  }

  /** Where the result of that name lies. */
  named(name: string): string {
    return join(this.root, 'media', name);
  }

  /** True when the result is there; it then counts as used today. */
  async has(path: string): Promise<boolean> {
    const now = new Date();
    return utimes(path, now, now).then(
      () => true,
      () => false,
    );
  }

  /** A name of this run's own for something unfinished. */
  temporary(extension: string): string {
    return join(this.#temporary, `${randomBytes(6).toString('hex')}.${extension}`);
  }

  /** An empty folder of this run's own. */
  async temporaryFolder(): Promise<string> {
    const folder = join(this.#temporary, randomBytes(6).toString('hex'));
    await mkdir(folder, { recursive: true });
    return folder;
  }

  /**
   * Puts a finished file or folder in its place, in one step. A folder that another run has put there meanwhile stays:
   * it is the result of the same work, and may be in use.
   *
   * @throws OutsideFailure when the disk is full: it may be cut short
   */
  async keep(temporary: string, path: string): Promise<void> {
    await holdRoom(this.root);
    await rename(temporary, path).catch((error: unknown) => {
      if (!['ENOTEMPTY', 'EEXIST'].includes(errorCode(error) ?? '')) throw error;
    });
    // The disk may keep another time than this machine, by which it would be old at once.
    await this.has(path);
  }

  /** Removes this run's temporary files, and results that have not been used for long. */
  async close(): Promise<void> {
    await rm(this.#temporary, { recursive: true, force: true });
    Store.#inUse.delete(this.#temporary);
    const folder = join(this.root, 'media');
    for (const name of await readdir(folder).catch(() => [])) {
      const path = join(folder, name);
      const known = await stat(path).catch(() => undefined);
      if (known && Date.now() - known.mtimeMs > KEPT_FOR) await rm(path, { recursive: true, force: true });
    }
  }

  async #clear(): Promise<void> {
    const folder = join(this.root, 'tmp');
    for (const name of await readdir(folder).catch(() => []))
      if (!Store.#inUse.has(join(folder, name)) && !isAtWork(Number(name.split('-')[0])))
        await rm(join(folder, name), { recursive: true, force: true });
  }
}

/** Another process that runs; whatever bears this one's number was left by an earlier of that number. */
function isAtWork(pid: number): boolean {
  return pid !== process.pid && isRunning(pid);
}
