import { expect, test } from 'vitest';
import { planSeekPictures, readSeekPictures, seekPicturesVtt } from '../../../src/core/media/index.ts';

test('a sheet is read back from its text', () => {
  for (const [length, columns, rows] of [
    [2690, 10, 12],
    [95.5, 10, 10],
    [4.2, 5, 1],
    [0.5, 1, 1],
  ] as const) {
    const plan = planSeekPictures(length, { width: 1920, height: 1080 });
    const sheet = readSeekPictures(seekPicturesVtt(plan, 'a sheet.jpg'));
    expect(sheet).toMatchObject({ width: plan.width, height: plan.height, columns, rows });
    if (plan.count > 1) expect(sheet?.every).toBe(plan.every);
  }
});

test('what names no pictures has none', () => {
  expect(readSeekPictures('WEBVTT\n\n00:00:00.000 --> 00:00:01.000\nwords\n')).toBeUndefined();
  expect(readSeekPictures('')).toBeUndefined();
});
