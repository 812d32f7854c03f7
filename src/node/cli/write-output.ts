import { OutsideFailure } from '../failure.ts';
import { diskReason, placeFile } from '../files/index.ts';

/**
 * Writes a file that a command was asked for, whole or not at all.
 *
 * @param file absolute path
 * @throws OutsideFailure with the reason in words
 */
export async function writeOutput(file: string, bytes: string | Uint8Array): Promise<void> {
  await placeFile(file, bytes).catch((error: unknown) => {
    throw new OutsideFailure(
      `${file} could not be written: ${diskReason(error)}`,
      'nothing was changed; name a file in a folder that is there, on a disk with room',
    );
  });
}
