import { expect, test } from 'vitest';
import { findStill, GRID } from '../../../src/core/media/index.ts';

const CELLS = GRID.columns * GRID.rows;

/** Pictures of `seconds` s; what is seen of each is drawn into a grey one. */
function filmed(seconds: number, draw: (picture: Uint8Array, at: number) => void): Uint8Array {
  const pictures = Array.from({ length: seconds * GRID.perSecond + 1 }, (_, i) => {
    const picture = new Uint8Array(CELLS).fill(100);
    draw(picture, i / GRID.perSecond);
    return picture;
  });
  return Uint8Array.from(pictures.flatMap((picture) => [...picture]));
}
/** A hand that goes to and fro over some cells. */
const hand = (picture: Uint8Array, at: number) => picture.fill(160, 100 + ((at * 2) % 8), 106 + ((at * 2) % 8));

test('a picture in which nothing changes is still to its end, and so is a file without pictures', () => {
  expect(
    findStill(
      filmed(60, () => {}),
      60.2,
    ),
  ).toEqual([[0, 60.2]]);
  expect(findStill(new Uint8Array(0), 31)).toEqual([[0, 31]]);
  expect(findStill(new Uint8Array(0), 0)).toEqual([]);
});

test('hands that work from 20 s to 40 s leave what is before and after', () => {
  const still = findStill(
    filmed(100, (picture, at) => at >= 20 && at < 40 && hand(picture, at)),
    100,
  );
  // Looked at two seconds at a time: the first picture with a hand in it differs from the one before.
  expect(still).toEqual([
    [0, 18],
    [40, 100],
  ]);
});

test('a clock that runs in the picture, with a digit that changes every ten seconds, is no work', () => {
  const clock = (picture: Uint8Array, at: number) => {
    picture.fill(at % 1 === 0 ? 30 : 230, 500, 520);
    picture.fill(Math.floor(at / 10) % 2 === 0 ? 30 : 230, 530, 536);
  };
  expect(findStill(filmed(200, clock), 200)).toEqual([[0, 200]]);
  const worked = findStill(
    filmed(200, (picture, at) => {
      clock(picture, at);
      if (at >= 50 && at < 90) hand(picture, at);
    }),
    200,
  );
  expect(worked).toEqual([
    [0, 48],
    [90, 200],
  ]);
});

test('noise of a camera is no movement; a change of five grey levels in three cells is, in two is not', () => {
  let dice = 7;
  const noise = (picture: Uint8Array) => {
    for (let cell = 0; cell < CELLS; cell++) {
      dice = (dice * 16_807) % 2_147_483_647;
      picture[cell] = 100 + (dice % 5);
    }
  };
  expect(findStill(filmed(80, noise), 80)).toEqual([[0, 80]]);
  const flicker = (cells: number, levels: number) =>
    findStill(
      filmed(80, (picture, at) => at >= 20 && at <= 30 && picture.fill(100 + (at % 1 === 0 ? levels : 0), 0, cells)),
      80,
    );
  expect(flicker(3, 5)).toEqual([
    [0, 18],
    [32, 80],
  ]);
  expect(flicker(2, 5)).toEqual([[0, 80]]);
  expect(flicker(3, 4)).toEqual([[0, 80]]);
});
