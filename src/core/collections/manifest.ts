import { stringify } from 'yaml';
import { type CollectionManifest, collectionSchema } from '../model/index.ts';
import { nameClashes, packageNameReason } from '../pack/index.ts';
import { Points, readYaml } from '../read/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';
import { canonicalJson } from './canonical-json.ts';
import { isShareable } from './shareable.ts';

/** Name of the file that says what a collection is. */
export const COLLECTION_FILE = 'collection.yaml';

/** Longest `collection.yaml` that is read, bytes. */
export const MOST_MANIFEST = 1_000_000;
/** Longest file of a collection, bytes; the reader of content takes as much. */
export const MOST_FILE = 16_000_000;
/** All files of a collection together, bytes, and how many. */
export const MOST_ALL = 64_000_000;
export const MOST_FILES = 2_000;

/** A manifest before it is signed. */
export type Unsigned = Omit<CollectionManifest, 'signature'>;

const AFRESH = 'none of it was taken; ask the publisher for it';

/**
 * The text that is signed: the manifest without its signature, in the one form that JSON has for it.
 */
export function signedText({ signature: _, ...rest }: Unsigned & { readonly signature?: string }): string {
  return canonicalJson(rest);
}

/** `collection.yaml` as it is written. */
export function manifestYaml(manifest: CollectionManifest): string {
  return stringify(manifest, { lineWidth: 0 });
}

/**
 * What a collection says of itself; its signature is not looked at here.
 *
 * @returns refused, with the place, where it is not as the format has it, and by the name of the file where it names one
 *   that no collection may hold, one too long, or too many
 */
export function readCollection(text: string): Parsed<CollectionManifest> {
  const { value, diagnostics } = readYaml(text, new Points(COLLECTION_FILE, text), 0, collectionSchema, 'a collection');
  const [first] = diagnostics;
  if (first)
    return fail(
      `${COLLECTION_FILE}:${first.place.start.line}:${first.place.start.column}: ${first.message}`,
      `${first.help}; ${AFRESH}`,
    );
  if (!value) return fail(`${COLLECTION_FILE} cannot be read`, AFRESH);
  const problem = filesProblem(value);
  return problem === undefined ? ok(value) : fail(problem, AFRESH);
}

/** Why the files of a collection are not taken, by name; nothing where they may be. */
function filesProblem({ files }: CollectionManifest): string | undefined {
  if (files.length > MOST_FILES) return `it names ${files.length} files, more than ${MOST_FILES}`;
  for (const { path, bytes } of files) {
    const reason = packageNameReason(path);
    if (reason !== undefined) return `${JSON.stringify(path)}: ${reason}`;
    if (!isShareable(path)) return `${path}: no collection holds such a file`;
    if (bytes > MOST_FILE) return `${path}: it has ${bytes} bytes, more than the ${MOST_FILE} that a file may have`;
  }
  const all = files.reduce((sum, { bytes }) => sum + bytes, 0);
  if (all > MOST_ALL) return `its files have ${all} bytes, more than the ${MOST_ALL} that all may have together`;
  const [clash] = nameClashes(files.map(({ path }) => path));
  return clash && `${clash[1]}: on many disks it is the same name as ${clash[0]}`;
}
