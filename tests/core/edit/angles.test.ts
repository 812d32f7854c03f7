import { expect, test } from 'vitest';
import {
  anglesOf,
  placeAngle,
  type Session,
  snap,
  snapToOther,
  switchAngle,
  writeFile,
} from '../../../src/core/edit/index.ts';
import type { FileFacts } from '../../../src/core/model/index.ts';
import { ticks } from '../../../src/core/time/index.ts';
import {
  at,
  diffLines,
  facts,
  keptText,
  LESSON,
  lessonText,
  open,
  playheadAt,
  RECORDING,
  recordingText,
  refusal,
  run,
} from './support.ts';

const TWO = RECORDING.replace(
  'people: []',
  'angles:\n  - {id: close, file: media/close.mp4}   # on the swing arm\n  - {id: above, file: media/above.mp4}\npeople: []',
);
const changes = (text: string) => diffLines(TWO, text);

test('the angle key shows the kept range under the playhead by the next camera, and comes round to the first', () => {
  const session = playheadAt(open(TWO), 60);
  expect(anglesOf(session)).toEqual(['close', 'above']);
  const close = run(session, 'angle');
  expect(changes(recordingText(close))).toEqual([
    '-  - {in: "0:00:10", out: "0:05:00"}   # from the clap',
    '+  - {in: "0:00:10", out: "0:05:00", angle: close}   # from the clap',
  ]);
  const above = run(close, 'angle');
  expect(changes(recordingText(above))[1]).toContain('angle: above');
  expect(recordingText(run(above, 'angle'))).toBe(TWO);
});

test('between the points only that stretch changes its camera; given back, the range is one again', () => {
  const marked = { ...playheadAt(open(TWO), 70), marks: { in: at(60), out: at(90) } };
  const part = run(marked, switchAngle, 'above');
  expect(keptText(part)).toBe('0:00:10-0:01:00 0:01:00-0:01:30 0:01:30-0:05:00 0:06:00-0:30:00');
  expect(part.view.kept.map(({ angle }) => angle)).toEqual([undefined, 'above', undefined, undefined]);
  const back = run({ ...part, marks: { in: at(60), out: at(90) } }, switchAngle, '');
  expect(keptText(back)).toBe('0:00:10-0:05:00 0:06:00-0:30:00');
});

test('an angle is refused where there is none, in a cut, and by a name that is not listed', () => {
  expect(refusal(playheadAt(open(), 60), 'angle')).toMatch(/one camera only/);
  expect(refusal(playheadAt(open(TWO), 330), 'angle')).toMatch(/in a cut/);
  expect(refusal(playheadAt(open(TWO), 60), 'angle', 'below')).toBe('there is no camera below; there are close, above');
  expect(refusal(playheadAt(open(TWO), 60), 'angle', '')).toMatch(/already/);
});

test('where a further camera begins is written beside its file, also before the recording; nothing else changes', () => {
  const placed = run(open(TWO), placeAngle(1, at(12.5)));
  expect(changes(recordingText(placed))).toEqual([
    '-  - {id: above, file: media/above.mp4}',
    '+  - {id: above, file: media/above.mp4, offset: "0:00:12.5"}',
  ]);
  const early = run(placed, placeAngle(1, ticks(-at(2))));
  expect(changes(recordingText(early))[1]).toContain('offset: "-0:00:02"');
  expect(early.view.recording?.angles.map(({ offset }) => offset)).toEqual([undefined, -at(2)]);
  expect(placeAngle(2, at(1))(open(TWO))).toMatchObject({ refused: expect.stringMatching(/cannot be read/) });
});

test('snapping looks for what was chosen, or for nothing', () => {
  const found = { ...open().found, silence: [at(100)], scene: [at(104)], keyframe: [at(102)] };
  let session: Session = { ...open(), found };
  const landing = () => snap(session, at(102.6), at(3)) / at(1);
  expect(landing()).toBe(104);
  session = run(session, 'snapping');
  expect(landing()).toBe(102.6);
  const seen: number[] = [];
  for (let n = 0; n < 5; n++) {
    session = run(session, 'snap-to');
    seen.push(landing());
  }
  // Silences and scene changes, silences, scene changes, key frames, all three.
  expect(seen).toEqual([104, 100, 104, 102, 102]);
  expect(run(session, snapToOther, '-1').snapping).toBe(false);
});

test('a file is written whole as typed, and refused while nobody could read it', () => {
  const typed = (file: string, words: string, session = open()) => run(session, writeFile(file), words);
  const title = RECORDING.replace('Brake pads, uncut', 'Pads');
  expect(recordingText(typed('recordings/pads.yaml', title))).toBe(title);
  const dos = open(undefined, LESSON.replaceAll('\n', '\r\n'));
  const after = LESSON.replace('Both wheels straight.', 'Both wheels dead straight.');
  expect(lessonText(typed('lessons/pads.mdx', after, dos))).toBe(after.replaceAll('\n', '\r\n'));
  const outcome = writeFile('recordings/pads.yaml')(open(), 'title: [');
  expect(outcome).toEqual({ refused: 'recordings/pads.yaml could not be read like this' });
  expect(writeFile('kit.yaml')(open(), 'x')).toEqual({ refused: 'kit.yaml is not open here' });
});

test('the angle key never chooses a sound recorder: it has no picture', () => {
  const recorder = (file: string): FileFacts =>
    file === 'media/above.mp4' ? { state: 'media', media: { duration: at(1800) } } : facts()(file);
  const session = playheadAt(open(TWO, LESSON, recorder), 60);
  expect(anglesOf(session)).toEqual(['close']);
  expect(recordingText(run(run(session, 'angle'), 'angle'))).toBe(TWO);
});
