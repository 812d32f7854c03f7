import { describe, expect, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { findImportFormat, planImport, writeVtt } from '../../../src/core/interchange/index.ts';
import { readChapterList, readVttChapters } from '../../../src/core/interchange/read-chapters.ts';
import { readEdl } from '../../../src/core/interchange/read-edl.ts';
import { readOtio } from '../../../src/core/interchange/read-otio.ts';
import { readCaptionTranscript, readJsonTranscript } from '../../../src/core/interchange/read-transcript.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { spans } from '../../support/edit.ts';
import { changedFile, done, smallShop } from '../../support/shop.ts';

const { recording, shop } = smallShop(changedFile('recordings/chain.yaml', 'rate: "29.97"', 'rate: "25"'));
const RECORDING_CLOCK = { clock: 'recording' } as const;

describe('an EDL brings what an edit list has, and a word for the rest', () => {
  const read = (...lines: string[]) => done(readEdl(`TITLE: x\nFCM: NON-DROP FRAME\n${lines.join('\n')}\n`, recording));

  test('events in order become ranges', () => {
    const { edit = [], notes } = read(
      '001  CHAIN  B  C  00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00',
      '002  CHAIN  V  C  00:01:00:00 00:01:00:12 01:00:10:00 01:00:10:12',
    );
    expect([spans(edit), notes]).toEqual(['10-20 60-60.48', []]);
  });

  test.each([
    [
      'a dissolve',
      [
        '001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00',
        '002 CHAIN V C 00:00:20:00 00:00:20:00 01:00:10:00 01:00:10:00',
        '002 CHAIN V D 010 00:00:30:00 00:00:40:00 01:00:10:00 01:00:20:00',
      ],
      '10-20 30-40',
      'event 002: the transition D became a cut',
    ],
    [
      'a change of speed',
      ['001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:05:00', 'M2 CHAIN 050.0 00:00:10:00'],
      '10-20',
      'event 001 plays 250 frames in 125: a change of speed cannot be carried',
    ],
    [
      'black',
      [
        '001 BL V C 00:00:00:00 00:00:01:00 01:00:00:00 01:00:01:00',
        '002 CHAIN V C 00:00:10:00 00:00:20:00 01:00:01:00 01:00:11:00',
      ],
      '10-20',
      'event 001 is black, which an edit list cannot show',
    ],
    [
      'another order',
      [
        '001 CHAIN V C 00:00:30:00 00:00:40:00 01:00:00:00 01:00:10:00',
        '002 CHAIN V C 00:00:10:00 00:00:20:00 01:00:10:00 01:00:20:00',
      ],
      '10-20 30-40',
      'comes from before what is shown ahead of it',
    ],
    [
      'a moment shown twice',
      [
        '001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00',
        '002 CHAIN V C 00:00:15:00 00:00:25:00 01:00:10:00 01:00:20:00',
      ],
      '10-25',
      'shows again what was shown ahead of it',
    ],
    [
      'sound cut apart',
      [
        '001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00',
        '002 CHAIN A2 C 00:00:50:00 00:00:55:00 01:00:00:00 01:00:05:00',
      ],
      '10-20',
      '1 events of sound alone were left out',
    ],
    [
      'a reel nobody knows, where there is one file',
      ['001 TAPE7 V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00'],
      '10-20',
      '"TAPE7" was taken for media/chain.mp4, the only camera file',
    ],
    [
      'a range past the end of the file',
      ['001 CHAIN V C 00:09:50:00 00:10:10:00 01:00:00:00 01:00:20:00'],
      '590-600',
      'reaches past media/chain.mp4 and was held to it',
    ],
    [
      'a label that does not exist',
      [
        '001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00',
        '002 CHAIN V C 00:00:10:30 00:00:20:00 01:00:10:00 01:00:20:00',
      ],
      '10-20',
      'line 4: 00:00:10:30 is not a timecode at 25',
    ],
    [
      'a line that is none',
      ['001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00', 'SPLIT: AUDIO DELAY= 00:00:01:00'],
      '10-20',
      'line 4 is not an event and was left out: SPLIT: AUDIO',
    ],
  ])('%s', (_what, lines, ranges, note) => {
    const { edit = [], notes } = read(...lines);
    expect(spans(edit)).toBe(ranges);
    expect(notes.join('\n')).toContain(note);
  });

  test('inclusive last frames are recognised and told', () => {
    const { notes } = read(
      '001 CHAIN V C 00:00:10:00 00:00:19:24 01:00:00:00 01:00:09:24',
      '002 CHAIN V C 00:00:30:00 00:00:39:24 01:00:10:00 01:00:19:24',
      '003 CHAIN V C 00:00:50:00 00:00:59:24 01:00:20:00 01:00:29:24',
    );
    expect(notes.join()).toContain('each range may be a frame short');
  });
});

const time = (value: number) => ({ OTIO_SCHEMA: 'RationalTime.1', rate: 25, value });
const span = (start: number, frames: number) => ({
  OTIO_SCHEMA: 'TimeRange.1',
  start_time: time(start),
  duration: time(frames),
});
const clip = (start: number, frames: number, more: object = {}) => ({
  OTIO_SCHEMA: 'Clip.1',
  name: 'chain',
  source_range: span(start, frames),
  ...more,
});
const timeline = (...children: object[]) =>
  JSON.stringify({
    OTIO_SCHEMA: 'Timeline.1',
    tracks: { OTIO_SCHEMA: 'Stack.1', children: [{ OTIO_SCHEMA: 'Track.1', kind: 'Video', children }] },
  });

test.each([
  [
    'an effect',
    timeline(clip(250, 250, { effects: [{ OTIO_SCHEMA: 'LinearTimeWarp.1', time_scalar: 2 }] })),
    '10-20',
    'the effect LinearTimeWarp.1 on "chain" was not carried',
  ],
  [
    'a nested timeline',
    timeline({ OTIO_SCHEMA: 'Stack.1', name: 'titles', source_range: span(0, 25) }, clip(250, 250)),
    '10-20',
    '"titles" is nested (Stack.1) and was left out',
  ],
  [
    'a transition',
    timeline(clip(250, 250), { OTIO_SCHEMA: 'Transition.1', name: 'soft' }, clip(750, 250)),
    '10-20 30-40',
    'the transition "soft" became a cut',
  ],
  [
    'a gap',
    timeline(clip(250, 250), { OTIO_SCHEMA: 'Gap.1', source_range: span(0, 25) }, clip(750, 250)),
    '10-20 30-40',
    'a gap closes up',
  ],
  [
    'a clip switched off',
    timeline(clip(250, 250), clip(750, 250, { enabled: false })),
    '10-20',
    '"chain" is switched off',
  ],
  [
    'a marker outside',
    timeline(
      clip(250, 250, { markers: [{ OTIO_SCHEMA: 'Marker.3', name: 'gone', marked_range: { start_time: 'x' } }] }),
    ),
    '10-20',
    'the marker "gone" lies in nothing that is shown',
  ],
])('OpenTimelineIO: %s is told', (_what, text, ranges, note) => {
  const { edit = [], notes } = done(readOtio(text, recording));
  expect(spans(edit)).toBe(ranges);
  expect(notes.join('\n')).toContain(note);
});

test.each([
  ['{"OTIO_SCHEMA":"SerializableCollection.1"}', 'the file holds no timeline (SerializableCollection.1)'],
  ['[]', 'the file holds no timeline'],
  ['not json', expect.stringContaining('the file is not sound JSON')],
  ['{"OTIO_SCHEMA":"Timeline.1","tracks":{"OTIO_SCHEMA":"Stack.1","children":[]}}', 'the timeline has no track'],
])('OpenTimelineIO %s is refused: %s', (text, problem) => {
  expect(readOtio(text, recording)).toMatchObject({ ok: false, problem });
});

test('a plain list becomes chapters; what has no time is told', () => {
  const { marks = [], notes } = done(
    readChapterList('Chapters:\n0:00 Start\n[1:05] - Chain off\n1:02:03 | Back on\n', RECORDING_CLOCK),
  );
  expect(marks.map(({ title, at }) => `${toSeconds(at)} ${title}`)).toEqual([
    '0 Start',
    '65 Chain off',
    '3723 Back on',
  ]);
  expect(notes).toEqual(['no time in "Chapters:", so it was left out']);
});

test('times of the programme go back over the cuts, and what lies past its end is told', () => {
  const text =
    'WEBVTT\n\n00:00.000 --> 06:00.000\nOne\n\n06:00.000 --> 20:00.000\nTwo\n\n20:00.000 --> 30:00.000\nThree\n';
  const { marks = [], notes } = done(readVttChapters('a.vtt', text, { clock: 'programme', edit: recording.edit }));
  expect(marks.map(({ at }) => toSeconds(at))).toEqual([10, 430]);
  expect(notes).toEqual(['"Three" lies past the end of the programme, so it was left out']);
});

test('words of a JSON transcript are set into captions with their times', () => {
  const said = 'Hold the axle head with one spanner. Now crack the nut while it stands'.split(' ');
  const words = said.map((word, i) => ({ word, start: i * 0.3, end: i * 0.3 + 0.25 }));
  const { captions = [] } = done(
    readJsonTranscript(JSON.stringify({ segments: [{ start: 0, end: 9, text: 'x', words }] }), RECORDING_CLOCK),
  );
  expect(captions.map(({ text }) => text)).toEqual([
    'Hold the axle head with one spanner.',
    'Now crack the nut while it stands',
  ]);
  expect(captions[0]?.markup).toContain('Hold <00:00:00.300>the');
  expect(toSeconds(captions[1]!.at.start)).toBe(2.1);
  expect(
    done(readJsonTranscript('[{"text":"hello there","start":1,"end":2},{"text":"x"}]', RECORDING_CLOCK)).notes,
  ).toEqual(['"x" has no sound start and end, so it was left out']);
});

test.each([
  ['a.otio', '{"OTIO_SCHEMA": "Timeline.1"}', 'otio'],
  ['a.edl', 'TITLE: x', 'edl'],
  ['a.xml', '<?xml version="1.0"?>\n<Chapters>', 'mkv-chapters'],
  ['a.txt', ';FFMETADATA1\n', 'ffmetadata'],
  ['a.vtt', 'WEBVTT\n\n00:00.000 --> 02:00.000\nOne\n\n04:00.000 --> 06:00.000\nTwo\n', 'vtt-chapters'],
  ['a.vtt', 'WEBVTT\n\n00:00.000 --> 00:02.000\nOne\n\n00:02.000 --> 00:04.000\nTwo\n', 'captions'],
  ['a.srt', '1\n00:00:00,000 --> 00:00:02,000\nOne\n', 'captions'],
  ['a.json', '{"words": []}', 'words'],
  ['a.txt', '0:00 One\n1:00 Two\n', 'chapter-list'],
])('%s beginning %j is %s', (file, text, id) => {
  expect(done(findImportFormat(file, text)).id).toBe(id);
});

test('a text that is none of them is refused with the choices', () => {
  expect(findImportFormat('notes.txt', 'buy milk')).toMatchObject({
    ok: false,
    help: expect.stringContaining('--as paper-edit, otio, edl'),
  });
});

describe('a plan', () => {
  const texts = new Map(Object.entries(SOUND_SHOP));
  const small = smallShop();
  const plan = (imported: Parameters<typeof planImport>[0], lesson = undefined as Parameters<typeof planImport>[4]) =>
    done(planImport(imported, small.recording, small.shop, texts, lesson));
  const reread = (changed: readonly { file: string; text: string }[]) => {
    const all = new Map([...texts, ...changed.map(({ file, text }) => [file, text] as const)]);
    return readShop(all, (file) => {
      const text = all.get(file);
      return text === undefined
        ? { state: 'media', media: { duration: 600 * 705_600_000, framesPerSecond: 30000 / 1001 } }
        : { state: 'text', text };
    });
  };

  test('writes an edit list in its place, says what became of chapters and steps, and reads back as meant', () => {
    const edit = [
      ...small.recording.edit.slice(0, 1),
      { ...small.recording.edit[1]!, start: small.recording.edit[1]!.start },
    ];
    const { words, texts: changed } = plan({ edit: edit.slice(0, 1), notes: [] });
    expect(words).toContain('step "Tighten the nut" is now cut out whole (2:50)');
    expect(changed.map(({ file }) => file)).toEqual(['recordings/chain.yaml']);
    const before = SOUND_SHOP['recordings/chain.yaml'] ?? '';
    expect(changed[0]?.text).toBe(before.replace('  - {in: "0:06:00", out: "0:09:00"}\n', ''));
    expect(reread(changed).shop.recordings[0]?.edit).toEqual(edit.slice(0, 1));
  });

  test('an edit list that is the same changes nothing', () => {
    expect(plan({ edit: small.recording.edit, notes: [] }).texts).toEqual([]);
  });

  test('merges marks by id: a known one gets its cue, a new one its place, the rest stays', () => {
    const mark = (kind: 'chapter' | 'step', title: string, seconds: number) => ({
      kind,
      title,
      at: (seconds * 705_600_000) as never,
    });
    const { texts: changed, words } = plan({
      marks: [
        mark('step', 'Crack the nut', 40),
        mark('step', 'Lift the wheel', 130),
        mark('chapter', 'Front sprocket', 500),
        mark('step', 'Loosen it', 510),
      ],
      notes: [],
    });
    expect(words).toEqual(['lesson chain: 1 chapter and 2 steps new, 1 cue set']);
    const { shop: next, diagnostics } = reread(changed);
    expect(diagnostics).toEqual([]);
    expect(
      next.lessons[0]?.chapters.map((chapter) => [
        chapter.id,
        ...chapter.steps.map(({ id, cue }) => `${id}@${toSeconds(cue?.at ?? 0)}`),
      ]),
    ).toEqual([
      ['rear-wheel', 'crack-the-nut@40', 'lift-the-wheel@130', 'tighten-the-nut@370'],
      ['front-sprocket', 'loosen-it@510'],
    ]);
    const before = SOUND_SHOP['lessons/chain.mdx'] ?? '';
    expect(
      changed[0]?.text
        .replace(/\n### Lift the wheel\n<Cue at="0:02:10" \/>\n/, '')
        .replace(/\n## Front sprocket[\s\S]*$/, '')
        .replace('0:00:40', '0:00:30'),
    ).toBe(before);
  });

  test('a new chapter amid the steps of another is told: no step moves into it unasked', () => {
    const { words } = plan({
      marks: [{ kind: 'chapter', title: 'In between', at: (100 * 705_600_000) as never }],
      notes: [],
    });
    expect(words).toEqual([
      'lesson chain: 1 chapter new',
      '"In between" begins before "Tighten the nut", which stands above it: move the heading, or make it a step with ###',
    ]);
  });

  test('with no lesson yet makes one that reads without a fault', () => {
    const { lessons: _, ...rest } = small.shop;
    const own = new Map([...texts].filter(([file]) => !/^(lessons|classes)/.test(file)));
    const made = done(
      planImport(
        {
          marks: [
            { kind: 'chapter', title: 'Off & on', at: 0 as never },
            { kind: 'step', title: 'Lift <it>', at: 705_600_000 as never },
          ],
          notes: [],
        },
        small.recording,
        { ...rest, lessons: [] },
        own,
      ),
    );
    expect(made.words).toEqual(['a new lesson chain with 1 chapter and 1 step']);
    const { shop: next, diagnostics } = readShop(
      new Map([...own, ...made.texts.map(({ file, text }) => [file, text] as const)]),
      () => ({ state: 'missing' }),
    );
    expect(diagnostics).toEqual([]);
    expect(next.lessons[0]?.chapters[0]).toMatchObject({ title: 'Off & on', steps: [{ title: 'Lift <it>' }] });
  });

  test('captions go where the recording names them, merged by id', () => {
    const cues = 'WEBVTT\n\na\n00:11.000 --> 00:14.000\none\n\nb\n00:20.000 --> 00:24.000\ntwo\n';
    const own = smallShop({ 'media/chain.vtt': cues });
    const { captions = [] } = done(
      readCaptionTranscript(
        'b.vtt',
        'WEBVTT\n\nb\n00:20.000 --> 00:25.000\nTwo!\n\nc\n00:30.000 --> 00:32.000\nthree\n',
        RECORDING_CLOCK,
      ),
    );
    const made = done(planImport({ captions, notes: [] }, own.recording, own.shop, texts));
    expect(made.words).toEqual(['captions: 2 new or changed, 1 as before, in place of 1']);
    expect(made.texts).toEqual([
      { file: 'media/chain.vtt', text: writeVtt([...own.recording.captions!.cues.slice(0, 1), ...captions]) },
    ]);
  });

  test('a transcript for a recording without captions is named in it', () => {
    const own = smallShop(changedFile('recordings/chain.yaml', 'captions: media/chain.vtt\n', ''));
    const all = new Map([
      ...texts,
      [
        'recordings/chain.yaml',
        (SOUND_SHOP['recordings/chain.yaml'] ?? '').replace('captions: media/chain.vtt\n', ''),
      ] as const,
    ]);
    const { captions = [] } = done(
      readCaptionTranscript('b.srt', '1\n00:00:20,000 --> 00:00:25,000\nTwo!\n', RECORDING_CLOCK),
    );
    const made = done(planImport({ captions, notes: [] }, own.recording, own.shop, all));
    expect(made.texts.map(({ file, text }) => [file, /captions: media\/chain\.vtt/.test(text)])).toEqual([
      ['media/chain.vtt', false],
      ['recordings/chain.yaml', true],
    ]);
  });
});

test('nothing of a shop that cannot take it is written', () => {
  expect(
    planImport(
      { marks: [{ kind: 'chapter', title: 'x', at: 0 as never }], notes: [] },
      recording,
      { ...shop, lessons: [], machines: [] },
      new Map(),
    ),
  ).toMatchObject({ ok: false, problem: 'a lesson is about a machine, and there is none yet' });
});
