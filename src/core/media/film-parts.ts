import { fail, ok, type Parsed, type Range, range, type Ticks, ticks } from '../time/index.ts';

/**
 * The largest file on a disk formatted as FAT32, bytes: its size is written in 32 bits. Source: Microsoft, FAT32 File
 * System Specification 1.03 (2000), directory entry, DIR_FileSize.
 */
export const LARGEST_ON_FAT32 = 2 ** 32 - 1;

/** Prefixes of SI and of IEC 80000-13. */
const SIZES: Readonly<Record<string, number>> = {
  '': 1,
  kb: 1e3,
  mb: 1e6,
  gb: 1e9,
  kib: 2 ** 10,
  mib: 2 ** 20,
  gib: 2 ** 30,
};

/** How large a file may be, bytes, as it is written: `700MB`, `2GiB`, a number of bytes, `none` for any size. */
export function readLargest(text: string | undefined): number | undefined {
  if (text === undefined) return LARGEST_ON_FAT32;
  if (text === 'none') return Number.POSITIVE_INFINITY;
  const [, figures = '', unit = ''] = /^(\d+(?:\.\d+)?) ?([kmg]i?b)?$/i.exec(text.trim()) ?? [];
  const bytes = Math.floor(Number(figures) * (SIZES[unit.toLowerCase()] ?? 0));
  return figures !== '' && bytes > 0 ? bytes : undefined;
}

/** Where a film can be divided without encoding it anew: before a picture from which decoding can begin. */
export interface DividePoint {
  readonly at: Ticks<'programme'>;
  /** What a file takes that holds all before it, bytes. */
  readonly bytes: number;
}

/**
 * How a film is divided into files of a limited size: each as long as it can be and end before a chapter; where no
 * chapter begins in that much of film, as long as it can be.
 *
 *     chapters   |--- 1 ---|---- 2 ----|----- 3 -----|
 *     largest    |<----------------->|
 *     parts      |--- 1 ---|---- 2 ----|----- 3 -----|
 *
 * @param points in order, the first at the start of the film
 * @param end the end of the film, and the bytes of all of it
 * @param chapters where chapters begin; a part begins at the last point that is not after it
 * @param largest bytes
 * @returns the stretch of each part, in order; refused where the film between two points is too large by itself
 */
export function planFilmParts(
  points: readonly DividePoint[],
  end: DividePoint,
  chapters: readonly Ticks<'programme'>[],
  largest: number,
): Parsed<readonly Range<'programme'>[]> {
  const wanted = new Set(chapters.map((chapter) => points.findLast(({ at }) => at <= chapter)?.at));
  const parts: Range<'programme'>[] = [];
  let from: DividePoint = points[0] ?? { at: ticks(0), bytes: 0 };
  while (end.bytes - from.bytes > largest) {
    const { at, bytes } = from;
    const fitting = points.filter((point) => point.at > at && point.bytes - bytes <= largest);
    const next = fitting.findLast((point) => wanted.has(point.at)) ?? fitting.at(-1);
    if (!next) {
      const least = (points.find((point) => point.at > at) ?? end).bytes - bytes;
      return fail(
        `a single run of its pictures takes ${least} bytes, more than the ${largest} that a file may have`,
        'allow larger files',
      );
    }
    parts.push(range(at, next.at));
    from = next;
  }
  return ok([...parts, range(from.at, end.at)]);
}
