import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { link, mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { pipeline } from 'node:stream/promises';
import {
  type Choose,
  filesNamedIn,
  isContentText,
  PACKAGE_FOLDERS,
  planUnpack,
  type UnpackPlan,
} from '../../core/pack/index.ts';
import { OutsideFailure } from '../failure.ts';
import {
  besideOf,
  clearBeside,
  diskReason,
  errorCode,
  FileSums,
  fileInside,
  flushFolder,
  readContentTexts,
  saveTexts,
  sweep,
  withContentLock,
} from '../files/index.ts';
import type { PackageState } from './check-package.ts';
import { type PackageFiles, PackageRefused, readText } from './package-files.ts';
import { placeProgrammes } from './travelling.ts';

/** Longest text of a package that is unpacked, bytes; the reader of content takes as much. */
const MOST_TEXT = 16_000_000;
const SOURCE = `${PACKAGE_FOLDERS.source}/`;

/** A package's content against a shop's, ready to be written. */
export interface Unpacking {
  readonly plan: UnpackPlan;
  /** Files in `source/` that are no content, and stay in the package. */
  readonly left: readonly string[];
}

/**
 * Compares the content of a package with that of a shop; nothing is written.
 *
 * @param content absolute path of the content folder; it need not be there yet
 * @throws PackageRefused when what would be unpacked is not as it was packed, or cannot be read
 */
export async function prepareUnpacking(
  files: PackageFiles,
  state: PackageState,
  content: string,
  choose: Choose,
): Promise<Unpacking> {
  const amiss = [...state.damaged, ...state.changed, ...state.missing].filter((path) => path.startsWith(SOURCE));
  if (amiss.length > 0)
    throw new PackageRefused(
      `the content of the package is not as it was packed: ${amiss.join(', ')}`,
      'nothing was unpacked; take the package afresh from where it came',
    );
  const sources = [...state.sums.keys()].filter((path) => path.startsWith(SOURCE)).map((p) => p.slice(SOURCE.length));
  const theirs = new Map<string, string>();
  for (const file of sources)
    if (isContentText(file)) theirs.set(file, await readText(files, SOURCE + file, MOST_TEXT));
  const named = filesNamedIn(theirs);
  const others = new Map<string, 'new' | 'same' | 'differs'>();
  for (const file of sources)
    if (named.has(file)) others.set(file, await compare(fileInside(content, file), state.sums.get(SOURCE + file)));
  const there = await stat(content).catch(() => undefined);
  const ours = there ? (await readContentTexts(content, FileSums.uncertain())).texts : new Map<string, string>();
  const plan = planUnpack(ours, theirs, others, choose);
  if (!plan.ok) throw new PackageRefused(plan.problem, plan.help);
  return { plan: plan.value, left: sources.filter((file) => !theirs.has(file) && !named.has(file)) };
}

async function compare(path: string, sum: string | undefined): Promise<'new' | 'same' | 'differs'> {
  const hash = createHash('sha256');
  try {
    await pipeline(createReadStream(path), hash);
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return 'new';
    throw error;
  }
  return hash.digest('hex') === sum ? 'same' : 'differs';
}

/**
 * Writes what the plan says: other files first, since texts name them, then all texts or none. When the texts cannot be
 * written, the files that were put there for them go again. Finished programmes come last, where the recordings are
 * those they were made from.
 *
 * @returns paths that were written, in the content folder
 * @throws OutsideFailure when the disk refuses, or when somebody has changed a text since the plan was made
 */
export async function unpack(
  files: PackageFiles,
  state: PackageState,
  content: string,
  plan: UnpackPlan,
  signal: AbortSignal,
): Promise<readonly string[]> {
  await mkdir(content, { recursive: true });
  await sweep(content);
  const placed: string[] = [];
  try {
    await withContentLock(content, 'unpacking', async () => {
      for (const file of plan.others) await clearBeside(fileInside(content, file));
      for (const file of plan.copies) if (await placeCopy(files, content, file, plan)) placed.push(file);
    });
    if (plan.texts.length > 0) {
      const saved = await saveTexts(content, plan.texts);
      if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help);
    }
  } catch (error) {
    for (const file of placed) await rm(fileInside(content, file), { force: true });
    if (error instanceof OutsideFailure || error instanceof PackageRefused) throw error;
    throw new OutsideFailure(
      `nothing was unpacked into ${content}: ${diskReason(error)}`,
      'mend that, then unpack again; nothing that was there has changed',
    );
  }
  const programmes = await placeProgrammes(files, state, content, signal);
  return [...plan.copies, ...plan.texts.map(({ file }) => file), ...programmes];
}

/** @returns true where the file was not there before, so that it may go again */
async function placeCopy(files: PackageFiles, content: string, file: string, plan: UnpackPlan): Promise<boolean> {
  const target = fileInside(content, file);
  const isNew = plan.compared.some(({ name, state }) => name === file && state === 'new');
  await mkdir(dirname(target), { recursive: true });
  const beside = besideOf(target);
  try {
    await pipeline(await files.read(SOURCE + file), createWriteStream(beside, { flags: 'wx' }));
    const handle = await open(beside, 'r');
    await handle.sync().finally(() => handle.close());
    // A new one is linked, which refuses where somebody has put a file there since.
    if (isNew) await link(beside, target);
    else await rename(beside, target);
    await flushFolder(dirname(target));
    return isNew;
  } finally {
    await rm(beside, { force: true });
  }
}
