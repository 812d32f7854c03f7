import { expect, test } from 'vitest';
import {
  correctCaption,
  type EditCommand,
  findCommand,
  openSession,
  readingSpeed,
  type Session,
  unreadOf,
  withContent,
} from '../../../src/core/edit/index.ts';
import { unreadId } from '../../../src/core/words/index.ts';
import { at, facts, label, playheadAt, RECORDING, refusal, run } from './support.ts';

const FILE = 'media/pads.vtt';
const cue = (start: number, words: string, mark = true) => {
  const times = { start: at(start), end: at(start + 3) };
  const clock = (s: number) =>
    `00:${String(Math.floor(s / 60)).padStart(2, '0')}:${String(s % 60).padStart(2, '0')}.000`;
  return `${mark ? `${unreadId({ at: times, text: words })}\n` : ''}${clock(start)} --> ${clock(start + 3)}\n${words}`;
};
// The programme keeps 0:10 to 5:00 and 6:00 to 30:00.
const CAPTIONS = [
  cue(2, 'Is it running?'),
  cue(20, 'Look at the pads.'),
  cue(30, 'A person wrote this.', false),
  cue(40, 'They are warn.'),
  cue(299, 'Half of this is kept.'),
  cue(320, 'Somebody at the door.'),
];
const open = (captions = CAPTIONS): Session =>
  openSession(
    { recordingFile: 'recordings/pads.yaml', facts: facts() },
    new Map([
      ['recordings/pads.yaml', RECORDING.replace('edit:', `captions: ${FILE}\nedit:`)],
      [FILE, `WEBVTT\n\n${captions.join('\n\n')}\n`],
    ]),
  );
const text = (session: Session) => session.content.texts.get(FILE) ?? '';
const seconds = (session: Session) => session.playhead / at(1);
const left = (session: Session) => unreadOf(session).map(({ at: { start } }) => start / at(1));
const says = (session: Session, command: EditCommand | string, words?: string) => {
  const edit = typeof command === 'string' ? findCommand(command)?.run : command;
  const outcome = edit?.(session, words);
  return outcome && 'session' in outcome ? outcome.says : undefined;
};

test('unread are those that a machine wrote and the programme keeps at least a part of', () => {
  expect(left(open())).toEqual([20, 40, 299]);
});

test('the pass goes from one to the next and plays each to its end, faster than it was said', () => {
  const first = run(open(), 'read');
  expect(seconds(first)).toBeCloseTo(19.8, 5);
  expect(first.transport).toMatchObject({ speed: 1.5, programme: false });
  expect((first.transport.until ?? 0) / at(1)).toBeCloseTo(23.2, 5);
  expect(says(open(), 'read')).toBe('3 to read');
  const second = run(first, 'read');
  expect(left(second)).toEqual([40, 299]);
  expect(seconds(second)).toBeCloseTo(39.8, 5);
  expect(label(first, 'read')).toBe('read the caption at 0:00:20');
  expect(text(second)).toBe(text(first).replace(/unread-\w+\n(00:00:20)/, '$1'));
  const all = run(run(second, 'read'), 'read');
  expect([left(all), all.reading, all.transport.speed]).toEqual([[], undefined, 0]);
  expect(says(run(second, 'read'), 'read')).toBe('every caption is read');
  expect(refusal(all, 'read')).toBe('every caption is read');
  // What lies in a cut keeps its mark.
  expect(text(all).match(/unread-/g)).toHaveLength(2);
});

test('it begins at the playhead and comes around to what lies before it', () => {
  const last = run(playheadAt(open(), 41), 'read');
  expect(last.reading).toBe(at(40));
  expect(run(run(last, 'read'), 'read').reading).toBe(at(20));
  expect(run(playheadAt(open(), 600), 'read').reading).toBe(at(20));
});

test('heard again it plays in real time; speeds end at three times real time and stay', () => {
  const first = run(open(), 'read');
  const again = run({ ...first, playhead: at(23), transport: { speed: 0, programme: false } }, 'hear-again');
  expect([seconds(again).toFixed(1), again.transport.speed]).toEqual(['19.8', 1]);
  const speeds = [first];
  for (let i = 0; i < 5; i++) speeds.push(run(speeds.at(-1) ?? first, 'forward'));
  expect(speeds.map(({ transport }) => transport.speed)).toEqual([1.5, 2, 2.5, 3, 3, 3]);
  expect(speeds.at(-1)?.transport.until).toBe(first.transport.until);
  expect(run(speeds.at(-1) ?? first, 'read').transport.speed).toBe(3);
  expect(run(first, readingSpeed, '1').transport.speed).toBe(1);
  expect('refused' in readingSpeed(first, '16')).toBe(true);
  // Stopped and played it goes on where it was, and at its end from the start.
  const stopped = run({ ...first, playhead: at(21) }, 'play');
  expect([stopped.transport.speed, seconds(run(stopped, 'play'))]).toEqual([0, 21]);
  expect(seconds(run({ ...stopped, playhead: at(23.2) }, 'play')).toFixed(1)).toBe('19.8');
});

test('corrected, the words are as typed, the mark is gone and the times stay; undone, all is as before', () => {
  const heard = run(run(open(), 'read'), 'read');
  const corrected = run(heard, correctCaption(true), 'They are worn.');
  expect(text(corrected)).toBe(
    text(heard).replace(/unread-\w+\n(00:00:40.000 --> 00:00:43.000\n)They are warn\./, '$1They are worn.'),
  );
  expect(corrected.reading).toBe(at(299));
  const stays = run(heard, correctCaption(false), 'They are worn.');
  expect(stays.reading).toBe(at(40));
  // A person has read it: the next press only goes on.
  expect(text(run(stays, 'read'))).toBe(text(stays));
  expect(withContent(corrected, heard.content).view).toBe(heard.view);
  expect(left(withContent(corrected, heard.content))).toEqual([40, 299]);
  expect(text(run(heard, correctCaption(true), ''))).not.toContain('warn');
});

test('Escape leaves the pass and the points; outside of it, it clears the points', () => {
  const marked = { ...run(open(), 'read'), marks: { in: at(1), out: at(2) } };
  const out = run(marked, 'clear-marks');
  expect([out.reading, out.marks.in, out.transport.speed]).toEqual([undefined, at(1), 0]);
  expect(says(marked, 'clear-marks')).toBe('left the reading pass; 3 to read');
  expect(run(out, 'clear-marks').marks).toEqual({});
});

test('without captions, without a pass and in a file that is not on the table it says so', () => {
  expect(refusal(open([]), 'read')).toBe('the recording has no captions');
  expect(refusal(open(), 'hear-again')).toContain('no reading pass is on');
  const session = run(open(), 'read');
  const texts = new Map([...session.content.texts].filter(([file]) => file !== FILE));
  const known = (file: string) => (file === FILE ? ({ state: 'text', text: text(session) } as const) : facts()(file));
  const away = withContent({ ...session, desk: { ...session.desk, facts: known } }, { ...session.content, texts });
  expect(refusal(away, 'read')).toContain('is no UTF-8 text');
});

test('a new step is asked for with the first words that are said there, which typing replaces', () => {
  const asked = (seconds: number) => findCommand('add-step')?.asks?.start?.(playheadAt(open(), seconds));
  expect(asked(20)).toBe('Look at the pads');
  // Soon enough before it; what is over, or far off, is something else.
  expect(asked(13)).toBe('Look at the pads');
  expect(asked(22.8)).toBe('A person wrote this');
  expect(asked(100)).toBe('');
  expect(findCommand('rename')?.asks?.start?.(playheadAt(open(), 20))).toBe('');
});
