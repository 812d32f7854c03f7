import { hash } from 'node:crypto';
import { mkdir } from 'node:fs/promises';
import { dirname } from 'node:path';
import {
  type Comparison,
  type FileState,
  isSharedText,
  mayFollow,
  planUpdate,
  type UpdatePlan,
} from '../../core/collections/index.ts';
import type { Lesson } from '../../core/model/index.ts';
import type { Choose } from '../../core/pack/index.ts';
import {
  type Acceptance,
  type CorrectionText,
  correctionOf,
  correctionOfWithdrawn,
  correctionTexts,
  disagreements,
  withdrawnSaid,
} from '../../core/programme/index.ts';
import { keptFolder, readShop } from '../../core/read/index.ts';
import { setYaml } from '../../core/write/index.ts';
import { OutsideFailure } from '../failure.ts';
import { errorCode, fileInside, type LoadedShop, placeFile, saveTexts } from '../files/index.ts';
import { readPlain } from '../files/read-plain.ts';
import { PackageRefused } from '../pack/index.ts';
import { factsIn } from '../pack/source.ts';
import { dropVersions, keepVersion, readKept } from './keep.ts';
import { openSource } from './sources.ts';
import type { Fetching, Use } from './use.ts';
import { type Verified, verifyCollection } from './verify.ts';

const LIST = 'collections.yaml';

/** What was fetched of a collection, verified and kept, against the version in use. */
export interface Fetched {
  readonly use: Use;
  readonly state: 'new' | 'same';
  readonly there: Verified;
  /** The version in use; absent where the collection is new. */
  readonly base?: Verified;
}

/**
 * Fetches a collection, holds it to its signature, its sums and the version in use, and keeps it in the content folder.
 * Nothing of the content changes.
 *
 * @throws PackageRefused by the name of what is amiss; OutsideFailure when it cannot be fetched
 */
export async function fetchCollection(content: string, use: Use, fetching: Fetching): Promise<Fetched> {
  const source = await openSource(use, content, fetching);
  const there = await verifyCollection(source, fetching.signal).finally(() => source.close());
  const follows = mayFollow(use, there);
  if (!follows.ok) throw new PackageRefused(follows.problem, follows.help);
  if (follows.value === 'same') {
    // A version in use that was deleted or damaged is put back.
    await keepVersion(content, there, fetching.signal);
    // An update that was killed at its end has left the version before it.
    await dropVersions(content, use.name, [there.manifest.version]);
    return { use, state: 'same', there };
  }
  const base = await readKept(content, use.name, use.lock, fetching.signal);
  if (base && !base.whole) throw new PackageRefused(base.problem, base.help);
  if (use.lock && !base)
    throw new PackageRefused(
      `${use.name} ${use.lock.version}, which is in use, is not kept any more: what of it this shop has changed cannot be known`,
      `bring ${keptFolder(use.name, use.lock.version)} back from where the content folder is kept, or take lock: out of ${LIST}, so that everything is compared anew`,
    );
  await keepVersion(content, there, fetching.signal);
  return { use, state: 'new', there, ...(base ? { base: base.verified } : {}) };
}

/** What taking a fetched version would do. @throws PackageRefused where a text cannot be merged */
export async function planFetched(
  { content, texts }: LoadedShop,
  { use, there, base }: Fetched,
  choose: Choose,
  comparison: Comparison | undefined,
): Promise<UpdatePlan> {
  const { name, version } = there.manifest;
  const others = new Map<string, FileState>();
  for (const [file, bytes] of there.files)
    if (!isSharedText(file)) others.set(file, await stateOf(content, file, bytes, base?.files.get(file)));
  const plan = planUpdate({ ours: texts, base: textsOf(base?.files), theirs: textsOf(there.files) }, others, {
    from: `${name} ${version}`,
    kept: keptFolder(use.name, version),
    choose,
    comparison,
  });
  if (!plan.ok) throw new PackageRefused(plan.problem, plan.help);
  return plan.value;
}

function textsOf(files: ReadonlyMap<string, Buffer> | undefined): ReadonlyMap<string, string> {
  return new Map(
    [...(files ?? [])].filter(([file]) => isSharedText(file)).map(([file, bytes]) => [file, bytes.toString('utf8')]),
  );
}

/** A caption file or picture of the shop against the two versions. */
async function stateOf(content: string, file: string, there: Buffer, base: Buffer | undefined): Promise<FileState> {
  let here: Buffer;
  try {
    here = await readPlain(fileInside(content, file));
  } catch (error) {
    if (errorCode(error) !== 'ENOENT') throw error;
    return base?.equals(there) ? 'own' : 'new';
  }
  const [ours, theirs, was] = [here, there, base].map((bytes) => bytes && hash('sha256', bytes));
  if (ours === theirs) return 'same';
  if (was === theirs) return 'own';
  return was === ours ? 'changed' : 'differs';
}

/**
 * Corrections for every recording that still says a value which the plan changes or takes back.
 *
 * @throws PackageRefused where a file of corrections cannot be written into
 */
export function correctionsAfter(
  { shop, texts }: LoadedShop,
  { there }: Fetched,
  plan: UpdatePlan,
  acceptance: Acceptance,
): readonly CorrectionText[] {
  if (plan.values.length === 0) return [];
  const next = new Map([...texts, ...plan.texts.map(({ file, text }) => [file, text] as const)]);
  const known = factsIn(shop);
  const after = readShop(next, (file) => {
    const bytes = plan.copies.includes(file) ? there.files.get(file) : undefined;
    return bytes ? { state: 'text', text: bytes.toString('utf8') } : known(file);
  }).shop;
  const changed = ({ lesson, spec }: { readonly lesson: Lesson; readonly spec: string }) =>
    plan.values.includes(`${lesson.machine}#${spec}`);
  const wrong = [
    ...disagreements(after).filter((each) => changed(each) && !correctionOf(after, each)),
    ...withdrawnSaid(after).filter((each) => changed(each) && !correctionOfWithdrawn(after, each)),
  ];
  const changes = correctionTexts(wrong, texts, acceptance);
  if (!changes.ok) throw new PackageRefused(changes.problem, changes.help);
  return changes.value;
}

/**
 * Takes a version: captions and pictures first, since texts name them, then all texts and the lock at once.
 *
 * @param more other texts that follow from it, such as corrections
 * @returns paths that were written
 * @throws OutsideFailure when the disk refuses, or somebody has changed a text since the plan was made
 */
export async function takeFetched(
  { content, texts }: LoadedShop,
  { use, there }: Fetched,
  plan: UpdatePlan,
  more: readonly CorrectionText[],
): Promise<readonly string[]> {
  for (const file of plan.copies) {
    const target = fileInside(content, file);
    await mkdir(dirname(target), { recursive: true });
    await placeFile(target, there.files.get(file) ?? Buffer.alloc(0));
  }
  const was = texts.get(LIST);
  const saved = await saveTexts(content, [
    ...plan.texts,
    ...more.map(({ file, text, was }) => ({ file, text, was })),
    { file: LIST, text: locked(was ?? '', use, there), was },
  ]);
  if (!saved.ok) throw new OutsideFailure(saved.problem, saved.help);
  await dropVersions(content, use.name, [there.manifest.version]);
  return [...plan.copies, ...plan.texts.map(({ file }) => file), ...more.map(({ file }) => file)];
}

/** `collections.yaml` with the version that is in use from now on. */
function locked(text: string, use: Use, { manifest, sum, signer }: Verified): string {
  const lock = { version: manifest.version, sum, signer };
  const document = setYaml(text, ['uses', use.at, 'lock'], lock);
  if (!document.ok) throw new OutsideFailure(`${LIST}: ${document.problem}`, document.help);
  return document.value;
}
