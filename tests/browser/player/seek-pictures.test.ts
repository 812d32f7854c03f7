import { expect, test } from 'vitest';
import type { LessonData } from '../../../src/browser/player/lesson-data.ts';
import { seekPictureAt } from '../../../src/browser/player/seek-pictures.ts';

const data: LessonData = {
  id: 'chain',
  title: 'Chain',
  length: 100,
  plan: { files: [], kept: [] },
  chapters: [{ id: 'look', title: 'Look', start: 0, end: 100, still: '/look.jpg' }],
  steps: [
    { id: 'measure', title: 'Measure', start: 10, end: 40, still: '/measure.jpg' },
    { id: 'cut', title: 'Cut out', start: 40, end: 40 },
    { id: 'read', title: 'Read', start: 40, end: 90 },
  ],
};

test('without a sheet it is the picture of the step, or of its chapter before the first step', () => {
  expect(seekPictureAt(data, 5)).toEqual({ title: 'Look', url: '/look.jpg' });
  expect(seekPictureAt(data, 12)).toEqual({ title: 'Measure', url: '/measure.jpg' });
  // What was cut out has no length, and a step may have no picture.
  expect(seekPictureAt(data, 41)).toEqual({ title: 'Read' });
});

test('of a sheet it is the picture nearest before the moment, row by row', () => {
  const seek = { url: '/sheet.jpg', every: 4, width: 160, height: 90, columns: 10, rows: 3 };
  const crop = (seconds: number) => seekPictureAt({ ...data, seek }, seconds).crop;
  expect(crop(0)).toEqual({ x: 0, y: 0, width: 160, height: 90 });
  expect(crop(3.99)).toMatchObject({ x: 0, y: 0 });
  expect(crop(4)).toMatchObject({ x: 160, y: 0 });
  expect(crop(47)).toMatchObject({ x: 160, y: 90 });
  expect(crop(1000)).toMatchObject({ x: 1440, y: 180 });
});
