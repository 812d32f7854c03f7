import { lstatSync, realpathSync } from 'node:fs';
import { join, sep } from 'node:path';
import { outsideReason } from '../../core/model/index.ts';
import { OutsideFailure } from '../failure.ts';

/** An absolute path that was found to lie in a folder, or why it does not. */
export type Inside = { readonly ok: true; readonly path: string } | { readonly ok: false; readonly problem: string };

/**
 * Where a name of content, of a package or of a request lies on disk: the one answer to what "inside" means, for
 * reading, writing, serving and packing.
 *
 * The name has to keep the rule of {@link outsideReason}, and no link on its way may lead out of the folder, into a
 * hidden part of it, in a circle or to nowhere. Links that stay inside are followed: `path` is free of links below the
 * folder, so that whoever opens it opens what was looked at. The file itself need not be there yet. The folder may be
 * reached by a link. Not promised: what another program of the same user swaps between the answer and the opening.
 *
 * @param folder absolute path
 * @param name relative path with `/`
 */
export function insideFolder(folder: string, name: string): Inside {
  const reason = outsideReason(name);
  if (reason !== undefined)
    return { ok: false, problem: `${JSON.stringify(name)} does not lie in the folder: ${reason}` };
  const root = real(folder) ?? folder;
  let path = root;
  for (const part of name.split('/')) {
    const next = join(path, part);
    if (!isLink(next)) {
      path = next;
      continue;
    }
    const target = real(next);
    if (target === undefined) return { ok: false, problem: `${name} goes through a link that leads nowhere` };
    if (!target.startsWith(root + sep)) return { ok: false, problem: `${name} goes through a link that leads out` };
    if (
      outsideReason(
        target
          .slice(root.length + 1)
          .split(sep)
          .join('/'),
      ) !== undefined
    )
      return { ok: false, problem: `${name} goes through a link into a hidden folder` };
    path = target;
  }
  return { ok: true, path };
}

/**
 * Where names of one folder may lie, for a thousand of them at a time: the folders on their way are looked at once. The
 * name itself is not, and has to be found to be a file and no link by whoever asks.
 *
 * @returns nothing where a folder on the way is a link or leads out: {@link insideFolder} is to be asked
 */
export function besideEachOther(folder: string): (name: string) => string | undefined {
  const folders = new Map<string, string | undefined>();
  return (name) => {
    const end = name.lastIndexOf('/');
    if (end === -1 || outsideReason(name) !== undefined) return undefined;
    const own = name.slice(0, end);
    if (!folders.has(own)) {
      const inside = insideFolder(folder, own);
      folders.set(own, inside.ok && inside.path === join(real(folder) ?? folder, own) ? inside.path : undefined);
    }
    const path = folders.get(own);
    return path === undefined ? undefined : `${path}${sep}${name.slice(end + 1)}`;
  };
}

function isLink(path: string): boolean {
  try {
    return lstatSync(path).isSymbolicLink();
  } catch {
    return false;
  }
}

function real(path: string): string | undefined {
  try {
    return realpathSync(path);
  } catch {
    return undefined;
  }
}

/**
 * Absolute path of a file that content names, to be opened.
 *
 * @throws OutsideFailure when it does not lie inside; see {@link insideFolder}
 */
export function fileInside(folder: string, name: string): string {
  const inside = insideFolder(folder, name);
  if (inside.ok) return inside.path;
  throw new OutsideFailure(inside.problem, `put the file itself into ${folder}, and name it from there`);
}
