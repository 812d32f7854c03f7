import { expect, test } from 'vitest';
import { check } from '../../../src/core/check/index.ts';
import { findCommand, openSession, timecodeAt } from '../../../src/core/edit/index.ts';
import { writeEdl } from '../../../src/core/interchange/edl.ts';
import type { FileFacts } from '../../../src/core/model/index.ts';
import { filePosition, lessonTimes, playPieces, playPlan } from '../../../src/core/programme/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { filmedGrid, fromSeconds, range, ticks, toSeconds } from '../../../src/core/time/index.ts';

/** Plain presentation times, s, as a phone might write them; the last picture stands until 4. */
const PICTURES = [0, 0.5, 1.0, 1.2, 1.9, 2.5, 2.6, 3.1, 3.5];

const LESSON = (cue: string) =>
  `---\ntitle: By phone\nrecording: phone\nmachine: tarn-420\n---\n## One\n${cue}\n### Hold it\n<Cue at="0:00:03.2" />\n`;
const RECORDING = (more: string) => `title: By phone\nfiles:\n  - file: media/phone.mp4\n${more}`;

const facts = (): FileFacts => ({
  state: 'media',
  media: {
    duration: fromSeconds(4),
    framesPerSecond: PICTURES.length / 4,
    pictureStarts: PICTURES.map((s) => fromSeconds(s)),
  },
});

function read(more: string, cue: string) {
  const texts = new Map([
    ['recordings/phone.yaml', RECORDING(more)],
    ['lessons/phone.mdx', LESSON(cue)],
  ]);
  const { shop, diagnostics } = readShop(texts, facts);
  const [recording] = shop.recordings;
  const [lesson] = shop.lessons;
  if (!recording || !lesson) throw new Error(JSON.stringify(diagnostics));
  return { shop, recording, lesson, diagnostics };
}

test.each([
  ['a start goes down to the picture shown, an end up to the next one', '0:00:01.5', '0:00:02.55', 1.2, 2.6],
  ['a millisecond before a picture is on it', '0:00:01.199', '0:00:02.501', 1.2, 2.5],
  ['what is on a picture stays', '0:00:01.9', '0:00:03.5', 1.9, 3.5],
  ['the end of the recording is an end too', '0:00:03.6', '0:00:03.8', 3.5, 4],
])('cue and edit list alike: %s', (_, start, end, from, to) => {
  const { recording, lesson } = read(
    `edit:\n  - {in: "${start}", out: "${end}"}\n`,
    `<Cue at="${start}" until="${end}" />`,
  );
  const cue = lesson.chapters[0]?.cue;
  expect([cue?.at, cue?.until].map((at) => toSeconds(at ?? 0))).toEqual([from, to]);
  expect(recording.edit.map((kept) => [kept.start, kept.end].map(toSeconds))).toEqual([[from, to]]);
});

test('timecode on a recording with a written rate names the picture shown then', () => {
  const { lesson } = read('rate: "25"\n', '<Cue at="00:00:01:10" />');
  expect(toSeconds(lesson.chapters[0]?.cue?.at ?? 0)).toBe(1.2);
});

test('a point past the end stays there and is told', () => {
  const { shop, diagnostics } = read('', '<Cue at="0:00:07" />');
  const found = check(shop, diagnostics, { today: '2026-11-25' });
  expect(found.map(({ message }) => message).join('\n')).toContain('0:00:07');
});

test('chapter times and the player stand on pictures', () => {
  const { recording, lesson } = read('edit:\n  - {in: "0:00:01.3", out: "0:00:03.9"}\n', '<Cue at="0:00:02.3" />');
  const [chapter] = lessonTimes(lesson, recording).chapters;
  // 1.9 of the recording, where it starts at 1.2.
  expect(toSeconds(chapter?.at.start ?? 0)).toBeCloseTo(0.7, 9);
  const plan = playPlan(recording, (file) => file);
  const [piece] = playPieces(plan);
  expect(plan.frame).toBeUndefined();
  if (!piece || !chapter) throw new Error('nothing to play');
  const position = filePosition(plan, piece, chapter.at.start);
  expect(position).toBeGreaterThan(1.9);
  expect(position).toBeLessThan(1.902);
});

test('the cutting room steps from picture to picture, and writes what it reads back', () => {
  const texts = new Map([
    ['recordings/phone.yaml', RECORDING('')],
    ['lessons/phone.mdx', LESSON('<Cue at="0:00:00" />')],
  ]);
  let session = openSession({ recordingFile: 'recordings/phone.yaml', lessonFile: 'lessons/phone.mdx', facts }, texts);
  const run = (id: string, words?: string) => {
    const outcome = findCommand(id)?.run?.(session, words);
    if (!outcome || 'refused' in outcome) throw new Error(outcome?.refused ?? `no command ${id}`);
    session = outcome.session;
  };
  const seen: number[] = [toSeconds(session.playhead)];
  for (let i = 0; i < PICTURES.length; i++) {
    run('frame-on');
    seen.push(toSeconds(session.playhead));
  }
  expect(seen).toEqual([...PICTURES, 3.5]);
  run('frame-back');
  expect(toSeconds(session.playhead)).toBe(3.1);
  expect(timecodeAt(session.playhead, session.view.labels)).toBe('00:00:03.100');
  run('out');
  run('frame-back');
  const before = toSeconds(session.playhead);
  run('in');
  run('cut');
  expect(session.content.texts.get('recordings/phone.yaml')).toContain('in: "0:00:03.1"');
  expect(session.view.kept.map((kept) => [kept.start, kept.end].map(toSeconds))).toEqual([
    [0, before],
    [3.1, 4],
  ]);
});

test('files of both kinds, and a gap between them, make one grid', () => {
  const span = (from: number, to: number) => range<'recording'>(fromSeconds(from), fromSeconds(to));
  const frame = fromSeconds(0.25);
  const grid = filmedGrid([
    { span: span(0, 1), frame },
    { span: span(1, 2), frame, pictures: [0, 0.4, 0.7].map((s) => fromSeconds(s)) },
    { span: span(5, 6), frame },
  ]);
  const both = (s: number) => [grid?.down(fromSeconds(s)), grid?.up(fromSeconds(s))].map((at) => toSeconds(at ?? -1));
  expect([both(0.3), both(1.5), both(3), both(5.3)]).toEqual([
    [0.25, 0.5],
    [1.4, 1.7],
    [2, 5],
    [5.25, 5.5],
  ]);
  expect(filmedGrid([{ span: span(0, 1), frame }])).toBeUndefined();
  expect(grid?.step(ticks(0), -1)).toBe(0);
});

test('an EDL counts whole frames of a written rate: nothing kept is lost, and it is told', () => {
  const edit = 'edit:\n  - {in: "0:00:01.3", out: "0:00:03"}\n';
  const refusedEdl = writeEdl(read(edit, '').recording, []);
  expect(refusedEdl.ok ? '' : refusedEdl.problem).toContain('follow no frame rate in use');
  const edl = writeEdl(read(`rate: "30"\n${edit}`, '').recording, []);
  if (!edl.ok) throw new Error(edl.problem);
  // 1.2 s is frame 36; 3.1 s is frame 93.
  expect(edl.value.text).toContain('00:00:01:06 00:00:03:03');
  const odd = writeEdl(read(`rate: "25"\n${edit}`, '').recording, []);
  if (!odd.ok) throw new Error(odd.problem);
  // 3.1 s is 77.5 frames of 25: the out point goes up to 78.
  expect(odd.value.text).toContain('00:00:01:05 00:00:03:03');
  expect(odd.value.notes.join()).toContain('moved to whole frames');
});
