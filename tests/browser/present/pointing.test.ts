import { expect, test } from 'vitest';
import { MIDDLE, pointingKey, pointTo, ringHere } from '../../../src/browser/present/pointing.ts';

const START = { at: MIDDLE, rings: [] };

test('arrow keys move the pointer by a fiftieth of the picture, and not out of it', () => {
  expect(pointingKey(START, 'ArrowRight')).toEqual({ at: { x: 0.52, y: 0.5 }, rings: [] });
  expect(pointingKey(START, 'ArrowUp')).toEqual({ at: { x: 0.5, y: 0.48 }, rings: [] });
  expect(pointingKey(pointTo(START, { x: 0, y: 1 }), 'ArrowLeft')).toMatchObject({ at: { x: 0, y: 1 } });
  expect(pointTo(START, { x: 1.4, y: -3 }).at).toEqual({ x: 1, y: 0 });
});

test('a press draws a ring, a second one near to it takes it away, one elsewhere adds another', () => {
  const one = ringHere(START);
  expect(one.rings).toEqual([MIDDLE]);
  const two = ringHere(pointTo(one, { x: 0.2, y: 0.2 }));
  expect(two.rings).toHaveLength(2);
  expect(ringHere(pointTo(two, { x: 0.51, y: 0.49 })).rings).toEqual([{ x: 0.2, y: 0.2 }]);
  expect(pointingKey(START, 'Enter')).toEqual(one);
});

test('Escape or P ends it; other keys mean what they mean', () => {
  expect([pointingKey(START, 'Escape'), pointingKey(START, 'p'), pointingKey(START, 'n')]).toEqual([
    'end',
    'end',
    undefined,
  ]);
});
