import { describe, expect, test } from 'vitest';
import { readFilmIndex } from '../../../src/core/media/index.ts';

// Boxes as ISO/IEC 14496-12 lays them out: mvhd 8.2.2, mdhd 8.4.2, hdlr 8.4.3, stts 8.6.1.2, stss 8.6.2, elst 8.6.6,
// stsz 8.7.3.2, stsc 8.7.4, stco and co64 8.7.5. What each says is worked out by hand.
const u32 = (...values: readonly number[]) =>
  values.flatMap((value) => [24, 16, 8, 0].map((by) => (value >>> by) & 0xff));
const u64 = (...values: readonly number[]) => values.flatMap((value) => u32(Math.floor(value / 2 ** 32), value));
const sign = (text: string) => [...text].map((one) => one.charCodeAt(0));
const box = (type: string, ...body: readonly (readonly number[])[]) => {
  const all = body.flat();
  return [...u32(all.length + 8), ...sign(type), ...all];
};

const MVHD = box('mvhd', u32(0, 0, 0, 1000, 0));
const MDHD = box('mdhd', u32(0, 0, 0, 600, 0));
/** Five samples of 20, 20, 20, 40 and 40 units. */
const STTS = box('stts', u32(0, 2, 3, 20, 2, 40));
const TABLE = {
  stts: STTS,
  // Two samples a chunk, but one from the third chunk on.
  stsc: box('stsc', u32(0, 2, 1, 2, 1, 3, 1, 1)),
  stsz: box('stsz', u32(0, 0, 5, 100, 50, 60, 40, 70)),
  stco: box('stco', u32(0, 3, 1000, 2000, 3000)),
};

interface Written {
  readonly table?: Readonly<Record<string, readonly number[]>>;
  readonly mdhd?: readonly number[];
  readonly kind?: string;
  readonly edits?: readonly number[];
}
const trak = ({ table = {}, mdhd = MDHD, kind = 'vide', edits = [] }: Written = {}) =>
  box(
    'trak',
    edits,
    box(
      'mdia',
      mdhd,
      box('hdlr', u32(0, 0), sign(kind)),
      box('minf', box('stbl', ...Object.values({ ...TABLE, ...table }))),
    ),
  );
const read = (bytes: number, ...boxes: readonly (readonly number[])[]) =>
  readFilmIndex(Uint8Array.from(boxes.flat()), bytes);
const elst = (...rows: readonly (readonly [length: number, from: number])[]) =>
  box('edts', box('elst', u32(0, rows.length), ...rows.map(([length, from]) => u32(length, from, 0x10000))));

test('chunks, their times and their key pictures are those of the tables', () => {
  const [track] = read(4000, MVHD, trak({ table: { stss: box('stss', u32(0, 2, 1, 4)) } }))?.tracks ?? [];
  expect(track).toMatchObject({ kind: 'vide', shift: 0 });
  // 140 units in all, 600 a second.
  expect(track?.sample).toBeCloseTo(140 / 600 / 5, 12);
  expect([...(track?.keys ?? [])]).toEqual([0, 60 / 600]);
  expect(track?.chunks).toEqual([
    { offset: 1000, end: 2000, bytes: 150, time: [0, 40 / 600] },
    { offset: 2000, end: 3000, bytes: 100, time: [40 / 600, 100 / 600] },
    { offset: 3000, end: 4000, bytes: 70, time: [100 / 600, 140 / 600] },
  ]);
});

test('wide numbers and samples of one size say the same; without stss all samples are keys', () => {
  const wide = trak({
    kind: 'soun',
    mdhd: box('mdhd', u32(0x0100_0000), u64(0, 0), u32(600)),
    table: { stsz: box('stsz', u32(0, 7, 5)), stco: box('co64', u32(0, 3), u64(2 ** 32 + 10, 2 ** 32 + 90, 500)) },
    edits: box('edts', box('elst', u32(0x0100_0000, 2), u64(2000), u32(-1, -1, 0), u64(9), u64(30), u32(0))),
  });
  const [track] = read(2 ** 33, box('mvhd', u32(0x0100_0000), u64(0, 0), u32(4000)), wide)?.tracks ?? [];
  // Empty for 2000 of 4000 units a second, then from unit 30 of 600 on.
  expect(track).toMatchObject({ kind: 'soun', keys: undefined });
  expect(track?.shift).toBeCloseTo(0.5 - 0.05, 12);
  expect(track?.chunks.map(({ offset, end, bytes }) => [offset, end, bytes])).toEqual([
    [2 ** 32 + 10, 2 ** 32 + 90, 14],
    [2 ** 32 + 90, 2 ** 33, 14],
    [500, 2 ** 32 + 10, 7],
  ]);
});

test('a chunk reaches to the next one of any track, and as far as its samples do', () => {
  const sound = trak({
    kind: 'soun',
    table: { stsz: box('stsz', u32(0, 200, 5)), stco: box('stco', u32(0, 3, 1100, 2900, 3100)) },
  });
  const tracks = read(4000, MVHD, trak(), sound)?.tracks ?? [];
  expect(tracks.map(({ chunks }) => chunks.map(({ end }) => end))).toEqual([
    [1150, 2900, 3100],
    // Two samples of 200 bytes go past what comes next.
    [2000, 3300, 4000],
  ]);
});

test.each([
  ['as it is', [], 0],
  ['later by half a second', elst([500, -1]), 0.5],
  ['from its second picture on', elst([900, 20]), -20 / 600],
  ['later, and from there', elst([500, -1], [900, 60]), 0.4],
  ['later twice over', elst([500, -1], [250, -1], [900, 0]), 0.75],
])('a track that begins %s', (_, edits, shift) => {
  expect(read(4000, MVHD, trak({ edits }))?.tracks[0]?.shift).toBeCloseTo(shift, 12);
});

test('a zero ends a list, and what is too short for a box is none', () => {
  expect(read(4000, MVHD, trak(), u32(0, 0), sign('what follows'))?.tracks).toHaveLength(1);
  expect(read(4000, MVHD, trak(), [0, 0, 1])?.tracks).toHaveLength(1);
  expect(read(4000, MVHD, box('free'), trak())?.tracks).toHaveLength(1);
});

test('a track of no samples has no length of one', () => {
  const none = { stts: box('stts', u32(0, 0)), stsc: box('stsc', u32(0, 0)), stsz: box('stsz', u32(0, 0, 0)) };
  const [track] = read(4000, MVHD, trak({ table: { ...none, stco: box('stco', u32(0, 0)) } }))?.tracks ?? [];
  expect(track).toMatchObject({ sample: 0, chunks: [] });
});

describe('a film is fetched whole where', () => {
  test.each<[string, readonly (readonly number[])[]]>([
    ['its pictures lie in fragments', [MVHD, trak(), box('mvex')]],
    ['its index is packed', [MVHD, trak(), box('cmov')]],
    ['it has no head', [trak()]],
    ['it has two', [MVHD, MVHD, trak()]],
    ['it counts no time', [box('mvhd', u32(0, 0, 0, 0, 0)), trak()]],
    ['a track counts no time', [MVHD, trak({ mdhd: box('mdhd', u32(0, 0, 0, 0, 0)) })]],
    ['it has no track', [MVHD]],
    ['key pictures lean on others', [MVHD, trak({ table: { stps: box('stps', u32(0, 0)) } })]],
    ['two stretches of a track play', [MVHD, trak({ edits: elst([500, 0], [500, 60]) })]],
    ['a track pauses', [MVHD, trak({ edits: elst([500, 0], [500, -1]) })]],
    ['a box is longer than what holds it', [MVHD, trak(), [...u32(9), ...sign('free')]]],
    ['a box is shorter than its own head', [MVHD, trak(), [...u32(7), ...sign('free'), 0, 0]]],
    [
      'a table holds fewer rows than it says',
      [MVHD, trak({ table: { stco: box('stco', u32(0, 4, 1000, 2000, 3000)) } })],
    ],
    ['sizes are fewer than it says', [MVHD, trak({ table: { stsz: box('stsz', u32(0, 0, 6, 100, 50, 60, 40, 70)) } })]],
    [
      'a chunk begins past the end of the file',
      [MVHD, trak({ table: { stco: box('stco', u32(0, 3, 1000, 2000, 4001)) } })],
    ],
    ['a chunk ends past it', [MVHD, trak({ table: { stco: box('stco', u32(0, 3, 1000, 2000, 3931)) } })]],
    ['a chunk lies nowhere', [MVHD, trak({ table: { stco: box('stco', u32(0, 3, 0, 2000, 3000)) } })]],
  ])('%s', (_, boxes) => {
    expect(read(4000, ...boxes)).toBeUndefined();
  });
});
