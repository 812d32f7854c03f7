import { describe, expect, test } from 'vitest';
import { FORMATS, type Format, reelNames, writeIcs, zonedTime } from '../../../src/core/interchange/index.ts';
import { isoDuration } from '../../../src/core/interchange/jsonld.ts';
import { at } from '../../support/edit.ts';
import { changedFile, done, type SmallShop, smallShop } from '../../support/shop.ts';

const STAMP = new Date('2026-11-25T08:00:00Z');

function write(id: string, made: SmallShop = smallShop()) {
  const format = FORMATS.find((one) => one.id === id) as Format;
  const { recording, times, shopClass, shop } = made;
  if (format.of === 'recording') return done(format.write(recording, [times], shop));
  if (format.of === 'lesson') return done(format.write(times, shop));
  return done(format.write(shopClass, shop, STAMP));
}

test('every format has an id of its own and writes the small shop', () => {
  expect(new Set(FORMATS.map(({ id }) => id)).size).toBe(FORMATS.length);
  for (const { id } of FORMATS) expect(write(id).text.length, id).toBeGreaterThan(20);
});

describe('edl', () => {
  // The edit list keeps 0:00:10-0:05:00 and 0:06:00-0:09:00 at 29.97: points lie between frames and go down and up;
  // 0:05:00 is a third of a millisecond after the end of a frame, and on it.
  test('runs of camera files, sources and records, marks at their frames', () => {
    const { text, notes } = write('edl');
    expect(text.split('\n')).toEqual([
      'TITLE: Chain, uncut',
      'FCM: NON-DROP FRAME',
      '',
      '001  CHAIN    AA/V  C        00:00:09:29 00:04:59:21 01:00:00:00 01:04:49:22',
      '* FROM CLIP NAME: media/chain.mp4',
      '* LOC: 01:00:10:00 GREEN   Rear wheel',
      '* LOC: 01:00:20:00 CYAN    Crack the nut',
      '002  CHAIN    AA/V  C        00:05:59:19 00:08:59:14 01:04:49:22 01:07:49:17',
      '* FROM CLIP NAME: media/chain.mp4',
      '* LOC: 01:04:59:21 CYAN    Tighten the nut',
      '',
    ]);
    expect(notes).toEqual(['3 points between two frames moved to whole frames: in points down, out points up']);
  });

  test('a point up to a millisecond beside a frame is on it, and nothing is lost; one further away is told', () => {
    const kept = (start: string, end: string) => {
      const files = changedFile(
        'recordings/chain.yaml',
        'in: "0:00:10", out: "0:05:00"',
        `in: "${start}", out: "${end}"`,
      );
      const { text, notes } = write('edl', smallShop(files));
      return [text.split('\n')[3]?.slice(29, 52), notes[0]];
    };
    const points = (n: number) => `${n} points between two frames moved to whole frames: in points down, out points up`;
    // Two points are those of the other range. 29.97 is 30000/1001 a second (SMPTE ST 12-1): frame 301 begins at 10.04337 s, frame 600 at 20.02 s.
    expect(kept('0:00:10.043', '0:00:20.021')).toEqual(['00:00:10:01 00:00:20:00', points(2)]);
    expect(kept('0:00:10.044', '0:00:20.019')).toEqual(['00:00:10:01 00:00:20:00', points(2)]);
    expect(kept('0:00:10.042', '0:00:20.022')).toEqual(['00:00:10:00 00:00:20:01', points(4)]);
  });

  test('what another angle shows, or is heard by, is told: only the own camera is named', () => {
    const files = changedFile(
      'recordings/chain.yaml',
      '"0:05:00"}\n  - {in: "0:06:00", out: "0:09:00"}\n',
      '"0:05:00", angle: bench}\n  - {in: "0:06:00", out: "0:09:00"}\nsound: desk\nangles:\n  - {id: bench, file: media/b.mp4, offset: "0:00:00"}\n  - {id: desk, file: media/d.wav, offset: "0:00:00"}\n',
    );
    for (const id of ['edl', 'otio'])
      expect(write(id, smallShop(files)).notes).toEqual(
        expect.arrayContaining([
          "what bench shows is told as the recording's own camera: only its files are named",
          "the sound of desk is told as that of the recording's own camera",
        ]),
      );
  });

  test('each camera file is a reel with its own labels, drop-frame where counted so', () => {
    const files = changedFile(
      'recordings/chain.yaml',
      '  - file: media/chain.mp4\nrate: "29.97"\n',
      '  - file: media/a b-1.mp4\n  - file: media/a b-2.mp4\nrate: "29.97df"\n',
    );
    const made = smallShop(files, {
      'media/a b-1.mp4': { seconds: 180.18, start: '10:00:00;00' },
      'media/a b-2.mp4': { seconds: 400.4, start: '10:03:00;10' },
    });
    const { text } = write('edl', made);
    expect(text).toContain('FCM: DROP FRAME');
    const events = text.split('\n').filter((line) => /^\d{3} /.test(line));
    expect(events.map((line) => line.slice(5, 42))).toEqual([
      'AB1      AA/V  C        10:00:09;29 1',
      'AB2      AA/V  C        10:03:00;10 1',
      'AB2      AA/V  C        10:05:59;29 1',
    ]);
  });

  test('reels are short, plain and no two alike', () => {
    const files = ['a/Kamera Größe 0001.MP4', 'b/Kamera Größe 0001.MP4', 'x.mov', 'clip_with_a_long_name_02.mov'].map(
      (file) => ({ file }),
    );
    expect([...reelNames(files).values()]).toEqual(['KAME0001', 'KAMERAG2', 'X', 'CLIPME02']);
  });

  test('without a frame rate there are no labels, and that is said', () => {
    const { recording, times, shop } = smallShop();
    const { rate: _, ...without } = recording;
    const format = FORMATS.find(({ id }) => id === 'edl');
    expect(format?.of === 'recording' && format.write(without, [times], shop)).toMatchObject({
      ok: false,
      problem: 'the frame rate of chain is not known',
    });
  });
});

test('a cue in a cut gets no mark, and is named', () => {
  const made = smallShop(changedFile('lessons/chain.mdx', '<Cue at="0:06:10" />', '<Cue at="0:05:30" />'));
  expect(write('edl', made).notes.join()).toContain('"Tighten the nut" lie in a cut and got no mark');
});

test('where sound ends before the picture, the sound track of otio has a gap', () => {
  const made = smallShop({}, { 'media/chain.mp4': { seconds: 600, sound: 500 } });
  const { tracks } = JSON.parse(write('otio', made).text);
  const [picture, sound] = tracks.children;
  const frames = (track: { children: { source_range: { duration: { value: number } } }[] }) =>
    track.children.map(({ source_range }) => source_range.duration.value);
  expect(sound.children.map((child: { OTIO_SCHEMA: string }) => child.OTIO_SCHEMA)).toEqual([
    'Clip.2',
    'Clip.2',
    'Gap.1',
  ]);
  expect(frames(sound).reduce((a, b) => a + b)).toBe(frames(picture).reduce((a, b) => a + b));
});

describe('chapter-list', () => {
  test('the first line is 0:00, and what a host would refuse is told', () => {
    const { text, notes } = write('chapter-list');
    expect(text).toBe('0:00 Chain\n0:10 Rear wheel\n');
    expect(notes).toEqual([
      "the first chapter starts at 0:10; a line 0:00 with the lesson's title comes before it",
      'hosts want 3 chapters or more; there are 2',
    ]);
  });

  test('a first chapter a few seconds in is moved to 0:00; one under 10 s is told', () => {
    const body =
      '## One\n<Cue at="0:00:12" />\n\n### A\n\n## Two\n<Cue at="0:01:00" />\n\n### B\n\n## Three\n<Cue at="0:01:09.5" />\n\n### C\n';
    const lesson = `---\ntitle: Chain\nrecording: chain\nmachine: tarn-420\n---\n${body}`;
    const { text, notes } = write('chapter-list', smallShop({ 'lessons/chain.mdx': lesson }));
    expect(text).toBe('0:00 One\n0:50 Two\n0:59 Three\n');
    expect(notes).toEqual([
      '"One" starts at 0:02; the list has it at 0:00, where the first must be',
      'shorter than 10 s, so hosts may show no chapters at all: "Two"',
    ]);
  });
});

test('metadata cues hold one line of JSON that cannot end its cue', () => {
  const made = smallShop(changedFile('lessons/chain.mdx', '### Crack the nut', '### Crack --> the nut'));
  const { text } = write('vtt-metadata', made);
  const payloads = text.split('\n').filter((line) => line.startsWith('{'));
  expect(payloads.map((line) => JSON.parse(line).title)).toEqual([
    'Rear wheel',
    'Crack --> the nut',
    'Tighten the nut',
  ]);
  expect(payloads.some((line) => line.includes('-->'))).toBe(false);
});

test('chapters and steps that are cut out whole are left out and named', () => {
  const made = smallShop(
    changedFile('recordings/chain.yaml', '{in: "0:00:10", out: "0:05:00"}', '{in: "0:04:00", out: "0:05:00"}'),
  );
  const { text, notes } = write('mkv-chapters', made);
  expect(text).not.toContain('Crack the nut');
  expect(notes).toEqual(['cut out whole, so left out: "Crack the nut"']);
});

test('structured data cites values in their places and names what is used', () => {
  const [video, howTo] = JSON.parse(write('jsonld').text)['@graph'];
  expect(video.hasPart).toEqual([
    { '@type': 'Clip', name: 'Rear wheel', startOffset: 10, endOffset: 470, url: '/lessons/chain/#t=10' },
  ]);
  expect(howTo.step[0].itemListElement[1].text).toMatch(/^Tighten to 98 ± 5.N·m\.$/);
  expect(howTo.tool.map(({ name }: { name: string }) => name)).toEqual(['Breaker bar', 'Torque wrench, large']);
  expect(howTo.supply).toEqual([{ '@type': 'HowToSupply', name: 'Cotter pin' }]);
});

// ISO 8601 durations after RFC 5545 §3.3.6: no unit may be skipped; ten minutes are PT10M0S, not P10M, ten months.
test.each([
  [0, 'PT0S'],
  [600, 'PT10M0S'],
  [3620.5, 'PT1H0M20.5S'],
  [90_000, 'PT25H0M0S'],
])('%d s last %s', (seconds, text) => {
  expect(isoDuration(at(seconds))).toBe(text);
});

// 2026: clocks in Vienna go forward on 29 March at 02:00 and back on 25 October at 03:00 (IANA time zone database).
test.each([
  ['2026-12-05', '10:00', 'Europe/Vienna', '2026-12-05T09:00:00.000Z', false],
  ['2026-07-05', '10:00', 'Europe/Vienna', '2026-07-05T08:00:00.000Z', false],
  ['2026-03-29', '02:30', 'Europe/Vienna', '2026-03-29T01:30:00.000Z', true],
  ['2026-10-25', '02:30', 'Europe/Vienna', '2026-10-25T00:30:00.000Z', false],
  ['2026-03-08', '03:00', 'America/New_York', '2026-03-08T07:00:00.000Z', false],
  ['2026-01-01', '00:00', 'Asia/Kathmandu', '2025-12-31T18:15:00.000Z', false],
])('%s %s in %s', (day, time, zone, moment, skipped) => {
  const read = zonedTime(day, time, zone);
  expect(read.ok && [read.value.at.toISOString(), read.value.skipped]).toEqual([moment, skipped]);
});

test('an unknown time zone is refused in words', () => {
  const { shopClass, shop } = smallShop();
  // Reading leaves it out; a shop from elsewhere may hold one.
  expect(writeIcs(shopClass, { ...shop, info: { ...shop.info, timezone: 'Europe/Viena' } }, STAMP)).toMatchObject({
    ok: false,
    problem: '"Europe/Viena" is not a time zone',
  });
});
