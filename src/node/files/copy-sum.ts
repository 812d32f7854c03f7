import { resolve } from 'node:path';
import { stampOfFile, sumOf } from './file-sums.ts';
import { filesBelow } from './files-below.ts';

const HOME = resolve(import.meta.dirname, '../../..');
/** What decides how content is read and judged; packages change with package.json. */
const CODE = ['src/core', 'src/node/check', 'src/node/files', 'src/node/media'];

let known: string | undefined;

/**
 * Changes with this copy of the program: with any file of it, by its size, its place on the disk and the times of its last change.
 * Nobody who does not have this very copy of it knows the sum. It stays what it was when it was first asked for: what runs is
 * the program of then.
 */
export function copySum(): string {
  known ??= sumOfCopy();
  return known;
}

function sumOfCopy(): string {
  const files = [
    ...CODE.flatMap((folder) => filesBelow(`${HOME}/${folder}`).map((name) => `${HOME}/${folder}/${name}`)).toSorted(),
    `${HOME}/package.json`,
  ];
  const stamps = files.map((file) => `${file} ${stampOfFile(file)}`);
  return sumOf([process.version, ...stamps].join('\n'));
}
