import { access, constants } from 'node:fs/promises';
import { delimiter, join } from 'node:path';

/**
 * The first of some programs that can be run, looked for along PATH.
 *
 * @returns its absolute path, or nothing
 */
export async function onPath(
  names: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): Promise<string | undefined> {
  for (const name of names)
    for (const folder of (env.PATH ?? '').split(delimiter)) {
      const path = join(folder, process.platform === 'win32' ? `${name}.exe` : name);
      if (await canRun(path)) return path;
    }
  return undefined;
}

/** True for a file that may be executed. */
export async function canRun(path: string): Promise<boolean> {
  return access(path, constants.X_OK).then(
    () => true,
    () => false,
  );
}
