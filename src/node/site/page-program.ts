import { mkdir, mkdtemp, readdir, readFile, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { join, relative, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { z } from 'zod';
import { filesBelow } from '../files/index.ts';
import type { BundleWishes, bundlePages } from './bundle-pages.ts';
import type { PageMaker } from './page-maker.ts';
import { programSum } from './program-sum.ts';
import { ShippedPackages } from './shipped-packages.ts';

/** The pages of Liftside, bundled. */
export interface PageProgram {
  /** Sum of all that it was made from. */
  readonly sum: string;
  /** Absolute path of the folder with what browsers load besides the pages. */
  readonly assets: string;
  /** Absolute paths of the folders of packages that have code in it. */
  readonly packages: readonly string[];
  readonly maker: () => PageMaker;
}

/** In the folder of a bundle: the program that makes the pages, and what browsers load besides them. */
const PROGRAM = 'program';
const ASSETS = 'assets';

/** What is written beside a bundle, last: it is whole where all its files are there, as long as they were. */
const NOTES = 'bundle.json';
const schema = z.strictObject({
  entry: z.string(),
  /** Folders, from Liftside's own. */
  packages: z.array(z.string()),
  /** Bytes of each file. */
  files: z.record(z.string(), z.number()),
});
type Notes = z.infer<typeof schema>;

/** A bundle that was not used for so long goes, ms. */
const UNUSED = 7 * 24 * 3_600_000;

/**
 * The pages of this Liftside, bundled for a site: as a build before has bundled them, where program, packages and
 * wishes are the same, or now. Bundles lie with Liftside itself, below `node_modules/.cache`, never with the content,
 * which may be a stranger's; where nothing can be written there, in the scratch folder.
 *
 * @param scratch absolute path of a folder that is there until the pages are made
 * @param bundle by Astro, when left out
 * @throws OutsideFailure when the scripts of a page weigh more than they may
 */
export async function pageProgram(
  wishes: BundleWishes,
  scratch: string,
  bundle: typeof bundlePages = bundleNow,
): Promise<PageProgram> {
  const { home } = wishes;
  const sum = await programSum(home, wishes);
  const bundles = join(home, 'node_modules', '.cache', 'liftside-pages');
  const kept = join(bundles, sum);
  const notes = await wholeBundle(kept);
  if (notes) {
    await used(kept);
    return programIn(kept, notes, sum, home);
  }
  const beside = await mkdir(bundles, { recursive: true })
    .then(() => mkdtemp(join(bundles, 'new-')))
    .catch(() => undefined);
  if (beside === undefined) await mkdir(scratch, { recursive: true });
  const folder = beside ?? (await mkdtemp(join(scratch, 'pages-')));
  try {
    const made = await bundleInto(folder, wishes, bundle);
    if (beside === undefined) return await programIn(folder, made, sum, home);
    await rename(folder, kept).catch(async () => {
      // Another build was quicker, or what is there is damaged.
      if (await wholeBundle(kept)) return;
      await rm(kept, { recursive: true, force: true });
      await rename(folder, kept);
    });
    await clear(bundles);
    return await programIn(kept, (await wholeBundle(kept)) ?? made, sum, home);
  } finally {
    if (beside !== undefined) await rm(beside, { recursive: true, force: true });
  }
}

/** Astro and Vite take a second to load, which a build that has its bundle need not wait for. */
const bundleNow: typeof bundlePages = async (...wanted) => (await import('./bundle-pages.ts')).bundlePages(...wanted);

async function bundleInto(folder: string, wishes: BundleWishes, bundle: typeof bundlePages): Promise<Notes> {
  const shipped = new ShippedPackages(wishes.home);
  const to = { program: join(folder, PROGRAM), assets: join(folder, ASSETS), scaffold: join(folder, 'scaffold') };
  const entry = await bundle(to, wishes, shipped);
  await rm(to.scaffold, { recursive: true, force: true });
  const names = filesBelow(folder);
  const notes: Notes = {
    entry,
    packages: shipped.folders.map((each) => relative(wishes.home, each)),
    files: Object.fromEntries(
      await Promise.all(names.map(async (name) => [name, (await stat(join(folder, name))).size] as const)),
    ),
  };
  await writeFile(join(folder, NOTES), JSON.stringify(notes));
  return notes;
}

/** What is noted of a bundle; nothing where none is there, or a file of it is not what it was. */
async function wholeBundle(folder: string): Promise<Notes | undefined> {
  const text = await readFile(join(folder, NOTES), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  try {
    const notes = schema.parse(JSON.parse(text));
    const sizes = await Promise.all(
      Object.entries(notes.files).map(async ([name, size]) => (await stat(join(folder, name))).size === size),
    );
    return sizes.every(Boolean) ? notes : undefined;
  } catch {
    return undefined;
  }
}

async function programIn(folder: string, notes: Notes, sum: string, home: string): Promise<PageProgram> {
  const entry = pathToFileURL(join(folder, PROGRAM, notes.entry)).href;
  // What it exports is said by the file that it begins with.
  const { pageMaker } = (await import(/* @vite-ignore */ entry)) as typeof import('./page-maker.ts');
  return {
    sum,
    assets: join(folder, ASSETS),
    packages: notes.packages.map((each) => resolve(home, each)),
    maker: pageMaker,
  };
}

/** Where the disk lets nobody write, it counts as used when it was made. */
async function used(folder: string): Promise<void> {
  const now = new Date();
  await utimes(folder, now, now).catch(() => undefined);
}

async function clear(bundles: string): Promise<void> {
  for (const name of await readdir(bundles)) {
    const folder = join(bundles, name);
    const about = await stat(folder).catch(() => undefined);
    if (about && Date.now() - about.mtimeMs > UNUSED) await rm(folder, { recursive: true, force: true });
  }
}
