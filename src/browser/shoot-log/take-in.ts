import { tapsOfCode, tapsOfJson } from './codes.ts';
import type { Tap } from './taps.ts';

/** What was read from files that somebody chose. */
export interface TakenIn {
  readonly taps: readonly Tap[];
  /** Names of files that held no taps. */
  readonly unread: readonly string[];
}

/**
 * Reads taps from files with taps and from pictures of codes.
 *
 * @param codeInPicture loaded only where there is a picture
 */
export async function tapsInFiles(
  files: readonly File[],
  codeInPicture: () => Promise<(file: Blob) => Promise<string | undefined>>,
): Promise<TakenIn> {
  const taps = new Map<string, Tap>();
  const unread: string[] = [];
  for (const file of files) {
    const text = file.type.startsWith('image/') ? await (await codeInPicture())(file) : undefined;
    const found = file.type.startsWith('image/')
      ? text === undefined
        ? undefined
        : await tapsOfCode(text)
      : tapsOfJson(await file.text());
    if (found) for (const tap of found) taps.set(tap.id, tap);
    else unread.push(file.name);
  }
  return { taps: [...taps.values()], unread };
}

/** What came of it, in words. */
export function takenInWords({ taps, unread }: TakenIn): string {
  const count = taps.length === 1 ? '1 tap was read' : `${taps.length} taps were read`;
  return unread.length === 0
    ? `${count}.`
    : `${count}. No taps were found in ${unread.join(', ')}: let the code fill the picture, sharp and without glare.`;
}
