import { CONTENT_FILES, filesNamed, readShop } from '../read/index.ts';
import { ok, type Parsed } from '../time/index.ts';
import { type Choose, type Compared, mergeText } from './merge.ts';

/** What unpacking would do. */
export interface UnpackPlan {
  readonly compared: readonly Compared[];
  /** Texts to write, by path in the content folder, and what they say now; nothing where they are new. */
  readonly texts: readonly { readonly file: string; readonly text: string; readonly was: string | undefined }[];
  /** Other files of the content that the package brings, the same ones too. */
  readonly others: readonly string[];
  /** Those of them to put there. */
  readonly copies: readonly string[];
  /** Names of what differs and nobody has decided; while there is one, nothing is written. */
  readonly undecided: readonly string[];
}

/**
 * A package's content against that of a shop: merged by id, and nothing that differs is taken unless it was chosen.
 *
 * @param ours texts of the shop, by path
 * @param theirs texts of the package, by path
 * @param others other files of the package's content, by path: whether the shop has the same one
 */
export function planUnpack(
  ours: ReadonlyMap<string, string>,
  theirs: ReadonlyMap<string, string>,
  others: ReadonlyMap<string, 'new' | 'same' | 'differs'>,
  choose: Choose,
): Parsed<UnpackPlan> {
  const compared: Compared[] = [];
  const texts: { file: string; text: string; was: string | undefined }[] = [];
  for (const [file, text] of [...theirs].toSorted(([a], [b]) => (a < b ? -1 : 1))) {
    const was = ours.get(file);
    if (was === undefined) {
      compared.push({ name: file, state: 'new' });
      texts.push({ file, text, was });
      continue;
    }
    const merged = mergeText(file, was, text, choose);
    if (!merged.ok) return merged;
    compared.push(...merged.value.compared);
    if (merged.value.text !== was) texts.push({ file, text: merged.value.text, was });
  }
  const copies: string[] = [];
  for (const [file, state] of [...others].toSorted(([a], [b]) => (a < b ? -1 : 1))) {
    compared.push({ name: file, state });
    if (state === 'new' || (state === 'differs' && choose(file) === 'take')) copies.push(file);
  }
  const undecided = compared
    .filter(({ name, state }) => state === 'differs' && choose(name) === undefined)
    .map(({ name }) => name);
  return ok({ compared, texts, others: [...others.keys()], copies, undecided });
}

/**
 * True for a path that a content text has: only such texts of a package are unpacked. Whom a shop trusts it writes
 * itself.
 */
export function isContentText(file: string): boolean {
  if (file === CONTENT_FILES.collections) return false;
  return Object.values(CONTENT_FILES).some((kind) => (typeof kind === 'string' ? kind === file : kind.test(file)));
}

/** Other files that content texts name: captions, pictures and camera files. Nothing else of a package is unpacked. */
export function filesNamedIn(texts: ReadonlyMap<string, string>): ReadonlySet<string> {
  const { shop } = readShop(texts, () => ({ state: 'picture' }));
  return new Set([
    ...shop.recordings.flatMap(({ written }) => [
      ...written.files.map(({ file }) => file),
      ...(written.angles ?? []).map(({ file }) => file),
    ]),
    ...filesNamed(texts).texts,
    ...shop.lessons.flatMap(({ pictures }) => pictures.map(({ file }) => file)),
  ]);
}
