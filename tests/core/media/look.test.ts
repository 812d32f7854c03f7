import { describe, expect, test } from 'vitest';
import { type FootageFile, planLook, shownSize } from '../../../src/core/media/index.ts';

/**
 * A decoder configuration record of one sequence and one picture parameter set with these numbers, 0 or 1
 * (ISO/IEC 14496-15, 5.3.3.1; numbers in Exp-Golomb code, ISO/IEC 14496-10, 9.1: 0 is `1`, 1 is `010`).
 */
const avcc = (level: number, sequence: 0 | 1 = 0, picture: 0 | 1 = 0) => {
  const code = (number: 0 | 1) => (number === 0 ? 0x80 : 0x40);
  return Uint8Array.of(
    ...[1, 100, 0, level, 0xff, 0xe1, 0, 5, 0x67, 100, 0, level, code(sequence)],
    ...[1, 0, 2, 0x68, code(picture)],
  );
};
const POINTS: FootageFile['points'] = [];
const file = (more: Partial<FootageFile> = {}): FootageFile => ({
  ...{ name: 'cam.mp4', width: 1920, height: 1080, rotation: 0, profile: 'High', level: 40, bFrames: 2 },
  ...{ interlaced: false, points: POINTS, configuration: avcc(40), used: 100, ...more },
});
const OTHER = { refused: 'its picture was coded with other parameters than most of the programme' };
const HELD = { refused: 'the cameras were held differently, so that the picture has to be turned' };
const numbers = (files: readonly FootageFile[], copies = true) =>
  planLook(files, 25, copies).files.map(({ coding }) => coding.parameterSet);

describe('files of one camera', () => {
  test('are copied, and their edges encoded near the source as the camera does', () => {
    const look = planLook([file(), file({ used: 50 })], 25);
    expect(look).toMatchObject({ width: 1920, height: 1080, rotation: 0 });
    for (const one of look.files) {
      expect(one).toMatchObject({ copy: POINTS, turn: false, fit: null });
      expect(one.coding).toMatchObject({
        ...{ codec: 'h264', crf: 16, preset: 'veryfast', profile: 'high', level: '4.0', bFrames: 2 },
        // A key picture every two seconds.
        group: 50,
      });
    }
  });

  test.each<[Partial<FootageFile>, object]>([
    [
      { profile: 'Constrained Baseline', level: 10, bFrames: 0 },
      { profile: 'baseline', level: '1.0', bFrames: 0 },
    ],
    [
      { profile: 'Main', level: 62, bFrames: 1 },
      { profile: 'main', level: '6.2', bFrames: 2 },
    ],
    [
      { profile: 'High 4:2:2', level: 63 },
      { profile: null, level: null },
    ],
    [
      { profile: 'unknown', level: 9 },
      { profile: null, level: null },
    ],
  ])('%o are encoded as %o', (camera, coding) => {
    expect(planLook([file(camera)], 25).files[0]?.coding).toMatchObject(coding);
  });

  test('that was held upright is copied as stored; the player turns it', () => {
    expect(planLook([file({ rotation: 90 })], 25)).toMatchObject({
      ...{ width: 1920, height: 1080, rotation: 90, files: [{ turn: false, fit: null, copy: POINTS }] },
    });
  });

  test('bear numbers of parameter sets that the copied ones do not', () => {
    expect(numbers([file(), file()])).toEqual([1, 2]);
    expect(numbers([file({ configuration: avcc(40, 1) })])).toEqual([2]);
    expect(numbers([file({ configuration: avcc(40, 0, 1) })])).toEqual([2]);
    expect(numbers([file({ configuration: avcc(40, 1) })], false)).toEqual([1]);
  });
});

describe('files of several cameras', () => {
  test('take the form that most frames come with; the others are encoded', () => {
    const small = { width: 1280, height: 720, configuration: avcc(31), profile: 'Main', level: 31 };
    const look = planLook([file({ used: 100 }), file({ ...small, used: 60 }), file({ ...small, used: 60 })], 25);
    expect(look).toMatchObject({ width: 1280, height: 720 });
    expect(look.files.map(({ copy }) => copy)).toEqual([OTHER, POINTS, POINTS]);
    expect(look.files.map(({ fit }) => fit)).toEqual([{ width: 1280, height: 720 }, null, null]);
    expect(look.files[0]?.coding).toMatchObject({ profile: 'main', level: '3.1' });
  });

  test('a file of which nothing is shown, or that cannot be copied, does not lead', () => {
    const other = file({ width: 640, height: 480, configuration: avcc(30), used: 0, rotation: 180 });
    const { configuration: _, ...plain } = file({ width: 640, height: 480, used: 500 });
    const refused = { refused: 'its pictures do not keep to the grid' };
    const look = planLook([other, plain, file({ points: refused, configuration: avcc(31), used: 500 }), file()], 25);
    expect(look).toMatchObject({ width: 1920, height: 1080, rotation: 0 });
    expect(look.files.map(({ copy }) => copy)).toEqual([OTHER, OTHER, refused, POINTS]);
  });

  test('held differently, all are turned and encoded, as large as the first is shown', () => {
    const look = planLook([file({ rotation: 270 }), file({ width: 1080, height: 1920 }), file()], 30);
    expect(look).toMatchObject({ width: 1080, height: 1920, rotation: 0 });
    expect(look.files.map(({ copy, turn }) => [copy, turn])).toEqual([
      [HELD, true],
      [HELD, true],
      [HELD, true],
    ]);
    expect(look.files.map(({ fit }) => fit)).toEqual([null, null, { width: 1080, height: 1920 }]);
    expect(look.files[0]?.coding).toMatchObject({
      ...{ crf: 20, preset: 'veryfast', profile: 'high', level: null, bFrames: 2, group: 60 },
    });
  });
});

test('without copies all is encoded, in even numbers of pixels', () => {
  const look = planLook([file({ width: 641, height: 480 }), file({ width: 640, height: 481 })], 25, false);
  expect(look).toMatchObject({ width: 640, height: 480, rotation: 0 });
  expect(look.files.map(({ fit, turn, copy }) => [fit, turn, copy])).toEqual([
    [{ width: 640, height: 480 }, true, OTHER],
    [{ width: 640, height: 480 }, true, OTHER],
  ]);
});

test('a programme of nothing has a size all the same', () => {
  expect(planLook([file({ used: 0 })], 25)).toMatchObject({ width: 1280, height: 720, rotation: 0 });
});

test('a picture is shown on its side at a quarter turn', () => {
  const size = { width: 1920, height: 1080 };
  const turned = { width: 1080, height: 1920 };
  const shown = ([0, 90, 180, 270] as const).map((rotation) => shownSize({ ...size, rotation }));
  expect(shown).toEqual([size, turned, size, turned]);
});
