import { describe, expect, test } from 'vitest';
import {
  bitRates,
  hlsArgs,
  ladderFor,
  readMediaPlaylist,
  soundComesEarly,
  webmArgs,
  webmTrialArgs,
  withBitRates,
} from '../../../src/core/media/index.ts';

describe('a ladder', () => {
  const heights = (height: number) => ladderFor({ width: 2 * height, height }).map((rung) => rung.height);
  test('has no rung within a tenth of the picture, and none above 1080 lines', () => {
    expect(heights(2160)).toEqual([1080, 720, 480, 270]);
    expect(heights(801)).toEqual([800, 720, 480, 270]);
    expect(heights(800)).toEqual([800, 480, 270]);
    expect(heights(300)).toEqual([300]);
    expect(heights(301)).toEqual([300, 270]);
  });

  test('keeps the shape, in even numbers, and gives a smaller picture bits by its area', () => {
    expect(ladderFor({ width: 3840, height: 2160 })[0]).toEqual({
      ...{ width: 1920, height: 1080, picture: 4_500_000, sound: 160_000 },
    });
    expect(ladderFor({ width: 853, height: 481 })[0]).toMatchObject({ width: 854, height: 480 });
    // Half of the height of 1080 is between 480 and 720: of the 2.4 Mbit at 720, (540/720)².
    expect(ladderFor({ width: 960, height: 540 })).toEqual([
      { width: 960, height: 540, picture: 1_350_000, sound: 128_000 },
      { width: 854, height: 480, picture: 1_100_000, sound: 128_000 },
      { width: 480, height: 270, picture: 450_000, sound: 96_000 },
    ]);
  });
});

// RFC 8216, 4.1: the peak segment bit rate is that of runs of half to one and a half target durations. By hand.
test.each([
  [
    'half of the target counts alone',
    6,
    [
      [3, 3000],
      [6, 600],
    ],
    8000,
  ],
  [
    'less does not',
    6,
    [
      [2.9, 2900],
      [6, 600],
    ],
    Math.ceil((3500 * 8) / 8.9),
  ],
  [
    'one and a half targets count together',
    6,
    [
      [1, 3000],
      [8, 3000],
      [30, 30],
    ],
    Math.ceil((6000 * 8) / 9),
  ],
  [
    'more do not',
    6,
    [
      [1, 3000],
      [8.1, 3000],
      [30, 30],
    ],
    Math.ceil((3000 * 8) / 8.1),
  ],
  [
    'no run that counts: the mean of all',
    6,
    [
      [1, 1000],
      [1, 500],
    ],
    6000,
  ],
] as const)('a peak: %s', (_, target, rows, peak) => {
  expect(
    bitRates(
      target,
      rows.map(([seconds, bytes]) => ({ seconds, bytes })),
    ).peak,
  ).toBe(peak);
});

test('nothing has no bit rate', () => {
  expect(bitRates(6, [])).toEqual({ peak: 0, mean: 0 });
});

test('a playlist names its segments whatever other tags stand between; without a target it has none', () => {
  const text = '#EXTM3U\n#EXTINF:6.5,\n#EXT-X-BYTERANGE:5@0\n#EXT-X-DISCONTINUITY\na b.m4s\n#EXT-X-ENDLIST\n';
  expect(readMediaPlaylist(text)).toEqual({ target: 0, segments: [{ name: 'a b.m4s', seconds: 6.5 }] });
  expect(readMediaPlaylist('#EXTM3U\n#EXT-X-TARGETDURATION:12\n')).toEqual({ target: 12, segments: [] });
});

test('variants get their own bit rates in order; one that was not measured keeps what was written', () => {
  const line = (more: string) => `#EXT-X-STREAM-INF:${more},RESOLUTION=2x2\nlist.m3u8\n`;
  const master = line('BANDWIDTH=11') + line('BANDWIDTH=22') + line('BANDWIDTH=33');
  const rungs = [
    { peak: 5, mean: 4 },
    { peak: 3, mean: 2 },
  ];
  expect(withBitRates(master, rungs)).toBe(
    line('BANDWIDTH=5,AVERAGE-BANDWIDTH=4') + line('BANDWIDTH=3,AVERAGE-BANDWIDTH=2') + line('BANDWIDTH=33'),
  );
});

/** What follows an option of a command line. */
const after = (args: readonly string[], option: string) => args[args.indexOf(option) + 1];

test('each rung is scaled, coded and mapped by its number', () => {
  const rungs = [
    { width: 1280, height: 720, picture: 2_400_000, sound: 128_000 },
    { width: 480, height: 270, picture: 450_000, sound: 96_000 },
  ];
  const args = hlsArgs('in.mp4', rungs, true, 'out');
  expect(after(args, '-filter_complex')).toBe(
    '[0:v]split=2[s0][s1];[s0]scale=1280:720,format=yuv420p[v0];[s1]scale=480:270,format=yuv420p[v1]',
  );
  expect(['-b:v:1', '-maxrate:v:1', '-bufsize:v:1', '-b:a:1'].map((option) => after(args, option))).toEqual([
    ...['450000', '450000', '900000', '96000'],
  ]);
  expect(after(args, '-var_stream_map')).toBe('v:0,a:0 v:1,a:1');
  // Segments of 6 s, and a key picture at every third of one in all rungs (RFC 8216, 3).
  expect([after(args, '-hls_time'), after(args, '-force_key_frames')]).toEqual(['6', 'expr:gte(t,n_forced*2)']);
  expect(args.slice(-3)).toEqual(['-hls_segment_filename', 'out/%v/%d.m4s', 'out/%v/list.m3u8']);
  const silent = hlsArgs('in.mp4', rungs, false, 'out');
  expect(after(silent, '-var_stream_map')).toBe('v:0 v:1');
  expect(silent.filter((arg) => arg === '0:a:0' || arg.startsWith('-b:a') || arg === '-bsf:a')).toEqual([]);
});

describe('one file in a codec that needs fewer bits', () => {
  const form = { version: 'vp9', encoder: 'libvpx-vp9', hasSound: true, early: false } as const;
  test.each([
    ['vp9', 'libvpx-vp9', ['-crf 33', '-deadline good', '-b:v 0']],
    ['av1', 'libsvtav1', ['-crf 36', '-preset 9']],
    ['av1', 'libaom-av1', ['-crf 36', '-cpu-used 6', '-b:v 0']],
  ] as const)('%s by %s has the options of that encoder', (version, encoder, options) => {
    const args = webmArgs('in.mp4', { ...form, version, encoder }, 'out.webm').join(' ');
    for (const option of [`-c:v ${encoder}`, '-c:a libopus', '-f webm out.webm', ...options])
      expect(args).toContain(option);
    expect(args.includes('-preset')).toBe(encoder === 'libsvtav1');
  });

  test('its sound is set later by the delay of Opus, 312 samples, only where it would come early', () => {
    const filter = (more: object) => webmArgs('in.mp4', { ...form, ...more }, 'out.webm').join(' ');
    expect(filter({ early: true })).toContain('-af asetpts=PTS+312');
    expect(filter({})).not.toContain('-af');
    expect(filter({ early: true, hasSound: false })).not.toMatch(/-af|0:a:0|libopus/);
  });

  test('sound comes early when it lies more than one and a half delays before the picture', () => {
    expect(soundComesEarly(0.5, 0.5 - (1.51 * 312) / 48_000)).toBe(true);
    expect(soundComesEarly(0.5, 0.5 - (1.49 * 312) / 48_000)).toBe(false);
    const trial = webmTrialArgs('libaom-av1', 'out.webm').join(' ');
    for (const part of ['color=s=64x64:r=25', 'anullsrc=r=48000:cl=mono', '-t 0.2', '-c:v libaom-av1', '-c:a libopus'])
      expect(trial).toContain(part);
  });
});
