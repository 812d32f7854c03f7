import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

const HOME = resolve(import.meta.dirname, '../..');
/** The file that starts the program. */
export const MAIN = join(HOME, 'src/node/cli/liftside.mjs');

/** What Node is told when somebody types `liftside`: the options in the first line of that file. */
export function optionsTyped(): string[] {
  const [first = ''] = readFileSync(MAIN, 'utf8').split('\n', 1);
  return first.split(' ').filter((word) => word.startsWith('--'));
}
