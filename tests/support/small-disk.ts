import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { rm, statfs, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A small file system of its own over a folder, to be filled up or made read-only. */
export interface SmallDisk {
  fill(): Promise<void>;
  free(): Promise<void>;
  readOnly(yes: boolean): void;
  unmount(): void;
}

/** True where this user may mount one; elsewhere tests with a real full disk are skipped. */
export function mayMount(): boolean {
  const place = mkdtempSync(join(tmpdir(), 'liftside-mount-'));
  try {
    mountSmallDisk(place).unmount();
    return true;
  } catch {
    return false;
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

/** @param size KiB @throws where mounting is not allowed */
export function mountSmallDisk(folder: string, size = 128): SmallDisk {
  mkdirSync(folder, { recursive: true });
  const call = (command: string, ...words: string[]) => execFileSync(command, words, { stdio: 'ignore' });
  call('mount', '-t', 'tmpfs', '-o', `size=${size}k`, 'tmpfs', folder);
  const filler = join(folder, '.filler');
  return {
    async fill() {
      const { bavail, bsize } = await statfs(folder);
      await writeFile(filler, Buffer.alloc(bavail * bsize)).catch((error: NodeJS.ErrnoException) => {
        // Somebody else took room meanwhile: so much the fuller.
        if (error.code !== 'ENOSPC') throw error;
      });
    },
    free: () => rm(filler, { force: true }),
    readOnly: (yes) => void call('mount', '-o', `remount,${yes ? 'ro' : 'rw'}`, folder),
    unmount: () => void call('umount', '-l', folder),
  };
}
