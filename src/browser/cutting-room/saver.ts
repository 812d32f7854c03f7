import { signal } from '@preact/signals';
import { type Merge, mergedText, mergeTexts } from '../../core/edit/index.ts';
import { type Api, type Change, Refused } from './api.ts';
import type { Journal } from './journal.ts';

/** Where the work stands. */
export type SaveState =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  /** The server is away; the page keeps the work and tries again. */
  | { readonly kind: 'waiting' }
  | { readonly kind: 'clash'; readonly file: string; readonly merge: Merge; readonly theirs: string }
  | { readonly kind: 'failed'; readonly problem: string; readonly help: string };

/** What the saver needs of the rest of the page. */
export interface Work {
  texts(): ReadonlyMap<string, string>;
  /** Takes in what somebody else wrote: into what is on the table, and into everything that can be undone. */
  takeIn(file: string, base: string, theirs: string, merged: string): void;
}

const RETRY_MS = 1000;
/** So long after a save, news of what it has replaced may still be on its way. */
const LATE_MS = 5000;
/** Replaced texts of a file that are known again. */
const REPLACED = 8;

/**
 * Sees to it that what is on the table is on the disk. Each change goes into the browser's own store first, so that
 * nothing is lost when this page or the server dies; from there to the server at once; it leaves the store only when
 * the server said that it is written.
 */
export class Saver {
  readonly state = signal<SaveState>({ kind: 'saved' });
  /** Milliseconds from the last change to its being on disk. */
  readonly lastMs = signal(0);
  readonly #api: Api;
  readonly #work: Work;
  readonly #journal: Journal;
  readonly #disk: Map<string, string>;
  /** What each file said before saves of this page. */
  readonly #replaced = new Map<string, readonly string[]>();
  /** News of a file that waits for newer news. */
  readonly #late = new Map<string, ReturnType<typeof setTimeout>>();
  #busy = false;
  #again = false;
  #since = 0;

  constructor(api: Api, work: Work, disk: ReadonlyMap<string, string>, journal: Journal) {
    this.#api = api;
    this.#work = work;
    this.#disk = new Map(disk);
    this.#journal = journal;
  }

  /** Something changed. */
  noteChange(): void {
    this.#since ||= performance.now();
    this.#journal.write(this.#changes());
    void this.#flush();
  }

  /** Somebody else wrote a file. */
  noteForeignChange(file: string, theirs: string | null): void {
    clearTimeout(this.#late.get(file));
    this.#late.delete(file);
    if (theirs === null || theirs === this.#disk.get(file) || theirs === this.#sending.get(file)) return;
    // News and answers come by two ways: this may be the late echo of an earlier save, which would take back what was
    // saved since. Then news of that follows; where none does, somebody has put the old text back.
    if (this.#replaced.get(file)?.includes(theirs))
      this.#late.set(
        file,
        setTimeout(() => this.#takeIn(file, theirs), LATE_MS),
      );
    else this.#takeIn(file, theirs);
  }

  #takeIn(file: string, theirs: string): void {
    const base = this.#disk.get(file);
    if (base === undefined && !this.#work.texts().has(file)) {
      // A file that was not there when the page was opened.
      this.#disk.set(file, theirs);
      this.#work.takeIn(file, '', theirs, theirs);
    } else this.#reconcile(file, theirs);
  }

  /** A person has settled a clash. */
  settleClash(file: string, theirs: string, text: string): void {
    const base = this.#disk.get(file) ?? '';
    this.#disk.set(file, theirs);
    this.#work.takeIn(file, base, theirs, text);
    this.state.value = { kind: 'saving' };
    this.noteChange();
  }

  /** Text of a file on disk, as far as this page knows. */
  onDisk(file: string): string | undefined {
    return this.#disk.get(file);
  }

  #changes(): Change[] {
    return [...this.#work.texts()]
      .filter(([file, text]) => text !== this.#disk.get(file))
      .map(([file, text]) => ({ file, was: this.#disk.get(file) ?? null, text }));
  }

  #sending = new Map<string, string>();

  async #flush(): Promise<void> {
    if (this.state.value.kind === 'clash') return;
    if (this.#busy) {
      this.#again = true;
      return;
    }
    const changes = this.#changes();
    if (changes.length === 0) {
      this.#done();
      return;
    }
    this.#busy = true;
    this.#sending = new Map(changes.map(({ file, text }) => [file, text]));
    this.state.value = { kind: 'saving' };
    try {
      await this.#api.post('save/', { changes });
      for (const { file, was, text } of changes) {
        if (was !== null) this.#replaced.set(file, [...(this.#replaced.get(file) ?? []), was].slice(-REPLACED));
        this.#disk.set(file, text);
      }
      if (this.#changes().length === 0) this.#done();
      else this.#again = true;
    } catch (error) {
      this.#failed(error);
    } finally {
      this.#busy = false;
      this.#sending = new Map();
    }
    if (this.#again) {
      this.#again = false;
      void this.#flush();
    }
  }

  #done(): void {
    this.#journal.write([]);
    if (this.#since > 0) this.lastMs.value = performance.now() - this.#since;
    this.#since = 0;
    this.state.value = { kind: 'saved' };
  }

  #failed(error: unknown): void {
    if (!(error instanceof Refused)) {
      this.state.value = { kind: 'waiting' };
      setTimeout(() => void this.#flush(), RETRY_MS);
      return;
    }
    if (error.status === 409) {
      for (const [file, theirs] of Object.entries(error.now)) {
        if (theirs === null) {
          // Gone: it is written anew, because all of it is on the table.
          this.#disk.delete(file);
          this.#again = true;
        } else if (theirs !== this.#disk.get(file)) this.#reconcile(file, theirs);
      }
      return;
    }
    this.state.value = { kind: 'failed', problem: error.message, help: error.help };
    setTimeout(() => {
      if (this.state.value.kind === 'failed') void this.#flush();
    }, 5 * RETRY_MS);
  }

  #reconcile(file: string, theirs: string): void {
    const base = this.#disk.get(file) ?? '';
    const mine = this.#work.texts().get(file) ?? '';
    const merge = mergeTexts(base, mine, theirs);
    const merged = mergedText(merge);
    if (merged === undefined) {
      this.state.value = { kind: 'clash', file, merge, theirs };
      return;
    }
    this.#disk.set(file, theirs);
    this.#work.takeIn(file, base, theirs, merged);
    if (merged !== theirs) this.#again = true;
    if (!this.#busy) void this.#flush();
  }
}
