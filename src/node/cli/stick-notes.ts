import { LARGEST_ON_FAT32 } from '../../core/media/index.ts';
import { byteText } from './byte-progress.ts';

/**
 * What of a package is larger than a file may be and cannot be divided, with what to do.
 *
 * @param zip bytes before zipping; 0 for a folder
 * @param largest bytes that a file may have
 */
export function stickNotes(
  entries: readonly { readonly path: string; readonly bytes: number }[],
  zip: number,
  largest: number,
): string[] {
  const help =
    largest === LARGEST_ON_FAT32
      ? 'a stick formatted as FAT32 does not take it, one formatted as exFAT does'
      : `more than ${byteText(largest)}`;
  return [
    ...entries
      .filter(({ bytes }) => bytes > largest)
      .map(
        ({ path, bytes }) =>
          `${path} has ${byteText(bytes)}: ${help}; of a finished programme (--footage rendered) it would be divided`,
      ),
    ...(zip > largest
      ? [`the zip file may have more than ${byteText(largest)}: ${help}; --to folder writes files that fit`]
      : []),
  ];
}
