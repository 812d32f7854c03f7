import { resolve } from 'node:path';
import { execa } from 'execa';
import { arrowsOf, circlesOf, SRC, textsBelow } from './imports.ts';

/** Sizes of src and tests, exports without a user and circles of imports, in a few lines. */

const HOME = resolve(import.meta.dirname, '../..');
const CODE = /\.(ts|tsx|astro|css)$/;

const lines = (text: string) => text.split('\n').length - 1;

/** The value that a share of a sorted row does not exceed. */
function atShare(sorted: readonly number[], share: number): number {
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? 0;
}

function sizes(folder: string): string {
  const lengths = textsBelow(resolve(HOME, folder), CODE)
    .map(({ text }) => lines(text))
    .toSorted((a, b) => a - b);
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const over = lengths.filter((length) => length > 300).length;
  return `${folder.padEnd(6)} ${total} lines in ${lengths.length} files: median ${atShare(lengths, 0.5)}, 90th percentile ${atShare(lengths, 0.9)}, ${over} over 300`;
}

/** `?? 0`, `?? ''`, `?? []`: each should be a real default. */
function silentDefaults(): number {
  return textsBelow(SRC, CODE)
    .map(({ text }) => text.match(/\?\? (0\b|''|\[\])/g)?.length ?? 0)
    .reduce((sum, count) => sum + count, 0);
}

async function exportsUnused(): Promise<number> {
  const { stdout } = await execa('npx', ['--no-install', 'knip', '--no-progress', '--reporter', 'json'], {
    cwd: HOME,
    reject: false,
  });
  const { issues } = JSON.parse(stdout) as { issues: Record<string, unknown>[] };
  return issues
    .flatMap((issue) => Object.values(issue))
    .reduce<number>((sum, found) => sum + (Array.isArray(found) ? found.length : 0), 0);
}

for (const folder of ['src', 'tests']) console.log(sizes(folder));
console.log(`circles of imports: ${circlesOf(arrowsOf(textsBelow(SRC, CODE))).length}`);
console.log(`what knip finds without a user: ${await exportsUnused()}`);
console.log(`defaults of 0, '' or []: ${silentDefaults()}`);
