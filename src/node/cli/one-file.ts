import { hash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { join, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Where Liftside itself lies. */
export const HOME = resolve(import.meta.dirname, '../../..');

/** The commands that one loads from it: those that are typed most. */
export const IN_ONE_FILE: readonly string[] = ['check', 'build'];

/** What the program was put together from, and the sum of how all that lay on the disk. */
export interface OneFile {
  /** Where it begins, below {@link oneFileFolder}. */
  readonly entry: string;
  /** Absolute paths: each source, those of packages, what says which packages there are, and what was made of them. */
  readonly files: readonly string[];
  readonly sum: string;
}

/** Beside the packages, so that whoever can write there could change the program as well. */
export function oneFileFolder(home: string): string {
  return join(home, 'node_modules', '.cache', 'liftside');
}

/**
 * The program with the commands above in a few files, which are loaded in a third of the time that its thousand take.
 *
 * @returns its address; nothing where there is none, or where any file of which it was made, or itself, is no longer what
 * it was: by its size, its place on the disk, and the times of its last change (of packages the first of the two)
 */
export function findOneFile(home: string): string | undefined {
  try {
    const made: OneFile = JSON.parse(readFileSync(join(oneFileFolder(home), 'program.json'), 'utf8'));
    if (stampsOf(made.files).sum !== made.sum) return undefined;
    return pathToFileURL(join(oneFileFolder(home), made.entry)).href;
  } catch {
    // Not there, or one of the files is gone.
    return undefined;
  }
}

const PACKAGES = `${sep}node_modules${sep}`;

/**
 * The sum of how files lie on the disk, and when the last of them was changed, ms.
 *
 * @throws when one of them is not there
 */
export function stampsOf(files: readonly string[]): { readonly sum: string; readonly changed: number } {
  let changed = 0n;
  const stamps = files.map((file) => {
    const { dev, ino, size, mtimeNs, ctimeNs } = statSync(file, { bigint: true });
    // A package manager that gives another project a link to the same file changes nothing of it but its second time.
    const times = file.includes(PACKAGES) ? [mtimeNs] : [mtimeNs, ctimeNs];
    for (const time of times) if (time > changed) changed = time;
    return [file, dev, ino, size, ...times].join(' ');
  });
  return {
    sum: hash('sha256', [process.version, ...stamps].join('\n'), 'base64url'),
    changed: Number(changed / 1_000_000n),
  };
}
