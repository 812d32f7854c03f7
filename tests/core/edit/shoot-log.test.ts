import { expect, test } from 'vitest';
import { alignByCamera, alignByClap, bestTakes, type Tap, takesOf, useShootLog } from '../../../src/core/edit/index.ts';
import { FRAME_RATES } from '../../../src/core/time/index.ts';
import { at, diffLines, keptText, LESSON, lessonText, open, RECORDING } from './support.ts';

const second = (n: number) => 1_700_000_000_000 + n * 1000;
const begin = (id: string, n: number, step: string, take: number): Tap => ({
  id,
  at: second(n),
  kind: 'begin',
  step,
  take,
});
const say = (id: string, n: number, kind: 'good' | 'bad', step: string, take: number): Tap => ({
  id,
  at: second(n),
  kind,
  step,
  take,
});

const LOOK = 'look-at-the-pads';
const PUSH = 'push-the-pistons-back';
const taps: Tap[] = [
  { id: '1', at: second(5), kind: 'clap' },
  begin('2', 60, LOOK, 1),
  say('3', 80, 'bad', LOOK, 1),
  begin('4', 90, LOOK, 2),
  say('5', 130, 'good', LOOK, 2),
  { id: '6', at: second(131), kind: 'rest' },
  begin('7', 500, PUSH, 1),
  { id: '8', at: second(620), kind: 'rest' },
];

test('takes end where the next thing begins; the last good one stands, otherwise the last that is not bad', () => {
  const takes = takesOf([...taps.toReversed(), ...taps]);
  expect(
    takes.map(({ step, take, from, to, verdict }) => [
      step,
      take,
      (from - second(0)) / 1000,
      ((to ?? 0) - second(0)) / 1000,
      verdict,
    ]),
  ).toEqual([
    [LOOK, 1, 60, 90, 'bad'],
    [LOOK, 2, 90, 131, 'good'],
    [PUSH, 1, 500, 620, undefined],
  ]);
  expect(bestTakes(takes).map(({ step, take }) => [step, take])).toEqual([
    [LOOK, 2],
    [PUSH, 1],
  ]);
});

test('a clap, or the time the camera showed, puts the phone’s clock on the recording', () => {
  const byClap = alignByClap(taps, at(8));
  expect(byClap).toEqual({ phone: second(5), recording: at(8) });
  const shown: Tap[] = [{ id: 'c', at: second(5), kind: 'camera', shows: '01:00:08:00' }];
  expect(alignByCamera(shown, { rate: FRAME_RATES['25'], startFrame: 90_000 })).toEqual(byClap);
  expect(alignByCamera(taps, { rate: FRAME_RATES['25'], startFrame: 0 })).toBeUndefined();
  expect(alignByClap(shown, at(8))).toBeUndefined();
});

test('the log becomes the cues that are missing and, where nothing was cut, the first edit list', () => {
  const alignment = alignByClap(taps, at(8)) ?? { phone: 0, recording: 0 };
  const edited = useShootLog(open(), taps, alignment);
  if ('refused' in edited) throw new Error(edited.refused);
  expect(diffLines(LESSON, lessonText(edited.session))).toEqual(['+<Cue at="0:01:33" />', '+<Cue at="0:08:23" />']);
  expect(edited.label).toBe('took 2 cues from the shoot log');
  const bare = RECORDING.replace(/edit:[\s\S]*?(?=people)/, '');
  const fresh = useShootLog(open(bare), taps, alignment);
  if ('refused' in fresh) throw new Error(fresh.refused);
  expect(keptText(fresh.session)).toBe('0:01:33-0:02:14 0:08:23-0:10:23');
});

test('a log that lies nowhere on the recording is refused', () => {
  const outcome = useShootLog(open(), taps, { phone: 0, recording: 0 });
  expect('refused' in outcome && outcome.refused).toMatch(/check how it is aligned/);
});

test('a take of which nobody has said anything stands before one that is bad, the later before the earlier', () => {
  const takes = takesOf([
    begin('1', 10, LOOK, 1),
    begin('2', 20, LOOK, 2),
    begin('3', 30, LOOK, 3),
    say('4', 40, 'bad', LOOK, 3),
    begin('5', 50, PUSH, 1),
    say('6', 60, 'bad', PUSH, 1),
    { id: '7', at: second(70), kind: 'rest' },
  ]);
  expect(bestTakes(takes).map(({ step, take }) => [step, take])).toEqual([[LOOK, 2]]);
});
