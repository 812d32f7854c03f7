import { constants, type Stats } from 'node:fs';
import { open } from 'node:fs/promises';

/** What stands under the name is no file: a folder, a pipe, a device. */
export class NoFile extends Error {}

/** The file is longer than the reader takes. */
export class TooLong extends Error {}

/**
 * Bytes of a plain file. Opened without waiting and looked at before it is read: a pipe that nobody writes into would
 * keep the reader for ever.
 *
 * @param path absolute
 * @param most bytes that are read at most
 * @throws NoFile, TooLong, or what the file system says, with its code
 */
export async function readPlain(path: string, most = Number.MAX_SAFE_INTEGER): Promise<Buffer> {
  const handle = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
  try {
    const known = await handle.stat();
    if (!known.isFile()) throw new NoFile(`it is ${kindOf(known)}, not a file`);
    if (known.size > most)
      throw new TooLong(
        `it has ${Math.ceil(known.size / 1e6)} MB, more than the ${Math.round(most / 1e6)} MB that are read`,
      );
    return await handle.readFile();
  } finally {
    await handle.close();
  }
}

/** What stands under a name that is no file, in words. */
export function kindOf(known: Stats): string {
  if (known.isDirectory()) return 'a folder';
  if (known.isFIFO()) return 'a pipe';
  if (known.isSocket()) return 'a socket';
  return 'a device';
}
