import { STRIP, stripBlocks } from '../../support/frame-strip.ts';
import { CLOCK, STRIP_TOP, WIDTH } from './geometry.ts';
import type { Planes } from './paint.ts';
import { GLYPHS } from './sheet.ts';

const BLACK = 16;
const WHITE = 235;

/**
 * Copies a still picture into `frame` and burns in the timecode and the frame number.
 *
 * @param frame one frame, 4:2:0 planes, written over
 * @param glyphs the clock's glyphs side by side
 * @param timecode `hh:mm:ss:ff` or `hh:mm:ss;ff`
 * @param number frame of the recording, counted from 0
 */
export function burnFrame(frame: Uint8Array, still: Planes, glyphs: Planes, timecode: string, number: number): void {
  frame.set(still.bytes);
  for (const [i, glyph] of [...timecode].entries()) {
    const from = GLYPHS.indexOf(glyph) * CLOCK.cellWidth;
    for (let y = 0; y < CLOCK.cellHeight; y++) {
      const row = y * glyphs.width + from;
      const to = (CLOCK.top + y) * WIDTH + CLOCK.left + i * CLOCK.cellWidth;
      frame.set(glyphs.bytes.subarray(row, row + CLOCK.cellWidth), to);
    }
  }
  const side = WIDTH / STRIP.columns;
  for (const [i, white] of stripBlocks(number).entries()) {
    const left = (STRIP.firstColumn + i) * side;
    for (let y = 0; y < side; y++) {
      const row = (STRIP_TOP + y) * WIDTH + left;
      frame.fill(white ? WHITE : BLACK, row, row + side);
    }
  }
}
