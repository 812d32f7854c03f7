import { isFootage } from '../../core/media/index.ts';
import { slug } from '../../core/read/index.ts';

/** A file as far as it is told from others and given a place. */
export interface ChosenFile {
  readonly name: string;
  readonly size: number;
  readonly lastModified: number;
}

/** Files that will be taken in, and the names of those that are no footage. */
export interface Chosen<F extends ChosenFile> {
  readonly files: readonly F[];
  readonly left: readonly string[];
}

/** What was chosen so far, with what is chosen now: cards come one after the other, and a file counts once. */
export function addFiles<F extends ChosenFile>(before: Chosen<F>, chosen: readonly F[]): Chosen<F> {
  // Hidden files are those of systems.
  const seen = chosen.filter(({ name }) => !name.startsWith('.'));
  const footage = seen.filter(({ name }) => isFootage(name));
  const left = seen.filter(({ name }) => !isFootage(name)).map(({ name }) => name);
  const once = new Map([...before.files, ...footage].map((file) => [keyOf(file), file]));
  return { files: [...once.values()], left: [...new Set([...before.left, ...left])] };
}

function keyOf({ name, size, lastModified }: ChosenFile): string {
  return `${size} ${lastModified} ${name}`;
}

/**
 * Names for files that lie in one folder: their own. Cameras number their files alike, so a further file of a name goes
 * into a folder beside them, `card-2`, the next one into `card-3`; its own name, which tells what wrote it, stays.
 */
export function placeNames(files: readonly ChosenFile[]): string[] {
  const taken = new Map<string, number>();
  return files.map(({ name }) => {
    // Some disks hold A.MP4 and a.mp4 to be one.
    const alike = name.toLowerCase();
    const nth = (taken.get(alike) ?? 0) + 1;
    taken.set(alike, nth);
    return nth === 1 ? name : `card-${nth}/${name}`;
  });
}

/** A size as a person reads it. */
export function sizeText(bytes: number): string {
  const [unit, size] = bytes >= 1e9 ? (['GB', bytes / 1e9] as const) : (['MB', bytes / 1e6] as const);
  return `${Math.max(0.1, size).toFixed(size < 10 ? 1 : 0)} ${unit}`;
}

/** Id of a new recording: its title in small letters; numbered where the title has none that an id may have. */
export function recordingId(title: string, taken: readonly string[]): string | undefined {
  if (title.trim() === '') return undefined;
  if (/[a-z0-9]/i.test(title.normalize('NFKD'))) return slug(title);
  let id = 'recording';
  for (let n = 2; taken.includes(id); n++) id = `recording-${n}`;
  return id;
}
