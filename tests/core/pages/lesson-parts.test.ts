import { expect, test } from 'vitest';
import { lessonParts } from '../../../src/core/pages/lesson-parts.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

// The shop keeps 0:00:10 to 0:05:00 and 0:06:00 to 0:09:00 of one camera file of ten minutes.
const TWO = changedFile(
  'recordings/chain.yaml',
  '  - file: media/chain.mp4\n',
  '  - file: media/chain 1.mp4\n  - file: media/chain-2.mp4\n',
);
const partsOf = (film: Parameters<typeof lessonParts>[2], files = {}, media = {}) => {
  const { lesson, recording } = smallShop(files, media);
  const parts = lessonParts(lesson, recording, film, (path) => `/base/${path}`);
  const rows = parts.chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
  return {
    ...parts,
    rows: rows.map(({ number, at, link }) => [number, at && toSeconds(at.start), at && toSeconds(at.end), link]),
  };
};

test('parts are numbered, with their place in the programme and a link into the camera file', () => {
  const { rows, length, plan } = partsOf('uncut');
  const film = '/base/footage/media/chain.mp4';
  expect(rows).toEqual([
    // Links are on the clock of the file; the last part goes on to its end.
    ['1', 10, 470, `${film}#t=20,600`],
    ['1.1', 20, 110, `${film}#t=30,120`],
    ['1.2', 300, 470, `${film}#t=370,600`],
  ]);
  expect(toSeconds(length)).toBe(470);
  expect(plan?.files.map(({ url }) => url)).toEqual([film]);
});

test('a link is into the file that the part begins in, and ends with it', () => {
  const { rows } = partsOf('uncut', TWO, {
    'media/chain 1.mp4': { seconds: 100 },
    'media/chain-2.mp4': { seconds: 500 },
  });
  expect(rows.map(([, , , link]) => link)).toEqual([
    '/base/footage/media/chain%201.mp4#t=20,100',
    '/base/footage/media/chain%201.mp4#t=30,100',
    '/base/footage/media/chain-2.mp4#t=270,500',
  ]);
});

test('a part that is cut out whole is empty, and still found in its camera file; one without a cue has no place', () => {
  const cut = changedFile(
    'recordings/chain.yaml',
    '{in: "0:00:10", out: "0:05:00"}',
    '{in: "0:04:00", out: "0:05:00"}',
  );
  expect(partsOf('uncut', cut).rows[1]).toEqual(['1.1', 0, 0, '/base/footage/media/chain.mp4#t=30,120']);
  const bare = changedFile('lessons/chain.mdx', '<Cue at="0:06:10" />\n', '');
  expect(partsOf('uncut', bare).rows[2]).toEqual(['1.2', undefined, undefined, undefined]);
});

test('without film there are times and no links; without a recording neither', () => {
  expect(partsOf('none')).toMatchObject({
    rows: [
      ['1', 10, 470, undefined],
      ['1.1', 20, 110, undefined],
      ['1.2', 300, 470, undefined],
    ],
  });
  expect(partsOf('none')).not.toHaveProperty('plan');
  const { lesson } = smallShop();
  const parts = lessonParts(lesson, undefined, 'uncut', String);
  expect(parts).toMatchObject({
    length: 0,
    chapters: [{ number: '1', steps: [{ number: '1.1' }, { number: '1.2' }] }],
  });
  expect([parts.plan, parts.chapters[0]?.at]).toEqual([undefined, undefined]);
});
