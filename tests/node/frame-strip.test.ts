import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Picture, readFrameStrip, STRIP, stripBlocks } from '../support/frame-strip.ts';

/** A picture with the strip of a frame: black and white of our choice, a grey sheet above. */
function pictureOf(frame: number, width: number, height: number, white = 235, black = 16): Picture {
  const data = new Uint8ClampedArray(width * height * 4).fill(128);
  const blocks = stripBlocks(frame);
  for (let y = Math.round((height * (STRIP.rows - 1)) / STRIP.rows); y < height; y++)
    for (let x = 0; x < width; x++) {
      const block = blocks[Math.floor((x / width) * STRIP.columns) - STRIP.firstColumn];
      data.fill(block ? white : black, (y * width + x) * 4, (y * width + x) * 4 + 3);
    }
  return { width, height, data };
}

// Sizes: as filmed, a small phone's, one that divides by nothing, a large screen's.
test.each([
  [512, 288],
  [320, 180],
  [403, 227],
  [1920, 1080],
])('the frame number comes back from a picture of %d × %d', (width, height) => {
  for (const frame of [0, 1, 2, 3, 65_122, 65_123, 104_501, 2 ** 20 - 1])
    expect(readFrameStrip(pictureOf(frame, width, height))).toBe(frame);
});

test('any frame comes back, also in pale blacks and dull whites', () => {
  fc.assert(
    fc.property(
      fc.nat(2 ** 20 - 1),
      fc.integer({ min: 180, max: 255 }),
      fc.integer({ min: 0, max: 80 }),
      (frame, white, black) => {
        expect(readFrameStrip(pictureOf(frame, 160, 90, white, black))).toBe(frame);
      },
    ),
    { numRuns: 60 },
  );
});

// Reflected binary code: neighbours differ in exactly one digit (F. Gray, US patent 2 632 058).
test('from one frame to the next exactly one block changes', () => {
  fc.assert(
    fc.property(fc.nat(2 ** 20 - 2), (frame) => {
      const [before, after] = [stripBlocks(frame), stripBlocks(frame + 1)];
      expect(before.filter((white, i) => white !== after[i])).toHaveLength(1);
    }),
  );
});

test('a picture without the strip gives nothing, and a number too large is refused', () => {
  expect(readFrameStrip({ width: 64, height: 36, data: new Uint8Array(64 * 36 * 4).fill(90) })).toBeUndefined();
  expect(() => stripBlocks(2 ** 20)).toThrow(RangeError);
});
