import { lstatSync, realpathSync, type Stats } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { homedir } from 'node:os';
import { dirname, join, parse, resolve, sep } from 'node:path';
import { OutsideFailure } from '../failure.ts';
import { CONTENT_FOLDERS } from './content-folders.ts';
import { foreignFiles, type Holds, readMarker } from './made-folder.ts';

/** A folder that is to be made, and to take the place of what an earlier run has made there. */
export interface OutputFolder {
  /** Absolute path. */
  readonly target: string;
  readonly holds: Holds;
  /** Absolute path of the content folder: neither it nor what holds it is ever replaced. */
  readonly content: string;
  /** It lies in Liftside's own part of the content folder: whatever is there was made by Liftside. */
  readonly own?: boolean;
}

/** Where systems keep the homes of their users (common practice, no source). */
const HOMES = ['/home', '/Users', '/root'];

/**
 * Holds that a folder may be made, without touching anything: it is new, or empty, or was made by Liftside and holds
 * nothing else since; no link is on the way to it; it is no root, no home, not the content folder and none around it.
 *
 * @throws OutsideFailure, as a wrong call, with the name of what would have been lost
 */
export async function holdOutput(output: OutputFolder): Promise<void> {
  const { target, own = false } = output;
  const refuse = (problem: string, help = 'name a new folder, an empty one, or one that Liftside has made') => {
    throw new OutsideFailure(problem, `${help}; nothing was changed`, true);
  };
  const link = linkOnTheWay(target, own ? output.content : parse(target).root);
  if (link !== undefined)
    refuse(`${target} is reached by the link ${link}`, `name the folder itself, ${realPlace(target)}`);
  const place = realPlace(target);
  const reason = keptReason(place, realPlace(output.content));
  if (reason !== undefined) refuse(`${target} ${reason}, and what is there would be replaced`);
  const there = known(place);
  if (!there || own) return;
  if (!there.isDirectory()) refuse(`${target} is a file, not a folder`);
  if (known(dirname(place))?.dev !== there.dev)
    refuse(`${target} is the root of a disk, which cannot be replaced`, `name a folder in it, such as ${target}/site`);
  const names = await readdir(place);
  if (names.length === 0) return;
  const made = await readMarker(place);
  if (!made) return refuse(`${target} was not made by Liftside and is not empty: it holds ${some(names)}`);
  if (made.holds !== output.holds) refuse(`${target} holds ${made.holds}, and ${output.holds} would take its place`);
  const foreign = await foreignFiles(place, made);
  if (foreign.length > 0)
    refuse(`${target} holds what Liftside did not put there: ${some(foreign)}`, 'move that elsewhere');
}

/** Liftside's own folder. */
const HOME = resolve(import.meta.dirname, '../../..');

/** Why a folder is never replaced, whatever it holds; nothing where it may be. */
function keptReason(place: string, content: string): string | undefined {
  if (place === parse(place).root) return 'is the root of a disk';
  const homes = [realPlace(homedir()), ...HOMES];
  if (homes.some((home) => around(place, home)) || HOMES.includes(dirname(place)))
    return 'is a home folder, or holds one';
  if (place === content) return 'is the content folder';
  if (around(place, content)) return `holds the content folder ${content}`;
  if (around(place, HOME)) return 'holds Liftside itself';
  const written = CONTENT_FOLDERS.find((name) => around(join(content, name), place));
  return written === undefined ? undefined : `lies in ${written}/ of the content folder`;
}

/** True where the outer folder is the inner one, or holds it. */
function around(outer: string, inner: string): boolean {
  return outer === inner || inner.startsWith(outer.endsWith(sep) ? outer : outer + sep);
}

/**
 * The first link on the way from one folder down to another, the last one among it. Links in the root of a disk are the
 * system's own: /tmp is one on some.
 */
function linkOnTheWay(path: string, from: string): string | undefined {
  const { root } = parse(path);
  let at = from;
  for (const part of path.slice(from.length).split(sep).filter(Boolean)) {
    const next = join(at, part);
    if (at !== root && known(next)?.isSymbolicLink()) return next;
    at = next;
  }
  return undefined;
}

/** Where a folder lies or will lie, with no link on the way. */
export function realPlace(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    const above = dirname(path);
    return above === path ? path : resolve(realPlace(above), path.slice(above.length).replace(/^[\\/]/, ''));
  }
}

function known(path: string): Stats | undefined {
  return lstatSync(path, { throwIfNoEntry: false });
}

function some(names: readonly string[]): string {
  const first = names.toSorted().slice(0, 3).join(', ');
  return names.length > 3 ? `${first} and ${names.length - 3} more` : first;
}
