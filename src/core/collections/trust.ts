import { compare } from 'semver';
import { type CollectionManifest, sameFingerprint } from '../model/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';

/** What a shop has written of a collection it uses. */
export interface Expected {
  readonly name: string;
  /** Fingerprint that was compared by phone. */
  readonly key?: string | undefined;
  readonly lock?: { readonly version: string; readonly sum: string; readonly signer: string } | undefined;
}

/** What was fetched: its signature and sums have been found to hold. */
export interface Signed {
  readonly manifest: CollectionManifest;
  /** SHA-256 of its `collection.yaml`. */
  readonly sum: string;
  /** Fingerprint of the key that signed it. */
  readonly signer: string;
}

/**
 * Whether what was fetched may follow what is in use: of the same name and signer, never older, and never another
 * content under one version. A new key is taken only where somebody has written its fingerprint.
 */
export function mayFollow({ name, key, lock }: Expected, { manifest, sum, signer }: Signed): Parsed<'new' | 'same'> {
  if (manifest.name !== name)
    return fail(
      `${name}: what is there calls itself ${manifest.name}`,
      'correct the name or the place in collections.yaml',
    );
  if (key !== undefined && !sameFingerprint(key, signer))
    return fail(
      `${name}: it is signed by ${signer}, and collections.yaml says ${key}`,
      'none of it was taken; call the publisher and compare the key before you write another one under key:',
    );
  if (!lock) return ok('new');
  if (key === undefined && !sameFingerprint(lock.signer, signer))
    return fail(
      `${name}: the signer has changed: ${lock.version} was signed by ${lock.signer}, ${manifest.version} is by ${signer}`,
      'none of it was taken; call the publisher, compare the new key, and write it under key:',
    );
  const order = compare(manifest.version, lock.version);
  if (order < 0)
    return fail(
      `${name}: ${manifest.version} is older than ${lock.version}, which is in use`,
      'none of it was taken; somebody may be keeping corrections from you: ask the publisher which is the newest',
    );
  if (order > 0) return ok('new');
  if (sum !== lock.sum)
    return fail(
      `${name}: ${manifest.version} is not what was taken under that version`,
      'none of it was taken; a changed collection has a new version: ask the publisher for it',
    );
  return ok('same');
}
