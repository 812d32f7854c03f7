import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, rename, rm } from 'node:fs/promises';
import { dirname, isAbsolute, join, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { placeFile } from '../files/place-file.ts';
import { HOME, IN_ONE_FILE, type OneFile, oneFileFolder, stampsOf } from './one-file.ts';

/** What was changed so short a time ago is still being worked on: the next time it would have to be put together again. */
const AT_REST_MS = 10 * 60_000;

/**
 * Puts the program with {@link IN_ONE_FILE} together, for the next time one of them is typed. A place that cannot be
 * written to only makes the next one slower.
 *
 * @param now ms
 * @param home where the program lies
 * @returns true where there is one now
 */
export async function makeOneFile(now: number, home = HOME): Promise<boolean> {
  const folder = oneFileFolder(home);
  try {
    // Putting it together takes a second or two, which is not spent on what will not be kept.
    const sources = await readdir(join(home, 'src'), { recursive: true });
    if (now - stampsOf(sources.map((name) => join(home, 'src', name))).changed < AT_REST_MS) return false;
    await mkdir(folder, { recursive: true });
    const made = await mkdtemp(join(folder, 'made-'));
    try {
      const files = await bundle(home, made);
      const before = stampsOf(files);
      if (now - before.changed < AT_REST_MS) return false;
      const place = join(folder, `program-${before.sum}`);
      await rm(place, { recursive: true, force: true });
      await rename(made, place);
      const all = [...files, ...(await readdir(place)).map((name) => join(place, name))];
      const one: OneFile = { entry: `program-${before.sum}/main.mjs`, files: all, sum: stampsOf(all).sum };
      await placeFile(join(folder, 'program.json'), JSON.stringify(one));
      // With what killed runs have left. One that is at work now only does not come to its end.
      const old = (await readdir(folder)).filter(
        (name) => /^(?:program|made)-/.test(name) && name !== `program-${before.sum}`,
      );
      await Promise.all(old.map((name) => rm(join(folder, name), { recursive: true, force: true })));
      return true;
    } finally {
      await rm(made, { recursive: true, force: true });
    }
  } catch {
    return false;
  }
}

/** Writes the program into a folder. @returns absolute paths of all that decides what it is */
async function bundle(home: string, to: string): Promise<readonly string[]> {
  // Slow to load, and wanted once.
  const { build } = await import('rolldown');
  const files = new Set<string>();
  await build({
    input: join(home, 'src/node/cli/main.ts'),
    platform: 'node',
    logLevel: 'silent',
    // What brings code of the machine, or looks for files beside itself by a way of its own; and Astro, which few runs need.
    external: ['highs', 'rolldown', /^astro(?:$|\/)/],
    plugins: [
      {
        name: 'some commands alone',
        resolveDynamicImport(name, from) {
          if (from === undefined || typeof name !== 'string' || !staysWhereItIs(name, from)) return null;
          return { id: new URL(name, pathToFileURL(from)).href, external: true };
        },
        transform(code, id) {
          files.add(id.replace(/\?.*$/, ''));
          // Whatever looks for files beside itself finds them where it was.
          return code.includes('import.meta.')
            ? code
                .replaceAll('import.meta.dirname', JSON.stringify(dirname(id)))
                .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id).href))
            : null;
        },
      },
    ],
    output: { dir: to, format: 'esm', minify: true, entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' },
  });
  const read = [...files].filter((file) => isAbsolute(file) && existsSync(file));
  return [...new Set([...read, ...read.flatMap(manifestsOf)])].toSorted();
}

/** The other commands, and the bundling of pages, which takes all of Astro and is done once. */
function staysWhereItIs(name: string, from: string): boolean {
  if (from.endsWith(`${sep}commands.ts`)) return !IN_ONE_FILE.some((command) => name === `./${command}.ts`);
  return name === './bundle-pages.ts';
}

/** What says which package a file is of, and which packages there are. */
function manifestsOf(file: string): readonly string[] {
  const parts = file.split(sep);
  const at = parts.lastIndexOf('node_modules');
  if (at === -1) return [];
  const packages = parts.slice(0, at + 1).join(sep);
  const name = parts.slice(at + 1, parts[at + 1]?.startsWith('@') ? at + 3 : at + 2);
  return [join(packages, ...name, 'package.json'), join(packages, '.package-lock.json')].filter((each) =>
    existsSync(each),
  );
}
