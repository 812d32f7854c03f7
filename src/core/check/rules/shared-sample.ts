import { type Sample, SOUND_SHOP } from '../sample.ts';

/** Fingerprint of the invented publisher's key. */
export const KEY = '"3f2a 91c0 77de 0b14 a8c3 52e9 6d1f 4b80"';

const SUM = '0'.repeat(64);

/** The table of the sound shop as another invented shop publishes it, with its first row alone. */
const TABLE = (SOUND_SHOP['specs/tarn-420.yaml'] ?? '').replace(/ {2}- id: chain-slack[\s\S]*/, '');

const list = (version: string) => `format: liftside-collection
name: tarn-values
version: ${version}
title: Values of the Tarn 420
publisher: Weir Bank Workshop
licence: CC-BY-4.0
key: ${'A'.repeat(43)}
files:
  - {path: specs/tarn-420.yaml, bytes: ${TABLE.length}, sha256: "${SUM}"}
signature: ${'A'.repeat(86)}
`;

/** A version of the collection as it is kept in the content folder. */
export function published(version: string): Readonly<Record<string, string>> {
  const folder = `collections/tarn-values/${version}`;
  return { [`${folder}/collection.yaml`]: list(version), [`${folder}/specs/tarn-420.yaml`]: TABLE };
}

/** The sound shop with a collection in use. @param more lines of its entry in `collections.yaml` */
export function shared(more: string, without: readonly string[] = []): Sample {
  const files = {
    'collections.yaml': `uses:\n  - name: tarn-values\n    folder: ../shelf\n${more}    lock: {version: 1.0.0, sum: "${SUM}", signer: ${KEY}}\n`,
    ...published('1.0.0'),
  };
  return { files, without };
}
