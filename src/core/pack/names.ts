import { outsideReason } from '../model/index.ts';

// Names that Windows keeps for itself, signs that FAT and NTFS cannot hold, and a space or dot at an end, which Windows
// drops. Source: Microsoft, Naming Files, Paths, and Namespaces (from memory).
const RESERVED = /^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(?:\.|$)/i;
const UNKEPT = /[<>:"|?*\\]/;
/** Units of UTF-16 that a name may have on a stick (FAT's long names) and in NTFS. */
const LONGEST_NAME = 255;
/** A path counted from the package: Windows takes 260 with the folder it lies in. */
const LONGEST_PATH = 180;

/** Why a name cannot be that of a file in a package, on any disk; nothing where it can. */
export function packageNameReason(path: string): string | undefined {
  const outside = outsideReason(path);
  if (outside !== undefined) return outside;
  for (const part of path.split('/')) {
    const [sign] = UNKEPT.exec(part) ?? [];
    if (sign !== undefined) return `${sign} cannot stand in a name on a stick`;
    if (RESERVED.test(part)) return `Windows keeps the name ${part} for itself`;
    if (/[ .]$/.test(part)) return `Windows drops the ${part.endsWith('.') ? 'dot' : 'blank'} at the end of ${part}`;
    if (part.length > LONGEST_NAME) return `a name of more than ${LONGEST_NAME} signs cannot be kept`;
  }
  if (path.length > LONGEST_PATH) return `with its folders it has more than ${LONGEST_PATH} signs`;
  return undefined;
}

/** Two names are one file on disks that do not tell capital letters, or composed letters, apart. */
export function sameOnSomeDisk(path: string): string {
  return path.normalize('NFC').toLowerCase();
}

/** Pairs of names that would be one file on such a disk, or a file and a folder of one name. */
export function nameClashes(paths: readonly string[]): readonly (readonly [string, string])[] {
  const files = new Map<string, string>();
  const clashes: [string, string][] = [];
  for (const path of paths) {
    const key = sameOnSomeDisk(path);
    const before = files.get(key);
    if (before !== undefined) clashes.push([before, path]);
    else files.set(key, path);
  }
  const folders = new Map<string, string>();
  for (const path of paths) {
    const parts = path.split('/');
    for (let n = 1; n < parts.length; n++) {
      const folder = parts.slice(0, n).join('/');
      const file = files.get(sameOnSomeDisk(folder));
      if (file !== undefined && file !== path) clashes.push([file, path]);
      const before = folders.get(sameOnSomeDisk(folder));
      if (before === undefined) folders.set(sameOnSomeDisk(folder), folder);
      else if (before !== folder) clashes.push([`${before}/`, `${folder}/`]);
    }
  }
  return clashes;
}
