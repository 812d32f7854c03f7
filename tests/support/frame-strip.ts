/**
 * The strip of black and white blocks along the bottom of the demo footage. It holds the number of the frame in its
 * recording, so that a test can tell from a picture alone which frame it is.
 *
 * Geometry, in fractions of the picture, so that it holds at any size:
 *
 *     x   4/32  5/32  6/32 … 25/32           26/32 27/32
 *        | white | black | 20 bits, highest first | white | black |
 *     y  from 17/18 to 1
 *
 * Every block is 1/32 wide and 1/18 high. The bits are the frame number, counted from 0, in reflected binary (Gray)
 * code: from one frame to the next exactly one block changes, so that a blend of two neighbours still reads as one of
 * the two. The pairs at both ends say what black and white look like here, and that nothing was cut off.
 */
export const STRIP = { columns: 32, rows: 18, firstColumn: 4, bits: 20 } as const;

/** A picture as a canvas gives it: four bytes a pixel, rows from the top. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: ArrayLike<number>;
}

/** The blocks from left to right, true for white. @throws RangeError past 20 bits */
export function stripBlocks(frame: number): readonly boolean[] {
  if (!Number.isInteger(frame) || frame < 0 || frame >= 2 ** STRIP.bits)
    throw new RangeError(`frame ${frame} does not fit into ${STRIP.bits} bits`);
  const gray = frame ^ (frame >> 1);
  const bits = Array.from({ length: STRIP.bits }, (_, i) => ((gray >> (STRIP.bits - 1 - i)) & 1) === 1);
  return [true, false, ...bits, true, false];
}

/**
 * The frame number in a picture of the footage; nothing where the strip is not there or too faint to be read.
 * The picture has to be whole: neither cropped nor letterboxed.
 */
export function readFrameStrip(picture: Picture): number | undefined {
  const levels = stripBlocks(0).map((_, i) => blockLevel(picture, STRIP.firstColumn + i));
  const bits = levels.slice(2, -2);
  const [white1 = 0, black1 = 0, white2 = 0, black2 = 0] = [...levels.slice(0, 2), ...levels.slice(-2)];
  const white = Math.min(white1, white2);
  const black = Math.max(black1, black2);
  if (white - black < 80) return undefined;
  let frame = 0;
  for (const level of bits) {
    const bit = level > (white + black) / 2 ? 1 : 0;
    frame = (frame << 1) | ((frame & 1) ^ bit);
  }
  return frame;
}

/** Mean luma of the middle of a block, 0 to 255 (weights of ITU-R BT.601). */
function blockLevel({ width, height, data }: Picture, column: number): number {
  const left = Math.floor(((column + 0.25) / STRIP.columns) * width);
  const right = Math.max(left + 1, Math.floor(((column + 0.75) / STRIP.columns) * width));
  const top = Math.floor(((STRIP.rows - 0.75) / STRIP.rows) * height);
  const bottom = Math.max(top + 1, Math.floor(((STRIP.rows - 0.25) / STRIP.rows) * height));
  let sum = 0;
  for (let y = top; y < bottom; y++)
    for (let x = left; x < right; x++) {
      const at = (y * width + x) * 4;
      sum += 0.299 * (data[at] ?? 0) + 0.587 * (data[at + 1] ?? 0) + 0.114 * (data[at + 2] ?? 0);
    }
  return sum / ((right - left) * (bottom - top));
}
