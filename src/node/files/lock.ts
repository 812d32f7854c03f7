import { closeSync, openSync, readFileSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { DatabaseSync } from 'node:sqlite';
import { setTimeout as pause } from 'node:timers/promises';
import { OutsideFailure } from '../failure.ts';

/** How long a writer waits for another one, ms: many times what any save takes. */
const PATIENCE = 10_000;
/** Time between two tries, ms. */
const BETWEEN = 10;

export interface LockWishes {
  /** What is done under the lock, as the one who waits is told: "a save". */
  readonly what: string;
  /** ms; 0 gives up at once. */
  readonly patience?: number;
  /** The lock's file goes when the work is done, where it would lie in somebody's own folder. */
  readonly passing?: boolean;
}

/** A database that nobody holds on to is closed by the collector of garbage, and its lock is gone. */
const inHand = new Set<DatabaseSync>();

/** Somebody else holds the lock. */
export class Locked extends OutsideFailure {}

/**
 * Does work that only one process and one task may do at a time.
 *
 * The lock is the operating system's own, taken on a file by SQLite, which comes with Node: it ends with the process
 * however that ends, so that nobody is locked out by a crash, and no clock, set right or wrong, has a say. Beside the
 * file lies who holds it, for the words of the one who waits. On a network disk it holds as far as that disk's locks do.
 *
 * @param file absolute path of the lock's file, in a folder that is there
 * @throws Locked when another one still works after `patience`
 * @throws what the file system says, with its code, when the file cannot be made
 */
export async function withLock<T>(file: string, wishes: LockWishes, work: () => Promise<T>): Promise<T> {
  const { what, patience = PATIENCE, passing = false } = wishes;
  const tries = Math.ceil(patience / BETWEEN);
  let held = take(file);
  for (let n = 0; held === undefined && n < tries; n++) {
    await pause(BETWEEN);
    held = take(file);
  }
  if (held === undefined) throw lockedBy(file);
  inHand.add(held);
  const owner = ownerFile(file);
  try {
    note(owner, { process: process.pid, what, since: new Date().toISOString() });
    return await work();
  } finally {
    // Removed while it is held: whoever has opened the old file finds that another one lies there, and tries again.
    forget(owner);
    if (passing) forget(file);
    inHand.delete(held);
    held.close();
  }
}

/** The database that holds the lock; nothing while another one has it. */
function take(file: string): DatabaseSync | undefined {
  const before = inode(file) ?? touchFile(file);
  const database = new DatabaseSync(file, { timeout: 0 });
  try {
    // Nothing is ever written into it, and no file of SQLite's own beside it either: a full disk may hold the lock too.
    database.exec('PRAGMA journal_mode = MEMORY; BEGIN EXCLUSIVE');
    if (inode(file) === before) return database;
  } catch (error) {
    if (!isBusy(error)) {
      database.close();
      throw error;
    }
  }
  database.close();
  return undefined;
}

const SQLITE_BUSY = 5;

function isBusy(error: unknown): boolean {
  return error instanceof Error && 'errcode' in error && error.errcode === SQLITE_BUSY;
}

function inode(file: string): number | undefined {
  return statSync(file, { throwIfNoEntry: false })?.ino;
}

/**
 * Made by the file system itself, whose refusals have a code. Opened and closed without a pause between: to close a
 * file gives up every POSIX lock that the process has on it.
 */
function touchFile(file: string): number | undefined {
  closeSync(openSync(file, 'a'));
  return inode(file);
}

function ownerFile(file: string): string {
  return `${file}-owner.json`;
}

/** Only for the words of whoever waits: without it the lock holds all the same. */
function note(owner: string, told: { process: number; what: string; since: string }): void {
  try {
    // Never through a link that lies there: a content folder may come from somebody else.
    forget(owner);
    writeFileSync(owner, JSON.stringify(told), { flag: 'wx' });
  } catch {
    // A full disk is told by the work itself.
  }
}

function forget(file: string): void {
  try {
    unlinkSync(file);
  } catch {
    // It was not there, or cannot be removed: neither harms.
  }
}

function lockedBy(file: string): Locked {
  const words = 'another Liftside is at work here';
  const help = 'wait until it is done, then try again; nothing was changed';
  try {
    const { process: pid, what, since } = JSON.parse(readFileSync(ownerFile(file), 'utf8')) as Record<string, unknown>;
    if (typeof pid === 'number' && typeof what === 'string' && typeof since === 'string')
      return new Locked(`${words}: ${what}, process ${pid}, since ${since.slice(11, 19)} UTC`, help);
  } catch {
    // It has just ended, or could not say who it is.
  }
  return new Locked(words, help);
}
