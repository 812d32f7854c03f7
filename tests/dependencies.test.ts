import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { z } from 'zod';
import {
  auditDependencies,
  type LockFile,
  lockFile,
  packagesWithBinaries,
  type Reviewed,
  reviewedFile,
} from './support/dependency-audit.ts';
import { packagesOf, SRC, textsBelow } from './support/imports.ts';

const HOME = resolve(import.meta.dirname, '..');
const json = (name: string): unknown => JSON.parse(readFileSync(resolve(HOME, name), 'utf8'));
const lock = lockFile.parse(json('package-lock.json'));
const reviewed = reviewedFile.parse(json('reviewed-dependencies.json'));
const binaries = packagesWithBinaries(resolve(HOME, 'node_modules'));

test('every package that runs a program when installed, holds one, or has another licence was looked at', () => {
  expect(auditDependencies(lock, binaries, reviewed)).toEqual([]);
});

test('the walk over what is installed sees programs: Node’s own, and a library', () => {
  expect([...binaries].some((name) => name.startsWith('@rolldown/binding-'))).toBe(true);
  expect(binaries.has('node') || [...binaries].some((name) => name.startsWith('node-'))).toBe(true);
});

test('the program needs what is installed with it, no less and no more: what only tests use comes with the tools', () => {
  const { dependencies, optionalDependencies } = z
    .object({ dependencies: z.record(z.string(), z.string()), optionalDependencies: z.record(z.string(), z.string()) })
    .parse(json('package.json'));
  const texts = textsBelow(SRC, /\.(ts|tsx|mjs|astro|css)$/).map(({ text }) => text);
  const needed = new Set([...texts, readFileSync(resolve(HOME, 'astro.config.mjs'), 'utf8')].flatMap(packagesOf));
  expect([...needed].toSorted()).toEqual(Object.keys({ ...dependencies, ...optionalDependencies }).toSorted());
});

test.each([
  ["import type { Root } from 'mdast';", []],
  ["import { type Entry } from 'yauzl';", ['yauzl']],
  ["import {\n  a,\n  b,\n} from '@preact/signals/utils';", ['@preact/signals']],
  ["import 'video.js';\nimport { a } from './a.ts';\nimport { b } from 'node:fs';", ['video.js']],
  ["export { a } from 'zod';", ['zod']],
  ["const a = () => import('jsqr');", ['jsqr']],
  ["createRequire(import.meta.url).resolve('yazl')", ['yazl']],
  ["@import '@fontsource-variable/a/index.css';", ['@fontsource-variable/a']],
  ["resolve('docs'); const a = 'from'; export const b = 'zod';", []],
])('%s needs %j', (text, names) => expect(packagesOf(text)).toEqual(names));

const why = 'a reason that is long enough';
const known: Reviewed = {
  licences: { MIT: why },
  packages: {},
  installScripts: { tool: why },
  native: { 'tool-*': why },
};
const found = (packages: LockFile['packages'], native: readonly string[] = []) =>
  auditDependencies(
    {
      packages: {
        '': {},
        'node_modules/tool': { license: 'MIT', hasInstallScript: true },
        'node_modules/tool-x': { license: 'MIT', cpu: ['x64'] },
        ...packages,
      },
    },
    new Set(native),
    known,
  ).map(({ what }) => what);

test.each<[string, LockFile['packages'], readonly string[], string[]]>([
  ['nothing new', {}, [], []],
  ['a licence', { 'node_modules/a': { license: 'GPL-3.0' } }, [], ['a has the licence GPL-3.0']],
  ['no licence', { 'node_modules/a': {} }, [], ['a has no licence in the lock file']],
  [
    'an install script',
    { 'node_modules/b/node_modules/@c/d': { license: 'MIT', hasInstallScript: true } },
    [],
    ['@c/d runs a program when it is installed'],
  ],
  [
    'a program by the lock file',
    { 'node_modules/a': { license: 'MIT', cpu: ['arm64'] } },
    [],
    ['a holds programs for a machine'],
  ],
  [
    'an optional one for a system',
    { 'node_modules/a': { license: 'MIT', os: ['darwin'], optional: true } },
    [],
    ['a holds programs for a machine'],
  ],
  ['a program by its files', { 'node_modules/a': { license: 'MIT' } }, ['a'], ['a holds programs for a machine']],
])('%s', (_name, packages, native, findings) => {
  expect(found(packages, native)).toEqual(findings);
});

test('a review of what is there no more is a finding too', () => {
  const old = { ...known, licences: { ...known.licences, ISC: why } };
  const packages = {
    '': {},
    'node_modules/tool': { license: 'MIT', hasInstallScript: true },
    'node_modules/tool-x': { license: 'MIT', cpu: ['x64'] },
  };
  expect(auditDependencies({ packages }, new Set(), old).map(({ what }) => what)).toEqual([
    'ISC is listed under "licences", but nothing has it',
  ]);
});

test('a reason is wanted', () => {
  expect(reviewedFile.safeParse({ ...known, licences: { MIT: 'ok' } }).success).toBe(false);
});
