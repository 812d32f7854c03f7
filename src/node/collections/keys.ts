import {
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  hash,
  type KeyObject,
  sign as signBytes,
  verify as verifyBytes,
} from 'node:crypto';
import { realpath, writeFile } from 'node:fs/promises';
import { dirname, join, resolve, sep } from 'node:path';
import { signedText, type Unsigned } from '../../core/collections/index.ts';
import { type CollectionManifest, fingerprint, thumbprintText } from '../../core/model/index.ts';
import { OutsideFailure } from '../failure.ts';
import { errorCode } from '../files/index.ts';
import { readPlain } from '../files/read-plain.ts';

/** Longest key file that is read, bytes: an Ed25519 key has some 120. */
const MOST_KEY = 10_000;

/** A publisher's key: the private half signs, the public one stands in what was signed. */
export interface PublisherKey {
  readonly key: KeyObject;
  /** Public half, as RFC 8037 writes it. */
  readonly x: string;
}

/**
 * Makes a key and puts it into a new file that only its owner may read (PKCS #8, PEM).
 *
 * @param file absolute path; refused in the content folder, which is given to others, and where something is already
 */
export async function makeKey(file: string, content: string): Promise<PublisherKey> {
  const folder = await realpath(dirname(file)).catch(() => dirname(file));
  const inside = await realpath(content).catch(() => resolve(content));
  if (`${join(folder, 'key')}`.startsWith(inside + sep))
    throw new OutsideFailure(
      `${file} lies in the content folder, and what lies there is given to others`,
      'put the key where only you go; nothing was written',
      true,
    );
  const { privateKey } = generateKeyPairSync('ed25519');
  try {
    await writeFile(file, privateKey.export({ type: 'pkcs8', format: 'pem' }), {
      flag: 'wx',
      mode: 0o600,
      flush: true,
    });
  } catch (error) {
    if (errorCode(error) !== 'EEXIST') throw error;
    throw new OutsideFailure(`${file} is there already`, 'a key that is overwritten is lost; name a new file', true);
  }
  return keyOf(privateKey);
}

/** @throws OutsideFailure when the file is missing or holds no private Ed25519 key */
export async function readKey(file: string): Promise<PublisherKey> {
  const help = 'name the file that `liftside collections key` has made';
  const text = await readPlain(file, MOST_KEY).catch((error: unknown) => {
    throw new OutsideFailure(
      errorCode(error) === 'ENOENT' ? `there is no ${file}` : `${file} cannot be read`,
      help,
      true,
    );
  });
  let key: KeyObject;
  try {
    key = createPrivateKey(text);
  } catch {
    throw new OutsideFailure(`${file} holds no private key`, help, true);
  }
  if (key.asymmetricKeyType !== 'ed25519') throw new OutsideFailure(`${file} holds no Ed25519 key`, help, true);
  return keyOf(key);
}

function keyOf(key: KeyObject): PublisherKey {
  return { key, x: createPublicKey(key).export({ format: 'jwk' }).x ?? '' };
}

/** The key as people compare it by phone. @param x public key, base64url */
export function fingerprintOf(x: string): string {
  return fingerprint(hash('sha256', thumbprintText(x)));
}

/** Signs a manifest with Ed25519 (RFC 8032). */
export function signManifest(unsigned: Omit<Unsigned, 'key'>, { key, x }: PublisherKey): CollectionManifest {
  const whole = { ...unsigned, key: x };
  return { ...whole, signature: signBytes(null, Buffer.from(signedText(whole)), key).toString('base64url') };
}

/** True where the signature holds for the key that the manifest names. */
export function isSigned(manifest: CollectionManifest): boolean {
  try {
    const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: manifest.key }, format: 'jwk' });
    return verifyBytes(null, Buffer.from(signedText(manifest)), key, Buffer.from(manifest.signature, 'base64url'));
  } catch {
    // Forty-three signs that are no key.
    return false;
  }
}
