import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  AAC_FRAME,
  bitRates,
  copyPoints,
  frameTotal,
  integratedLoudness,
  keptFrames,
  ladderFor,
  type PictureSource,
  planHeard,
  planLevelling,
  planPicture,
  planSeekPictures,
  planSound,
  readMediaPlaylist,
  SAMPLE_RATE,
  seekPicturesVtt,
  withBitRates,
} from '../../../src/core/media/index.ts';
import { editList, FRAME_RATES, fromSeconds, range, runtime, ticks } from '../../../src/core/time/index.ts';

const NTSC = FRAME_RATES['29.97'];
const at = (seconds: number) => fromSeconds<'recording'>(seconds);
const edits = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 40_000 }), fc.integer({ min: 60, max: 90_000 })), {
    minLength: 1,
    maxLength: 40,
  })
  .map((pairs) => {
    let from = 0;
    return editList(
      pairs.map(([gap, length]) => {
        const start = from + gap;
        from = start + length;
        return range(at(start / 1000), at(from / 1000));
      }),
    );
  });

test('points between frames never add up to more than half a frame, however many cuts', () => {
  fc.assert(
    fc.property(edits, (edit) => {
      const kept = keptFrames(edit, NTSC);
      const frame = NTSC.ticksPerFrame;
      expect(Math.abs(frameTotal(kept) * frame - runtime(edit))).toBeLessThanOrEqual(frame / 2);
      for (const [i, run] of kept.entries()) expect(run.at).toBe(frameTotal(kept.slice(0, i)));
    }),
  );
});

test('points on frames stay where they are', () => {
  const frame = NTSC.ticksPerFrame;
  const edit = editList([range(ticks(90 * frame), ticks(200 * frame)), range(ticks(333 * frame), ticks(1000 * frame))]);
  expect(keptFrames(edit, NTSC)).toEqual([
    { first: 90, count: 110, at: 0 },
    { first: 333, count: 667, at: 110 },
  ]);
});

// I P b b P I b b P in decoding order, as in the picture of ISO/IEC 14496-10's two kinds of groups.
test('only a group of pictures that needs nothing before it may be copied', () => {
  const decoded = (order: readonly number[], keys: readonly number[]) =>
    order.map((shown) => ({ shown: shown * NTSC.ticksPerFrame, key: keys.includes(shown) }));
  expect(copyPoints(decoded([0, 3, 1, 2, 4, 7, 5, 6, 8], [0, 4]), NTSC.ticksPerFrame)).toEqual([0, 4, 9]);
  expect(copyPoints(decoded([0, 3, 1, 2, 6, 4, 5, 9, 7, 8], [0, 6]), NTSC.ticksPerFrame)).toEqual([0, 10]);
});

test('pictures that do not keep to the frame grid are not copied', () => {
  const pictures = [0, 1, 2.4, 3].map((n) => ({ shown: Math.round(n * NTSC.ticksPerFrame), key: n === 0 }));
  expect(copyPoints(pictures, NTSC.ticksPerFrame)).toEqual({
    refused: 'its frames do not follow each other evenly at the rate of the recording',
  });
});

const sources: PictureSource[] = [
  { first: 0, frames: 9000, copy: [...Array.from({ length: 150 }, (_, i) => i * 60), 9000] },
  { first: 9000, frames: 30_000, copy: { refused: 'its picture is hevc, not H.264' } },
];

test('the pieces of the picture cover what is kept, in order, each frame once', () => {
  fc.assert(
    fc.property(edits, (edit) => {
      const kept = keptFrames(edit, NTSC);
      const units = planPicture(kept, sources, { chunk: 600, piece: 1800, changed: [{ at: 500, count: 100 }] });
      const frames = kept.flatMap(({ first, count }) => Array.from({ length: count }, (_, i) => first + i));
      const planned = units.flatMap(({ first, count }) => Array.from({ length: count }, (_, i) => first + i));
      expect(planned).toEqual(frames);
      let next = 0;
      for (const unit of units) {
        expect(unit.at).toBe(next);
        next += unit.count;
        if (unit.kind === 'copy') {
          expect([unit.first % 60, (unit.first + unit.count) % 60]).toEqual([0, 0]);
          expect(unit.at + unit.count <= 500 || unit.at >= 600).toBe(true);
        } else expect(unit.burnt === 0).toBe(unit.at >= 500 && unit.at + unit.count <= 600);
        if (unit.kind === 'blank') expect(unit.first).toBeGreaterThanOrEqual(39_000);
      }
    }),
  );
});

test('moving one cut leaves the pieces elsewhere as they were', () => {
  const edit = (end: number) => keptFrames([range(at(10), at(end)), range(at(400), at(900))], NTSC);
  const encoded = (end: number) =>
    planPicture(edit(end), sources, { chunk: 600, piece: 1800 }).map(
      ({ kind, first, count }) => `${kind} ${first} ${count}`,
    );
  const [before, after] = [encoded(200), encoded(203)];
  expect(after.filter((unit) => !before.includes(unit)).length).toBeLessThanOrEqual(2);
});

const sound = [
  { first: -40, samples: 300 * SAMPLE_RATE, from: 0, until: Math.round(300.3 * SAMPLE_RATE) },
  {
    first: Math.round(300.3 * SAMPLE_RATE),
    samples: 4000 * SAMPLE_RATE,
    from: Math.round(300.3 * SAMPLE_RATE),
    until: 4000 * SAMPLE_RATE,
  },
];

test('runs of sound follow each other frame by frame, and each is fed all it needs', () => {
  fc.assert(
    fc.property(edits, (edit) => {
      const kept = keptFrames(edit, NTSC);
      const { runs, samples } = planSound(kept, sound, NTSC);
      let frame = -1;
      for (const run of runs) {
        expect(run.frame).toBe(frame);
        frame += run.count;
        const fed = run.pieces.reduce((sum, piece) => sum + piece.count, 0);
        expect(fed).toBeGreaterThanOrEqual((run.skip - 1 + run.count) * AAC_FRAME);
        expect(fed % AAC_FRAME).toBe(0);
      }
      expect(frame).toBe(Math.ceil(samples / AAC_FRAME));
    }),
  );
});

test('sound lies within 9.82 ms of its picture', () => {
  const sampleOf = (frame: number) => (frame * NTSC.ticksPerFrame) / (705_600_000 / SAMPLE_RATE);
  let looked = 0;
  fc.assert(
    fc.property(edits, (edit) => {
      const kept = keptFrames(edit, NTSC);
      const { runs, lead } = planSound(kept, sound, NTSC);
      for (const run of runs) {
        const [first] = run.pieces;
        if (first?.kind !== 'sound' || first.fadeIn) continue;
        const heard = first.from + (sound[first.source]?.first ?? 0);
        const fed = Math.max(0, run.frame - 8) * AAC_FRAME - lead;
        const shown = kept.find(({ at: start, count }) => sampleOf(start) <= fed && fed < sampleOf(start + count));
        const exact = fed - sampleOf(shown?.at ?? 0) + sampleOf(shown?.first ?? 0);
        expect(Math.abs(heard - exact)).toBeLessThanOrEqual(471);
        looked++;
      }
    }),
  );
  expect(looked).toBeGreaterThan(100);
});

test('a moved cut leaves most runs of sound and most measurements as they were', () => {
  const edit = (end: number) =>
    keptFrames([range(at(10), at(end)), range(at(400), at(1500)), range(at(1600), at(2500))], NTSC);
  const changed = (plan: (end: number) => readonly string[]) => {
    const before = new Set(plan(200));
    const after = plan(200 + 1024 / SAMPLE_RATE + 3);
    return after.filter((run) => !before.has(run)).length / after.length;
  };
  expect(changed((end) => planHeard(edit(end), sound, NTSC).map((piece) => JSON.stringify(piece)))).toBeLessThan(0.1);
  const phases = Array.from({ length: 40 }, (_, i) =>
    changed((end) => planSound(edit(end + i / 29.97), sound, NTSC).runs.map((run) => JSON.stringify(run.pieces))),
  );
  expect(phases.reduce((sum, share) => sum + share, 0) / phases.length).toBeLessThan(0.35);
});

test('with many cuts a moved one leaves the sound elsewhere as it was', () => {
  const edit = (moved: number) =>
    keptFrames(
      Array.from({ length: 60 }, (_, i) =>
        range(at(i * 60 + 3.37), at(i * 60 + 58.81 + (i === 20 ? moved / 29.97 : 0))),
      ),
      NTSC,
    );
  const plan = (moved: number) =>
    planSound(edit(moved), sound, NTSC).runs.map(({ pieces, count }) => ({ key: JSON.stringify(pieces), count }));
  const framesOf = (runs: readonly { readonly count: number }[]) => runs.reduce((sum, { count }) => sum + count, 0);
  const before = new Set(plan(0).map(({ key }) => key));
  const shares = Array.from({ length: 60 }, (_, i) => {
    const after = plan(i + 1);
    return framesOf(after.filter(({ key }) => !before.has(key))) / framesOf(after);
  });
  expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeLessThan(0.11);
});

test('sound fades where a recorder begins or ends, and goes on where a camera split its file', () => {
  const second = SAMPLE_RATE;
  const files = [
    { first: 0, samples: 10 * second, from: 0, until: 10 * second },
    { first: 10 * second, samples: 5 * second, from: 10 * second, until: 20 * second },
    { first: 20 * second, samples: 20 * second, from: 20 * second, until: 40 * second, angle: 'desk' },
    { first: 40 * second, samples: 15 * second, from: 40 * second, until: 60 * second },
  ];
  const [run] = planSound(keptFrames([range(at(1), at(49))], NTSC), files, NTSC, 1000).runs.slice(1);
  expect(run!.pieces.map(({ kind, fadeIn, fadeOut }) => [kind, fadeIn, fadeOut])).toEqual([
    ['sound', false, false],
    ['sound', false, true],
    ['silence', true, true],
    ['sound', true, true],
    ['sound', true, true],
    ['silence', false, false],
  ]);
});

// 59.94: a picture lasts 801 samples, less than the sound of two neighbours may be moved against each other.
test('sound goes from join to join without gap or overlap, also where a single picture is kept', () => {
  const rate = FRAME_RATES['59.94'];
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 4 }))), (pairs) => {
      let [first, count, total] = [0, 0, 0];
      const kept = pairs.map(([gap, length]) => {
        first += count + gap;
        count = length;
        total += length;
        return { first, count, at: total - length };
      });
      const { runs, lead, samples } = planSound(kept, sound, rate);
      expect(samples - lead).toBe(Math.round((total * rate.ticksPerFrame) / (705_600_000 / SAMPLE_RATE)));
      for (const { frame, count: frames, pieces } of runs) {
        const fed = pieces.reduce((sum, piece) => sum + piece.count, 0);
        expect(fed).toBe((frame + frames + 3 - Math.max(0, frame - 8)) * AAC_FRAME);
        for (const piece of pieces) expect(piece.count).toBeGreaterThan(0);
      }
    }),
  );
});

// ITU-R BS.1770-4: gates at -70 LUFS and 10 LU below the mean; recomputed here by hand.
test('integrated loudness counts what passes both gates', () => {
  expect(integratedLoudness([-23, -23, -23])).toBeCloseTo(-23, 9);
  expect(integratedLoudness([-23, -23, -80, -80])).toBeCloseTo(-23, 9);
  expect(integratedLoudness([-23, -23, -40, -40])).toBeCloseTo(-23, 9);
  expect(integratedLoudness([-20, -30])).toBeCloseTo(10 * Math.log10((10 ** -2 + 10 ** -3) / 2), 9);
  expect(integratedLoudness([-90])).toBeUndefined();
});

test('the gain reaches the target, and a limiter comes in only where peaks would pass the ceiling', () => {
  expect(planLevelling([{ blocks: [-23, -23], truePeak: -12 }], -16)).toMatchObject({ gain: 7, limit: false });
  expect(
    planLevelling(
      [
        { blocks: [-23], truePeak: -12 },
        { blocks: [-23], truePeak: -5 },
      ],
      -16,
    ),
  ).toMatchObject({
    gain: 7,
    limit: true,
    truePeak: -5,
  });
  expect(planLevelling([{ blocks: [-100] }], -16)).toEqual({ gain: 0, limit: false });
});

test('the seek pictures name a part of the sheet for each moment', () => {
  const plan = planSeekPictures(250, { width: 1920, height: 1080 });
  expect(plan).toMatchObject({ every: 3, count: 84, columns: 10, rows: 9, width: 160, height: 90 });
  expect(seekPicturesVtt(plan, 'sheet.jpg')).toContain('00:00:33.000 --> 00:00:36.000\nsheet.jpg#xywh=160,90,160,90');
  expect(seekPicturesVtt(plan, 'sheet.jpg').trimEnd()).toMatch(/00:04:10\.000\n.*$/);
});

test('a ladder never goes above the picture', () => {
  expect(ladderFor({ width: 1920, height: 1080 }).map(({ height }) => height)).toEqual([1080, 720, 480, 270]);
  expect(ladderFor({ width: 640, height: 360 })).toMatchObject([{ width: 640, height: 360 }, { height: 270 }]);
  expect(ladderFor({ width: 320, height: 180 })).toMatchObject([{ width: 320, height: 180 }]);
});

// RFC 8216, 4.3.4.2: BANDWIDTH is the peak segment bit rate, over runs of half to one and a half target durations (4.1);
// worked by hand: 2 s are too short to count alone, with 6 s before them they make 8.8 Mbit in 8 s.
test('the bit rate of a rung is that of its busiest segments', () => {
  const segments = [
    { seconds: 6, bytes: 600_000 },
    { seconds: 2, bytes: 500_000 },
    { seconds: 6, bytes: 300_000 },
  ];
  expect(bitRates(6, segments)).toEqual({ peak: 1_100_000, mean: 800_000 });
  expect(bitRates(6, segments.slice(1, 2))).toEqual({ peak: 2_000_000, mean: 2_000_000 });
  expect(
    readMediaPlaylist('#EXTM3U\n#EXT-X-TARGETDURATION:6\n#EXTINF:6.006,\n0.m4s\n#EXTINF:2,title\n1.m4s\n'),
  ).toEqual({
    target: 6,
    segments: [
      { name: '0.m4s', seconds: 6.006 },
      { name: '1.m4s', seconds: 2 },
    ],
  });
  expect(withBitRates('#EXT-X-STREAM-INF:BANDWIDTH=1,RESOLUTION=2x2\na\n', [{ peak: 9, mean: 8 }])).toBe(
    '#EXT-X-STREAM-INF:BANDWIDTH=9,AVERAGE-BANDWIDTH=8,RESOLUTION=2x2\na\n',
  );
});
