import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { manifestText, type PackageManifest, readManifest } from '../../../src/core/pack/index.ts';

const MANIFEST: PackageManifest = {
  format: 'liftside-package',
  version: 1,
  kind: 'lesson',
  id: 'chain',
  title: 'Chain',
  shop: 'Millrace Community Garage',
  language: 'en',
  invented: true,
  opens: 'pages/lessons/chain/index.html',
  lessons: ['chain'],
  films: [{ recording: 'chain', plays: 'programme', files: ['film/chain.mp4'] }],
};

test('what is written is read again', () => {
  expect(readManifest(manifestText(MANIFEST))).toEqual({ ok: true, value: MANIFEST });
});

// The published schema, by a validator of JSON Schema 2020-12 that knows nothing of ours.
test('the schema in docs/ takes it, and nothing that is not one', () => {
  const schema = JSON.parse(readFileSync(resolve('docs/package.schema.json'), 'utf8'));
  const valid = new Ajv2020({ strict: false }).compile(schema);
  expect(valid(MANIFEST), JSON.stringify(valid.errors)).toBe(true);
  expect(valid({ ...MANIFEST, version: 2 })).toBe(false);
  expect(valid({ ...MANIFEST, kind: 'book' })).toBe(false);
  expect(valid({ ...MANIFEST, more: 1 })).toBe(false);
});

test.each([
  ['{', /no JSON/],
  ['[]', /not that of a lesson package/],
  [JSON.stringify({ name: 'x', version: '1.0.0' }), /not that of a lesson package/],
  [JSON.stringify({ ...MANIFEST, version: 2, more: true }), /version 2 of the format, and this Liftside reads up to 1/],
  [JSON.stringify({ ...MANIFEST, lessons: 'chain' }), /lessons/],
])('%s is refused with words', (text, says) => {
  const read = readManifest(text);
  expect(read.ok ? '' : read.problem).toMatch(says);
});
