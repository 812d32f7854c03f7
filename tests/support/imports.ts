import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';

/** One import: a file under `src/` and what it names, both relative to `src/`. */
export interface Arrow {
  readonly from: string;
  readonly to: string;
}

export const SRC = resolve(import.meta.dirname, '../../src');

/** Files below a folder whose names end so, with their text; paths relative to the folder. */
export function textsBelow(folder: string, ends: RegExp): { readonly path: string; readonly text: string }[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && ends.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => !path.includes('node_modules'))
    .map((path) => ({ path: relative(folder, path), text: readFileSync(path, 'utf8') }));
}

export function arrowsOf(files: readonly { readonly path: string; readonly text: string }[]): Arrow[] {
  return files.flatMap(({ path, text }) =>
    [...text.matchAll(/(?:from|import)\s*\(?\s*['"](\.[^'"]+)['"]/g)].map((match) => ({
      from: path,
      to: relative(SRC, resolve(SRC, dirname(path), match[1] ?? '')),
    })),
  );
}

/** Files that import themselves by a way round, each way as `a > b > a`. */
export function circlesOf(arrows: readonly Arrow[]): string[] {
  const next = new Map<string, string[]>();
  for (const { from, to } of arrows) next.set(from, [...(next.get(from) ?? []), to]);
  const done = new Set<string>();
  const circles: string[] = [];
  const walk = (path: string, way: readonly string[]) => {
    if (way.includes(path)) circles.push([...way.slice(way.indexOf(path)), path].join(' > '));
    if (done.has(path) || way.includes(path)) return;
    for (const to of next.get(path) ?? []) walk(to, [...way, path]);
    done.add(path);
  };
  for (const path of next.keys()) walk(path, []);
  return circles;
}

/** Packages that a file needs when it runs: what it imports but types, and what it asks the place of. */
export function packagesOf(text: string): string[] {
  const ways = [
    /^\s*(?:import|export)\s(?!\s*type\b)(?:[^;'"=()]*\bfrom\s*)?['"]([^'"]+)['"]/gm,
    /^\s*@import\s+(?:url\()?['"]([^'"]+)['"]/gm,
    // What is only wanted later, and whose place is asked for.
    /\b(?:import|require|import\.meta\.resolve|createRequire\([\w.]+\)\.resolve)\(\s*['"]([^'"]+)['"]/g,
  ];
  return ways
    .flatMap((way) => [...text.matchAll(way)].map(([, name = '']) => name))
    .filter((name) => /^@?[a-z]/.test(name) && !/^(?:node|astro|virtual):/.test(name))
    .map((name) => name.split('/', name.startsWith('@') ? 2 : 1).join('/'));
}
