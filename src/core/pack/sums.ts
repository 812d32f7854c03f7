import { fail, ok, type Parsed } from '../time/index.ts';
import { packageNameReason } from './names.ts';

/** One file of a package. */
export interface Sum {
  /** Path in the package, with `/`. */
  readonly path: string;
  /** SHA-256 in hexadecimal, small letters. */
  readonly sha256: string;
}

/**
 * The list of files: each with its sum, in the way the `sha256sum` of GNU coreutils writes and checks it
 * (`sha256sum -c files.txt`), so that nobody needs Liftside to know that a copy is whole.
 */
export function sumsText(sums: readonly Sum[]): string {
  return [...sums]
    .toSorted((a, b) => (a.path < b.path ? -1 : 1))
    .map(({ path, sha256 }) => `${sha256}  ${path}\n`)
    .join('');
}

/** Reads the list; names that lead out of the package, and names that stand in it twice, are refused. */
export function readSums(text: string): Parsed<readonly Sum[]> {
  const help = 'the list was changed or cut off: take the package afresh from where it came';
  const sums: Sum[] = [];
  const seen = new Set<string>();
  const lines = text.split('\n').map((line) => line.replace(/\r$/, ''));
  for (const [index, line] of lines.entries()) {
    if (line === '' && index === lines.length - 1) continue;
    const [, sha256 = '', path = ''] = /^([0-9a-f]{64}) [ *](.+)$/.exec(line) ?? [];
    if (path === '') return fail(`line ${index + 1} of files.txt is no sum and name`, help);
    const reason = packageNameReason(path);
    if (reason !== undefined) return fail(`files.txt names ${JSON.stringify(path)}: ${reason}`, help);
    if (seen.has(path)) return fail(`files.txt names ${path} twice`, help);
    seen.add(path);
    sums.push({ path, sha256 });
  }
  if (sums.length === 0) return fail('files.txt names no file', help);
  if (!text.endsWith('\n')) return fail('files.txt ends in the middle of a line', help);
  return ok(sums);
}
