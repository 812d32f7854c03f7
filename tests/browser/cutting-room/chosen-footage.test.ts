import { expect, test } from 'vitest';
import { addFiles, placeNames, recordingId, sizeText } from '../../../src/browser/cutting-room/chosen-footage.ts';

const file = (name: string, size = 1000, lastModified = 5) => ({ name, size, lastModified });
const nothing = { files: [], left: [] };

test('card by card is added up; a file counts once, and what is no footage is named', () => {
  const first = addFiles(nothing, [
    file('C0001.MP4'),
    file('voice.WAV'),
    file('.DS_Store'),
    file('.hidden.mp4'),
    file('CAM.THM'),
  ]);
  expect(first.files.map(({ name }) => name)).toEqual(['C0001.MP4', 'voice.WAV']);
  expect(first.left).toEqual(['CAM.THM']);
  // The next card has a file of the same name, and the first is chosen again.
  const both = addFiles(first, [file('C0001.MP4', 2000), file('C0001.MP4'), file('talk.srt'), file('CAM.THM')]);
  expect(both.files.map(({ name, size }) => [name, size])).toEqual([
    ['C0001.MP4', 1000],
    ['voice.WAV', 1000],
    ['C0001.MP4', 2000],
    ['talk.srt', 1000],
  ]);
  expect(both.left).toEqual(['CAM.THM']);
});

test('every file has a place of its own, also where a disk knows no capitals', () => {
  const names = ['C0001.MP4', 'C0002.MP4', 'C0001.MP4', 'c0001.mp4'].map((name, i) => file(name, i));
  expect(placeNames(names)).toEqual(['C0001.MP4', 'C0002.MP4', 'card-2/C0001.MP4', 'card-3/c0001.mp4']);
});

test('a size is read in the unit that suits it', () => {
  expect([40_000, 2_340_000, 64_000_000, 12_400_000_000].map(sizeText)).toEqual(['0.1 MB', '2.3 MB', '64 MB', '12 GB']);
});

test('a recording is called what its title says; one without a letter of an id is numbered', () => {
  expect(recordingId('Rear wheel', ['rear-wheel'])).toBe('rear-wheel');
  expect(recordingId('Überholung', [])).toBe('uberholung');
  expect(recordingId('  ', [])).toBeUndefined();
  expect(recordingId('前輪', ['recording', 'recording-2'])).toBe('recording-3');
});
