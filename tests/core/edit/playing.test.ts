import { expect, test } from 'vitest';
import { goTo, type Session } from '../../../src/core/edit/index.ts';
import { at, open, playheadAt, refusal, run } from './support.ts';

const speeds = (session: Session, ...ids: string[]) => {
  const seen: number[] = [];
  let now = session;
  for (const id of ids) {
    now = run(now, id);
    seen.push(now.transport.speed);
  }
  return seen;
};

// J K L: back, stop, forward, faster with each press (common practice, no source).
test('the shuttle keys run both ways, faster with each press; with Shift slower', () => {
  expect(speeds(open(), 'forward', 'forward', 'forward', 'back', 'stop', 'back', 'back')).toEqual([
    1, 1.5, 2, 1.5, 0, -1, -1.5,
  ]);
  expect(
    speeds(open(), 'slow-on', 'slow-on', 'slow-on', 'slow-on', 'slow-back', 'slow-back', 'forward', 'play'),
  ).toEqual([0.5, 0.25, 0.125, 0.5, -0.5, -0.25, 1, 0]);
});

test('a join is heard two seconds either side, and afterwards it plays as it did before', () => {
  for (const programme of [false, true]) {
    const session = { ...playheadAt(open(), 310), transport: { speed: 0, programme } };
    const heard = run(session, 'audition');
    // The sample is cut from 0:05:00 to 0:06:00.
    expect(heard.playhead).toBe(at(298));
    expect(heard.transport).toMatchObject({ speed: 1, programme: true, until: at(362) });
    // Heard again before it came to its end.
    expect(run(run(heard, 'audition'), 'stop').transport).toEqual({ speed: 0, programme });
    expect(run(heard, 'programme').transport.programme).toBe(!programme);
    expect(goTo(heard, at(20)).transport).toEqual({ speed: 1, programme });
  }
  expect(refusal(open('title: x\nfiles: [{file: media/pads.mp4}]\nrate: "25"\n'), 'audition')).toMatch(/no join/);
});

test('the programme key plays without what is cut, from what is kept on; while it plays it switches', () => {
  const playing = run(playheadAt(open(), 310), 'programme');
  expect([playing.transport, playing.playhead]).toEqual([{ speed: 1, programme: true }, at(360)]);
  const whole = run(playing, 'programme');
  expect(whole.transport).toEqual({ speed: 1, programme: false });
  expect(run(run(playing, 'stop'), 'programme').transport).toEqual({ speed: 1, programme: true });
});

test('the end is the last frame, by key and by whoever goes past it', () => {
  const last = at(1800 - 1 / 25);
  expect(run(open(), 'end').playhead).toBe(last);
  expect(goTo(open(), at(1800)).playhead).toBe(last);
  expect(goTo(open(), at(1800) - 1).playhead).toBe(last);
});
