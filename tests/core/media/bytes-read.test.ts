import { expect, test } from 'vitest';
import { bytesRead, type FilmIndex, joinBytes, type Reading } from '../../../src/core/media/index.ts';

// Invented films, one chunk a second. Which chunks a reader asks for is worked out by hand from what the reader is
// known to do (36 s or 8 MiB looked at first, two seconds early, five seconds or 64 samples late).
type Track = FilmIndex['tracks'][number];

/** A track of one chunk a second, apart from each other by `apart` bytes. */
function track(
  seconds: number,
  more: Partial<Track> & { readonly at?: number; readonly bytes?: number; readonly begin?: number } = {},
): Track {
  const { at = 0, bytes = 100, begin = 0, ...rest } = more;
  const chunks = Array.from({ length: seconds }, (_, i) => ({
    ...{ offset: at + 10_000_000 * i, end: at + 10_000_000 * i + bytes, bytes },
    time: [begin + i, begin + i + 1] as const,
  }));
  return { kind: 'vide', shift: 0, keys: undefined, sample: 0.04, chunks, ...rest };
}
const everyTen = Float64Array.from({ length: 30 }, (_, i) => i * 10);

/** First and last chunk of each stretch of neighbours that is read. */
function chunksRead(tracks: readonly Track[], readings: readonly Reading[] = []): [number, number][] | undefined {
  const read = bytesRead({ tracks }, readings)?.map(([start]) => Math.floor(start / 10_000_000));
  const runs: [number, number][] = [];
  for (const chunk of read ?? []) {
    const last = runs.at(-1);
    if (last && chunk <= last[1] + 1) last[1] = chunk;
    else runs.push([chunk, chunk]);
  }
  return read && runs;
}

test('stretches that touch or lie within each other become one', () => {
  expect(joinBytes([])).toEqual([]);
  expect(
    joinBytes([
      [50, 60],
      [0, 10],
      [10, 20],
      [12, 14],
      [21, 30],
    ]),
  ).toEqual([
    [0, 20],
    [21, 30],
    [50, 60],
  ]);
});

test('its beginning is always read: 35 s or 8 MiB of all tracks, and two seconds more', () => {
  expect(chunksRead([track(200)])).toEqual([[0, 37]]);
  expect(chunksRead([track(200, { bytes: 1 << 20 })])).toEqual([[0, 9]]);
  expect(chunksRead([track(20)])).toEqual([[0, 19]]);
  // Two tracks side by side: half as much of each. A file that begins late is looked at from where it begins.
  const half = { bytes: 1 << 20, begin: 100 };
  expect(chunksRead([track(200, half), track(200, { ...half, kind: 'soun' })])).toEqual([[0, 5]]);
  // What a track begins with is looked at however late that is.
  const late = track(10, { kind: 'soun', shift: 150, at: 1_500_000_000 });
  expect(chunksRead([track(200), late])).toEqual([
    [0, 37],
    [150, 150],
  ]);
});

test.each<[string, Partial<Track>, Reading, [number, number]]>([
  // From key picture 90 on, two seconds early and a chunk before; then 5 s late, and two chunks more.
  ['from the key picture before it', { keys: everyTen }, { stretch: [100, 110] }, [86, 117]],
  ['from the key two seconds before at least', { keys: everyTen }, { stretch: [102, 110] }, [96, 117]],
  ['from the moment where all are keys', {}, { stretch: [100, 110] }, [94, 117]],
  ['64 samples late where those last longer', { sample: 0.1 }, { stretch: [100, 110] }, [94, 118]],
  ['on the clock of the file', { shift: 10, keys: everyTen }, { stretch: [111, 120] }, [86, 117]],
  ['from the first sample', { shift: 10 }, { stretch: [90, 100], fromFirst: true }, [84, 107]],
  ['up to the end', {}, { stretch: [190, 260] }, [184, 199]],
  ['of the last chunk where it lies behind', {}, { stretch: [250, 260] }, [199, 199]],
])('a stretch is read %s', (_, more, reading, wanted) => {
  expect(chunksRead([track(200, more)], [reading])?.at(-1)).toEqual(wanted);
});

test('without a key picture before it, it is read from the beginning', () => {
  expect(chunksRead([track(200, { keys: Float64Array.of(150) })], [{ stretch: [100, 110] }])).toEqual([[0, 117]]);
});

test('sound is read from the key picture on, its stream by number, the first picture without one', () => {
  const tracks = [track(200, { kind: 'soun', at: 5_000_000 }), track(200, { keys: Float64Array.of(0, 60) })];
  const reading = { stretch: [100, 110] } as const;
  const far = (read: ReturnType<typeof bytesRead>, beside: number) =>
    read?.filter(([start]) => start % 10_000_000 === beside).map(([start]) => Math.floor(start / 10_000_000));
  expect(far(bytesRead({ tracks }, [{ ...reading, stream: 0 }]), 5_000_000)?.slice(38)).toEqual(
    Array.from({ length: 62 }, (_, i) => 56 + i),
  );
  expect(far(bytesRead({ tracks }, [reading]), 0)?.slice(38)).toEqual(Array.from({ length: 62 }, (_, i) => 56 + i));
  expect(far(bytesRead({ tracks }, [reading]), 5_000_000)).toHaveLength(38);
  expect(bytesRead({ tracks }, [{ ...reading, stream: 2 }])).toBeUndefined();
  expect(bytesRead({ tracks: tracks.slice(0, 1) }, [reading])).toBeUndefined();
});

test('timecode and chapters are read whole while they are small; large chapters want the whole file', () => {
  const other = (kind: string, bytes: number) => track(2, { kind, shift: 0, at: 1_500_000_000, bytes, begin: 100 });
  const behind = (kind: string, bytes: number) => chunksRead([track(60), other(kind, bytes)])?.slice(1);
  expect(behind('tmcd', 1 << 19)).toEqual([[150, 151]]);
  // As a track it is looked at where it begins.
  expect(behind('tmcd', (1 << 19) + 1)).toEqual([[150, 150]]);
  for (const kind of ['text', 'sbtl']) {
    expect(behind(kind, 1 << 19)).toEqual([[150, 151]]);
    expect(behind(kind, (1 << 19) + 1)).toBeUndefined();
  }
  expect(behind('soun', 100)).toEqual([[150, 150]]);
});
