import { expect, test } from 'vitest';
import { LARGEST_ON_FAT32 } from '../../../src/core/media/index.ts';
import { stickNotes } from '../../../src/node/cli/stick-notes.ts';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

test('what is not there is a wrong call, and the nearest is named', async () => {
  expect(await call(['pack', 'chian', '--without-pdf'], { content: shopFolder() })).toMatchObject({
    code: 2,
    said: expect.stringMatching(/no lesson or class "chian".*chain/s),
  });
});

test('a size that is none is a wrong call', async () => {
  expect(await call(['pack', 'chain', '--largest-file', 'huge'], { content: shopFolder() })).toMatchObject({
    code: 2,
    said: expect.stringContaining('--largest-file takes a size'),
  });
});

test('what a stick does not take is named with what to do, a zip file too; what just fits is not', () => {
  const camera = { path: 'source/media/day.mp4', bytes: LARGEST_ON_FAT32 };
  expect(stickNotes([camera], 0, LARGEST_ON_FAT32)).toEqual([]);
  expect(stickNotes([camera], LARGEST_ON_FAT32, LARGEST_ON_FAT32)).toEqual([]);
  const large = { ...camera, bytes: LARGEST_ON_FAT32 + 1 };
  expect(stickNotes([large], LARGEST_ON_FAT32 + 1, LARGEST_ON_FAT32)).toEqual([
    expect.stringMatching(/^source\/media\/day\.mp4 has 4\.29 GB: .*FAT32 does not take it.*--footage rendered/),
    expect.stringMatching(/^the zip file may have more than 4\.29 GB: .*--to folder/),
  ]);
});
