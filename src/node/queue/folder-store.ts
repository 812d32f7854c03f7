import { randomBytes } from 'node:crypto';
import {
  constants,
  copyFile,
  cp,
  link,
  mkdir,
  open,
  readdir,
  realpath,
  rename,
  rm,
  stat,
  writeFile,
} from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { OutsideFailure } from '../failure.ts';
import { errorCode } from '../files/index.ts';
import { diskFull } from '../media/disk.ts';
import { holdName, type MediaStore, NotInStore, StoreAway } from './media-store.ts';

/** Lies in a folder that is a store: without it an empty mount point would pass for one. */
const MARK = 'liftside-store';
/** What a killed process has left half written is cleared after this, ms. */
const LEFT = 24 * 3600_000;

/** A folder that every machine sees, such as a share of the network. Nothing in it is ever changed in place. */
export class FolderStore implements MediaStore {
  readonly shown: string;

  private constructor(root: string) {
    this.shown = root;
  }

  /** Opens one, or makes one of an empty folder. @throws OutsideFailure when it is not there, or is something else */
  static async open(root: string): Promise<FolderStore> {
    const names = await readdir(root).catch(() => undefined);
    if (!names)
      throw new OutsideFailure(
        `the store ${root} is not there, or cannot be read`,
        'make the folder once, below the place where the shared disk is mounted; if it was there before, mount the disk',
      );
    if (!names.includes(MARK)) {
      if (names.length > 0)
        throw new OutsideFailure(`${root} holds something else than a store`, 'name an empty folder in LIFTSIDE_STORE');
      await writeFile(join(root, MARK), 'What jobs of Liftside read and make. It can be made again.\n');
    }
    await clearLeft(join(root, 'tmp'));
    return new FolderStore(root);
  }

  async has(name: string): Promise<boolean> {
    if (await stat(this.#path(name)).catch(() => undefined)) return true;
    await this.#holdThere();
    return false;
  }

  async put(path: string, name: string): Promise<void> {
    const to = this.#path(name);
    if (await this.has(name)) return;
    const temporary = join(this.shown, 'tmp', randomBytes(12).toString('hex'));
    try {
      await Promise.all([dirname(to), dirname(temporary)].map((folder) => mkdir(folder, { recursive: true })));
      const from = await realpath(path);
      const isFolder = (await stat(from)).isDirectory();
      if (isFolder) await cp(from, temporary, { recursive: true });
      else if (isOwn(name)) await linkOrCopy(from, temporary);
      else await copyFile(from, temporary, constants.COPYFILE_FICLONE);
      if (!isFolder) await flush(temporary);
      await rename(temporary, to);
    } catch (error) {
      // Another worker has put the same folder there.
      if (['ENOTEMPTY', 'EEXIST'].includes(errorCode(error) ?? '') && (await this.has(name))) return;
      await this.#holdThere();
      if (errorCode(error) === 'ENOSPC') throw diskFull(this.shown);
      throw error;
    } finally {
      await rm(temporary, { recursive: true, force: true }).catch(() => undefined);
    }
  }

  async get(name: string): Promise<string> {
    if (await this.has(name)) return this.#path(name);
    throw new NotInStore(name, this.shown);
  }

  /** Spread over folders: some file systems are slow with many names in one. */
  #path(name: string): string {
    const sum = /[0-9a-f]{32}/.exec(holdName(name))?.[0] ?? '';
    return join(this.shown, sum.slice(0, 2), name);
  }

  /** @throws StoreAway when the folder is gone, or only the place where it was mounted is left */
  async #holdThere(): Promise<void> {
    if (await stat(join(this.shown, MARK)).catch(() => undefined)) return;
    throw new StoreAway(`the store ${this.shown} cannot be reached`, 'connect or mount its disk again');
  }
}

/** Results are never changed in place; a camera file is, by whoever copies another over it. */
function isOwn(name: string): boolean {
  return !name.startsWith('file-');
}

/** On one disk a second name of the same file, which takes no room and no time; else a copy. */
async function linkOrCopy(from: string, to: string): Promise<void> {
  await link(from, to).catch(() => copyFile(from, to, constants.COPYFILE_FICLONE));
}

/** What is told to be there is on the disk, also after a power cut. */
async function flush(path: string): Promise<void> {
  const file = await open(path, 'r');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}

async function clearLeft(folder: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    const known = await stat(join(folder, name)).catch(() => undefined);
    if (known && Date.now() - known.ctimeMs > LEFT) await rm(join(folder, name), { recursive: true, force: true });
  }
}
