import { expect, test } from 'vitest';
import { planTake, type TakeFile, takeText } from '../../../src/core/media/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { fromSeconds } from '../../../src/core/time/index.ts';

const NOON = Date.UTC(2027, 0, 16, 12);
const CAMERA = { width: 1920, height: 1080, framesPerSecond: 25, codec: 'avc', even: true };
const PHONE = { width: 1280, height: 720, framesPerSecond: 29.7, codec: 'avc', even: false };

/** A file that was shot from `from` to `to`, seconds after noon; the camera wrote it until its end. */
const shot = (file: string, from: number, to: number, more: Partial<TakeFile> = {}): TakeFile => ({
  file: `media/${file}`,
  writtenAt: NOON + to * 1000,
  duration: fromSeconds(to - from),
  picture: CAMERA,
  ...more,
});
const sound = (file: string, from: number, to: number): TakeFile => {
  const { picture: _, ...rest } = shot(file, from, to);
  return rest;
};
const filesOf = (files: readonly TakeFile[]) => planTake(files)?.files.map(({ file }) => file.slice('media/'.length));

test('split files are joined in the order they were shot, whatever their names and the order they come in', () => {
  // A counter that ran over: the last part has the lowest number.
  const files = [shot('cam-0001.mp4', 3600, 4000), shot('cam-9998.mp4', 0, 1800), shot('cam-9999.mp4', 1800, 3600)];
  expect(filesOf(files)).toEqual(['cam-9998.mp4', 'cam-9999.mp4', 'cam-0001.mp4']);
  const plan = planTake(files);
  expect(plan).toMatchObject({ rate: '25', angles: [] });
  expect(plan?.start).toBeUndefined();
  expect(plan?.notes).toEqual(['3 files of the first camera, joined in the order they were shot']);
});

test('a copy that gave all files one time of day leaves their names, counted as numbers', () => {
  const copied = [10, 9, 11].map((n, i) => shot(`clip ${n}.mp4`, 0, 600, { writtenAt: NOON + i * 2000 }));
  // Without times the three would seem to have run at the same time.
  expect(filesOf(copied)).toEqual(['clip 9.mp4', 'clip 10.mp4', 'clip 11.mp4']);
  expect(planTake(copied)?.notes).toContain('their times of day say nothing: they stand in the order of their names');
});

test('timecode counts before the time of day; a file that does not follow begins where its timecode says', () => {
  const counted = (file: string, startTimecode: string, seconds: number) =>
    shot(file, 0, seconds, { startTimecode, writtenAt: NOON, picture: { ...CAMERA, framesPerSecond: 30_000 / 1001 } });
  const plan = planTake([
    counted('cam-1.mp4', '01:30:00;00', 60),
    counted('cam-8.mp4', '01:00:00;00', 600),
    counted('cam-9.mp4', '01:10:00;00', 600),
  ]);
  expect(plan?.rate).toBe('29.97df');
  expect(plan?.start).toBe('01:00:00;00');
  // 600 s at 30000/1001 are 17 982 frames, which drop-frame labels 00:10:00;00 (SMPTE ST 12-1).
  expect(plan?.files).toEqual([
    { file: 'media/cam-8.mp4' },
    { file: 'media/cam-9.mp4' },
    { file: 'media/cam-1.mp4', start: '01:30:00;00' },
  ]);
  expect(plan?.notes).toContain('1 of them begin later than the one before ends: their timecode says when');
});

test('three camera files, a phone and a recorder are told apart; the camera that ran longest is the first', () => {
  const plan = planTake([
    sound('voice.wav', 5, 4000),
    shot('phone.mp4', 100, 700, { picture: PHONE }),
    shot('cam2.mp4', 1800, 3600),
    shot('cam1.mp4', 0, 1800),
    shot('cam3.mp4', 3600, 4000),
  ]);
  expect(plan?.files.map(({ file }) => file)).toEqual(['media/cam1.mp4', 'media/cam2.mp4', 'media/cam3.mp4']);
  expect(plan?.angles).toEqual([
    { id: 'camera-2', file: 'media/phone.mp4', sound: false },
    { id: 'recorder', file: 'media/voice.wav', sound: true },
  ]);
});

test('two cameras of one make are told apart by having run at the same time', () => {
  const plan = planTake([
    shot('v1.mp4', 0, 1800),
    shot('v2.mp4', 1800, 3600),
    shot('v3.mp4', 60, 1860),
    shot('v4.mp4', 1860, 3000),
  ]);
  expect(plan?.files.map(({ file }) => file)).toEqual(['media/v1.mp4', 'media/v2.mp4']);
  expect(plan?.angles.map(({ id, file }) => [id, file])).toEqual([
    ['camera-2', 'media/v3.mp4'],
    ['camera-2', 'media/v4.mp4'],
  ]);
});

test('sound alone makes no recording', () => {
  expect(planTake([sound('voice.wav', 0, 10)])).toBeUndefined();
  expect(planTake([])).toBeUndefined();
});

test('the file it is written to is read as that recording, with a title of any signs', () => {
  const plan = planTake([
    shot('cam-1.mp4', 0, 60, { startTimecode: '10:00:00:00' }),
    shot('cam-2.mp4', 60, 90, { startTimecode: '10:01:00:00' }),
    sound('voice.wav', 0, 90),
  ]);
  if (!plan) throw new Error('no plan');
  const made = takeText('Pads: "uncut" #1', plan, 'media/a.vtt');
  const text = made.ok ? made.value : made.problem;
  expect(text).toContain('# on-file once the signed release is there');
  const { shop, diagnostics } = readShop(new Map([['recordings/pads.yaml', text]]), (file) =>
    file.endsWith('.vtt')
      ? { state: 'text', text: 'WEBVTT\n' }
      : { state: 'media', media: { duration: fromSeconds(60), framesPerSecond: 25, width: 16, height: 9 } },
  );
  expect(diagnostics.filter(({ place }) => place.file === 'recordings/pads.yaml')).toEqual([]);
  const [recording] = shop.recordings;
  expect(recording?.title).toBe('Pads: "uncut" #1');
  expect(recording?.files.map(({ file }) => file)).toEqual(['media/cam-1.mp4', 'media/cam-2.mp4']);
  expect(recording?.rate?.name).toBe('25');
  // 10 h at 25 frames a second.
  expect(recording?.startFrame).toBe(900_000);
  expect(recording?.angles.map(({ id, file }) => [id, file])).toEqual([['recorder', 'media/voice.wav']]);
});
