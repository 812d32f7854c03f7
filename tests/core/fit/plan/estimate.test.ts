import { expect, test } from 'vitest';
import { fromMinutes } from '../../../../src/core/fit/plan/estimate.ts';

test('minutes are read as seconds', () => {
  expect(fromMinutes([3, 4, 6])).toEqual({ least: 180, likely: 240, most: 360 });
  expect(fromMinutes(5)).toEqual({ least: 300, likely: 300, most: 300 });
});
