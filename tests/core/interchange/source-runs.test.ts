import { describe, expect, test } from 'vitest';
import { Notes } from '../../../src/core/interchange/imported.ts';
import { editOf, findFile, framesInto, runOf, withDropFrame } from '../../../src/core/interchange/source-runs.ts';
import { FRAME_RATES, must } from '../../../src/core/time/index.ts';
import { at, span, spans } from '../../support/edit.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

const one = smallShop().recording;
const several = smallShop(
  changedFile(
    'recordings/chain.yaml',
    '  - file: media/chain.mp4\n',
    '  - file: media/rear wheel.mp4\n  - file: media/side.mov\n  - file: media/more/side.mov\n  - file: media/a-long-name-of-a-camera-file.mp4\n',
  ),
).recording;
const R25 = FRAME_RATES['25'];
const found = (names: readonly string[], recording = several) => {
  const notes = new Notes();
  return [findFile(recording, names, notes)?.file, ...notes.all()];
};

describe('a camera file is found', () => {
  test.each([
    ['by its path', 'media/side.mov', 'media/side.mov'],
    [
      'by an address of a file (RFC 8089), with its signs escaped',
      'file:///media/rear%20wheel.mp4',
      'media/rear wheel.mp4',
    ],
    ['on another machine', 'file://studio/D:/shoot/rear%20wheel.mp4', 'media/rear wheel.mp4'],
    ['by its name with another ending, in capitals', 'SIDE.mxf', 'media/side.mov'],
    ['in a folder of the other kind', 'D:\\shoot\\Side.MOV', 'media/side.mov'],
    ['with a percent sign that escapes nothing', 'old/100%/side.mov', 'media/side.mov'],
    ['by its path, where another file has its name', 'media/more/side.mov', 'media/more/side.mov'],
    // Of a long name the first four and the last four letters.
    ['by its reel, in small letters', 'alonfile', 'media/a-long-name-of-a-camera-file.mp4'],
  ])('%s', (_, name, file) => {
    expect(found([name])).toEqual([file]);
  });

  test('by the first name that fits; empty ones name nothing', () => {
    expect(found(['', 'nothing.mp4', 'side.mov', 'rear wheel'])).toEqual(['media/side.mov']);
  });

  test('because it is the only one, and that is told', () => {
    expect(found(['', 'x.mp4'], one)).toEqual([
      'media/chain.mp4',
      '"x.mp4" was taken for media/chain.mp4, the only camera file',
    ]);
    expect(found([''], one)[1]).toMatch(/^"unnamed" was taken for/);
  });

  test('not at all among several, and that is told', () => {
    expect(found(['wheel.mp4'])).toEqual([
      undefined,
      '"wheel.mp4" is none of the camera files of chain, so it was left out',
    ]);
  });
});

describe('a run of frames', () => {
  // Ten seconds, 250 frames, the file's first at second 20.
  const file = { ...must(one.files[0], 'a file'), span: span('20-30') };
  const run = (first: number, frames: number, of = file) => {
    const notes = new Notes();
    const made = runOf(of, R25, first, frames, notes, 'clip');
    return [made && spans([made.at]), ...notes.all()];
  };
  const held = '"clip" reaches past media/chain.mp4 and was held to it';
  const none = '"clip" asks for nothing that is in media/chain.mp4, so it was left out';

  test.each([
    [0, 250, '20-30', []],
    [25, 50, '21-23', []],
    [249, 1, '29.96-30', []],
    [200, 51, '28-30', [held]],
    [-5, 30, '20-21', [held]],
    [250, 5, undefined, [none]],
    [-5, 5, undefined, [none]],
    [5, 0, undefined, [none]],
    [5, -3, undefined, [none]],
    [0.5, 5, undefined, [none]],
    [5, 1.5, undefined, [none]],
  ])('from %d, %d long, is %s', (first, frames, place, notes) => {
    expect(run(first, frames)).toEqual([place, ...notes]);
  });

  test('of a file whose length is not known is taken as it says, within what can be counted', () => {
    const unknown = { ...file, span: { ...file.span, end: at(20) } };
    expect(run(25, 1000, unknown)).toEqual(['21-61']);
    expect(run(25, 1e12, unknown)).toEqual([undefined, none]);
  });
});

test('a list that goes back, or shows something again, is told', () => {
  const notes = new Notes();
  const runs = ['10-20', '30-40', '5-8', '7-9', '9-12'].map((where, i) => ({ name: `clip ${i}`, at: span(where) }));
  expect(spans(editOf(runs, notes).edit ?? [])).toBe('5-20 30-40');
  expect(notes.all()).toEqual([
    '"clip 2" comes from before what is shown ahead of it: an edit list keeps the order of the recording',
    '"clip 3" shows again what was shown ahead of it: an edit list keeps every moment once',
  ]);
  expect(editOf([], notes)).toEqual({});
});

test('a rate has another way of counting where the standard knows one', () => {
  expect(withDropFrame(FRAME_RATES['29.97'], true)).toBe(FRAME_RATES['29.97df']);
  expect(withDropFrame(FRAME_RATES['29.97df'], false)).toBe(FRAME_RATES['29.97']);
  expect(withDropFrame(FRAME_RATES['29.97'], false)).toBe(FRAME_RATES['29.97']);
  expect(withDropFrame(R25, true)).toBe(R25);
});

describe('frames into a file', () => {
  const file = must(one.files[0], 'a file');
  const labelled = (label: number, rate: (typeof FRAME_RATES)['25'], counted = rate, startFrame = 90_000) =>
    framesInto({ ...one, startFrame }, { ...file, span: span('0-10') }, rate, label, counted);

  test('count from its first label', () => {
    expect(labelled(90_000, R25)).toBe(0);
    expect(labelled(90_100, R25)).toBe(100);
  });

  test('go over midnight, and back where that is nearer', () => {
    // A day has 86 400 s of 25 frames.
    expect(labelled(50, R25, R25, 2_159_950)).toBe(100);
    expect(labelled(89_990, R25)).toBe(-10);
  });

  test('of a list counted with drop-frame begin at the same label as the file', () => {
    // SMPTE ST 12-1: 01:00:00;00 is frame 107 892 with drop-frame, 01:00:00:00 is 108 000 without.
    expect(labelled(107_892 + 30, FRAME_RATES['29.97'], FRAME_RATES['29.97df'], 108_000)).toBe(30);
    expect(labelled(108_000 + 30, FRAME_RATES['29.97df'], FRAME_RATES['29.97'], 107_892)).toBe(30);
  });
});
