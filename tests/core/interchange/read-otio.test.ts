import { describe, expect, test } from 'vitest';
import { readOtio } from '../../../src/core/interchange/read-otio.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { spans } from '../../support/edit.ts';
import { changedFile, done, smallShop } from '../../support/shop.ts';

// OpenTimelineIO JSON as its public file format has it: Timeline.1, Stack.1, Track.1, Clip.1 and 2, Gap.1, Marker.2.
const { recording } = smallShop(changedFile('recordings/chain.yaml', 'rate: "29.97"', 'rate: "25"'));
const time = (value: number, rate = 25) => ({ OTIO_SCHEMA: 'RationalTime.1', rate, value });
const during = (start: number, count: number, rate = 25) => ({
  ...{ OTIO_SCHEMA: 'TimeRange.1', start_time: time(start, rate), duration: time(count, rate) },
});
const clip = (start: number, count: number, more: object = {}) => ({
  ...{ OTIO_SCHEMA: 'Clip.2', name: 'chain.mp4', source_range: during(start, count), ...more },
});
const marker = (start: number, count: number, more: object = {}) => ({
  ...{ OTIO_SCHEMA: 'Marker.2', name: 'Here', marked_range: during(start, count), ...more },
});
const track = (children: readonly object[], more: object = {}) => ({
  ...{ OTIO_SCHEMA: 'Track.1', name: 'V1', kind: 'Video', children, ...more },
});
const stack = (children: readonly object[], more: object = {}) => ({ OTIO_SCHEMA: 'Stack.1', children, ...more });
const timeline = (tracks: object) => ({ OTIO_SCHEMA: 'Timeline.1', name: 'Chain', tracks });
const raw = (value: unknown) => readOtio(JSON.stringify(value), recording);
const read = (value: unknown) => {
  const { edit = [], marks = [], notes } = done(raw(value));
  return {
    edit: spans(edit),
    marks: marks.map(({ kind, title, at, until }) => [
      kind,
      title,
      toSeconds(at),
      ...(until ? [toSeconds(until)] : []),
    ]),
    notes,
  };
};
const of = (...children: object[]) => read(timeline(stack([track(children)])));

describe('clips of the first picture track become ranges', () => {
  test('also of a stack alone, and of a track of no kind where it is the only one', () => {
    expect(of(clip(250, 250), clip(1500, 12))).toEqual({ edit: '10-20 60-60.48', marks: [], notes: [] });
    expect(read(stack([track([clip(250, 250)])])).edit).toBe('10-20');
    expect(read(timeline(stack([track([clip(250, 250)], { kind: '' })]))).edit).toBe('10-20');
  });

  test('in the nearest frames where the timeline counts otherwise', () => {
    expect(of({ ...clip(0, 0), source_range: during(300, 60, 30) }).edit).toBe('10-12');
    expect(of({ ...clip(0, 0), source_range: during(10_010, 2000, 1000) }).edit).toBe('10-12');
  });

  test('counted from the label of the file, or from its first frame', () => {
    const media = (start: number) => ({
      media_reference: { target_url: 'media/chain.mp4', available_range: during(start, 15_000) },
    });
    expect(of(clip(90_250, 25, media(90_000))).edit).toBe('10-11');
    expect(of(clip(250, 25, media(90_000))).edit).toBe('10-11');
    // Without a range of its own a clip is all that is there.
    expect(of({ ...clip(0, 0, media(90_000)), source_range: null }).edit).toBe('0-600');
  });

  test('by the reference that is active, else the first', () => {
    const references = { a: { available_range: during(0, 25) }, b: { available_range: during(0, 50) } };
    const shown = (more: object) =>
      of({ ...clip(0, 0), source_range: null, media_references: references, ...more }).edit;
    expect([shown({ active_media_reference_key: 'b' }), shown({})]).toEqual(['0-2', '0-1']);
    expect(shown({ media_references: { ...references, DEFAULT_MEDIA: { available_range: during(0, 75) } } })).toBe(
      '0-3',
    );
  });
});

test.each<[string, object, string, string]>([
  [
    'a gap',
    { OTIO_SCHEMA: 'Gap.1', source_range: during(0, 25) },
    '10-20',
    'a gap closes up: an edit list shows one range after the other',
  ],
  ['a transition', { OTIO_SCHEMA: 'Transition.1', name: 'Mix' }, '10-20', 'the transition "Mix" became a cut'],
  ['a nest', { OTIO_SCHEMA: 'Stack.1', name: 'Inner' }, '10-20', '"Inner" is nested (Stack.1) and was left out'],
  [
    'a clip switched off',
    clip(1000, 25, { enabled: false }),
    '10-20',
    '"chain.mp4" is switched off, so it was left out',
  ],
  [
    'a clip without a range',
    clip(0, 0, { source_range: { start_time: time(3) } }),
    '10-20',
    '"chain.mp4" says no range, so it was left out',
  ],
  [
    'a clip at no rate',
    clip(0, 0, { source_range: during(3, 4, 0) }),
    '10-20',
    '"chain.mp4" says no range, so it was left out',
  ],
  [
    'an effect',
    clip(1000, 25, { effects: [{ OTIO_SCHEMA: 'LinearTimeWarp.1' }] }),
    '10-20 40-41',
    'the effect LinearTimeWarp.1 on "chain.mp4" was not carried',
  ],
  [
    'an effect of no name',
    clip(1000, 25, { effects: [{}] }),
    '10-20 40-41',
    'the effect unnamed on "chain.mp4" was not carried',
  ],
])('%s is told', (_, child, edit, note) => {
  expect(of(clip(250, 250), child)).toMatchObject({ edit, notes: [note] });
});

test('a gap of no length, and an empty picture track, are nothing', () => {
  expect(of(clip(250, 250), { OTIO_SCHEMA: 'Gap.1' }).notes).toEqual([]);
  const tracks = (...others: object[]) => read(timeline(stack([track([clip(250, 250)]), ...others]))).notes;
  expect(tracks(track([]))).toEqual([]);
  expect(tracks(track([clip(0, 5)], { name: 'V2' }))).toEqual([
    'the picture track "V2" was left out: one track can be carried',
  ]);
  expect(read(timeline(stack([track([clip(250, 250)], { source_range: during(0, 5) })]))).notes).toEqual([
    'the trim of the track "V1" was not carried',
  ]);
});

test('sound that is cut as the picture is needs no word; other sound does', () => {
  const notes = (...sound: object[]) =>
    read(timeline(stack([track([clip(250, 250), clip(500, 50)]), track(sound, { kind: 'Audio', name: 'A1' })]))).notes;
  expect(notes(clip(250, 250), clip(500, 50))).toEqual([]);
  expect(notes(clip(250, 300))).toEqual([]);
  const told = ['the sound track "A1" is cut otherwise than the picture: sound follows the picture here'];
  expect(notes(clip(249, 250))).toEqual(told);
  expect(notes(clip(250, 301))).toEqual(told);
});

describe('markers', () => {
  test('of a clip are on its media: chapters unless our own say step', () => {
    const own = { metadata: { liftside: { kind: 'step', id: 'turn' } } };
    const { marks } = of(
      clip(250, 250, { markers: [marker(300, 0), marker(325, 25, own), marker(275, 0, { name: ' ' })] }),
    );
    expect(marks).toEqual([
      ['chapter', 'Untitled', 11],
      ['chapter', 'Here', 12],
      ['step', 'Here', 13, 14],
    ]);
  });

  test('of a track or the whole are on its time', () => {
    const tracks = track([clip(250, 250), { OTIO_SCHEMA: 'Gap.1', source_range: during(0, 50) }, clip(1500, 25)], {
      markers: [marker(0, 0, { name: 'a' }), marker(249, 0, { name: 'b' }), marker(300, 0, { name: 'c' })],
    });
    const { marks } = read(timeline(stack([tracks], { markers: [{ name: 'd', range: during(324, 1) }] })));
    expect(marks).toEqual([
      ['chapter', 'a', 10],
      ['chapter', 'b', 19.96],
      ['chapter', 'c', 60],
      ['chapter', 'd', 60.96, 61],
    ]);
  });

  test.each([
    ['in a gap', marker(275, 0)],
    ['behind the end', marker(325, 0)],
    ['without a time', { name: 'Here' }],
  ])('%s are told', (_, one) => {
    const tracks = track([clip(250, 250), { OTIO_SCHEMA: 'Gap.1', source_range: during(0, 50) }, clip(1500, 25)], {
      markers: [one],
    });
    const { marks, notes } = read(timeline(stack([tracks])));
    expect(marks).toEqual([]);
    expect(notes).toContain('the marker "Here" lies in nothing that is shown, so it was left out');
  });
});

test.each<[string, unknown, string, string]>([
  ['a list', [], 'the file holds no timeline', 'export it as OpenTimelineIO JSON (.otio)'],
  [
    'another thing',
    { OTIO_SCHEMA: 'Clip.1' },
    'the file holds no timeline (Clip.1)',
    'export one timeline, not a collection of them',
  ],
  ['no schema', {}, 'the file holds no timeline (no OTIO_SCHEMA)', 'export one timeline, not a collection of them'],
  ['no track', timeline(stack([])), 'the timeline has no track', 'export the timeline with its picture track'],
  [
    'a clip for a track',
    timeline(stack([clip(0, 5)])),
    'the timeline has no track',
    'export the timeline with its picture track',
  ],
  [
    'nothing in it',
    timeline(stack([track([])])),
    'nothing of the timeline is in this recording',
    'take the timeline of this recording',
  ],
])('%s is refused, with what to do', (_, value, problem, help) => {
  expect(raw(value)).toEqual({ ok: false, problem, help });
});

test('a recording without a frame rate cannot take one', () => {
  const { rate: _, ...unknown } = recording;
  expect(readOtio('{}', unknown as typeof recording)).toMatchObject({
    ...{ problem: 'the frame rate of chain is not known', help: 'write rate: in the recording file' },
  });
});
