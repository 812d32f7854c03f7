/** A coded picture of a file, in decoding order. */
export interface CodedPicture {
  /** When it is shown, ticks from the first picture shown. */
  readonly shown: number;
  readonly key: boolean;
}

/** Frames of a file where a copy may begin or end, or why there are none. */
export type CopyPoints = readonly number[] | { readonly refused: string };

/** How far a picture may lie from its place on the frame grid, in frames: containers round to whole milliseconds. */
const SLACK = 0.1;

/**
 * The frames of a file where a group of pictures begins that needs nothing before it, with the end of the file as last.
 *
 * A key picture is such a point when nothing decoded after it is shown before it (a closed group of pictures, ISO/IEC
 * 14496-10) and nothing decoded before it is shown after it.
 *
 *     decoded   I P b b P I b b P        shown order 0 3 1 2 4 7 5 6 8: the second I is open, 5 and 6 lean on what went
 *
 * @param pictures in decoding order
 * @param ticksPerFrame of the recording's frame rate
 * @param first ticks from the recording's frame grid to the first picture, less than a frame
 */
export function copyPoints(pictures: readonly CodedPicture[], ticksPerFrame: number, first = 0): CopyPoints {
  const places = pictures.map(({ shown }) => (shown + first) / ticksPerFrame);
  const off = places.findIndex((place) => Math.abs(place - Math.round(place)) > SLACK);
  if (off !== -1) return { refused: 'its frames do not follow each other evenly at the rate of the recording' };
  const frames = places.map(Math.round);
  const earliestFrom: number[] = new Array(frames.length + 1).fill(Number.POSITIVE_INFINITY);
  for (let i = frames.length - 1; i >= 0; i--)
    earliestFrom[i] = Math.min(frames[i] ?? Number.POSITIVE_INFINITY, earliestFrom[i + 1] ?? Number.POSITIVE_INFINITY);
  const points: number[] = [];
  let latestBefore = -1;
  pictures.forEach(({ key }, i) => {
    const frame = frames[i] ?? 0;
    if (key && earliestFrom[i] === frame && latestBefore < frame) points.push(frame);
    latestBefore = Math.max(latestBefore, frame);
  });
  return points.length === 0 ? { refused: 'it has no closed group of pictures' } : [...points, latestBefore + 1];
}
