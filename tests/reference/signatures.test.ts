import { createPrivateKey, createPublicKey, hash, sign, verify } from 'node:crypto';
import { expect, test } from 'vitest';
import { canonicalJson } from '../../src/core/collections/canonical-json.ts';
import { mayFollow } from '../../src/core/collections/index.ts';
import { type CollectionManifest, collectionSchema, thumbprintText } from '../../src/core/model/index.ts';
import { fingerprintOf, isSigned, signManifest } from '../../src/node/collections/keys.ts';
import { published } from '../support/published.ts';
import copied from './signatures.json' with { type: 'json' };

const reference = published(copied);
const ED25519 =
  reference.values[
    'RFC 8032, Edwards-Curve Digital Signature Algorithm, 2017, section 7.1, tests 1 and 2 (from memory)'
  ];
const JOSE =
  reference.values[
    'RFC 8037, CFRG Elliptic Curve Diffie-Hellman and Signatures in JOSE, 2017, appendix A.2 and A.3 (from memory)'
  ];
const JCS = reference.values['RFC 8785, JSON Canonicalization Scheme, 2020, sections 3.2.2 and 3.2.3 (from memory)'];
const SEMVER = reference.values['Semantic Versioning 2.0.0, clause 11 (semver.org; from memory)'];

/** The seed of RFC 8032 in the frame of PKCS #8 that RFC 8410, section 7, gives it. */
function keyOf(secret: string) {
  const der = Buffer.from(`302e020100300506032b657004220420${secret}`, 'hex');
  const key = createPrivateKey({ key: der, format: 'der', type: 'pkcs8' });
  return { key, x: createPublicKey(key).export({ format: 'jwk' }).x ?? '' };
}

const UNSIGNED = {
  format: 'liftside-collection',
  ...{ name: 'tarn-values', version: '1.0.0', title: 'Values' },
  ...{ publisher: 'Weir Bank Workshop', licence: 'CC-BY-4.0' },
  files: [{ path: 'specs/tarn-420.yaml', bytes: 3, sha256: 'a'.repeat(64) }],
} as const;

test('the library signs as RFC 8032 has it, and keys are written as the RFC has them', () => {
  for (const { test: at, secret, public: open, message, signature } of ED25519) {
    const { key, x } = keyOf(secret);
    expect(Buffer.from(x, 'base64url').toString('hex'), String(at)).toBe(open);
    expect(sign(null, Buffer.from(message, 'hex'), key).toString('hex')).toBe(signature);
  }
});

test('a manifest is signed over its canonical text, and whoever knows RFC 8785 and 8032 can verify it', () => {
  const own = keyOf(ED25519[0]?.secret ?? '');
  const manifest = signManifest({ ...UNSIGNED, files: [...UNSIGNED.files] }, own);
  expect(collectionSchema.parse(manifest)).toEqual(manifest);
  const text = `{"files":[{"bytes":3,"path":"specs/tarn-420.yaml","sha256":"${'a'.repeat(64)}"}],"format":"liftside-collection","key":"${own.x}","licence":"CC-BY-4.0","name":"tarn-values","publisher":"Weir Bank Workshop","title":"Values","version":"1.0.0"}`;
  const { signature } = manifest;
  expect(verify(null, Buffer.from(text), createPublicKey(own.key), Buffer.from(signature, 'base64url'))).toBe(true);
  expect(isSigned(manifest)).toBe(true);
  for (const change of [{ version: '1.0.1' }, { publisher: 'Weir bank Workshop' }, { notes: 'x' }, { invented: true }])
    expect(isSigned({ ...manifest, ...change } as CollectionManifest)).toBe(false);
  expect(isSigned({ ...manifest, key: keyOf(ED25519[1]?.secret ?? '').x })).toBe(false);
  expect(isSigned({ ...manifest, key: 'A'.repeat(43) })).toBe(false);
});

test('the fingerprint is the thumbprint of the key, its first half in groups', () => {
  expect(hash('sha256', thumbprintText(JOSE.x), 'base64url')).toBe(JOSE.thumbprint);
  const hex = Buffer.from(JOSE.thumbprint, 'base64url').toString('hex');
  expect(fingerprintOf(JOSE.x).split(' ')).toEqual(hex.slice(0, 32).match(/.{4}/g));
});

test('one value has one canonical text', () => {
  const keys = [...JCS.keysInOrder];
  const shuffled = Object.fromEntries(keys.toReversed().map((key) => [key, 0]));
  expect(canonicalJson(shuffled)).toBe(`{${keys.map((key) => `${JSON.stringify(key)}:0`).join(',')}}`);
  expect(canonicalJson([...JCS.numbers])).toBe(JCS.written);
});

test('a version follows those before it in the order of SemVer, and no later one', () => {
  const versions = [...SEMVER.inOrder];
  const expected = (version: string) => ({ name: 'tarn-values', lock: { version, sum: 'a', signer: 'b' } });
  const signed = (version: string) => ({
    ...{ manifest: { ...UNSIGNED, version, key: '', signature: '', files: [] }, sum: 'c', signer: 'b' },
  });
  for (const [at, version] of versions.entries())
    for (const [than, other] of versions.entries())
      expect([version, other, mayFollow(expected(version), signed(other)).ok]).toEqual([version, other, than > at]);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
