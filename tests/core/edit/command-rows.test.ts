import { describe, expect, test } from 'vitest';
import { COMMANDS, chosenOf, dragEdge, findCommand, GROUPS } from '../../../src/core/edit/index.ts';
import { ticks } from '../../../src/core/time/index.ts';
import { at, label, open, playheadAt, refusal, run } from './support.ts';

test('each row says what it does, in a group of the help', () => {
  for (const { id, title, group } of COMMANDS) {
    expect(id, title).toMatch(/^[a-z-]+$/);
    expect(title, id).toMatch(/^[A-Z]/);
    expect(GROUPS).toContain(group);
  }
  expect(new Set(COMMANDS.map(({ title }) => title)).size).toBe(COMMANDS.length);
  expect(new Set(COMMANDS.map(({ group }) => group))).toEqual(new Set(GROUPS));
});

test('held down, those go on that move by a little: none that cuts, asks or plays', () => {
  expect(COMMANDS.filter(({ repeats }) => repeats).map(({ id }) => id)).toEqual([
    ...['frame-back', 'frame-on', 'second-back', 'second-on', 'choose-up', 'choose-down', 'jump-back', 'jump-on'],
    ...['edge-back', 'edge-on', 'cue-back', 'cue-on', 'zoom-in', 'zoom-out', 'undo', 'redo'],
  ]);
});

test('those that ask for words say for which; renaming begins with the title there is', () => {
  const asking = COMMANDS.flatMap(({ id, asks }) => (asks ? [[id, asks.label]] : []));
  expect(asking).toEqual([
    ['add-step', 'Title of the new step'],
    ['add-chapter', 'Title of the new chapter'],
    ['rename', 'Title'],
    ['split', 'Title of the second part'],
  ]);
  const chosen = run(open(), 'choose-down');
  expect(findCommand('rename')?.asks?.start?.(chosen)).toBe(chosenOf(chosen)?.title);
});

// What belongs to two directions goes the way its row says.
test.each([
  ['frame-back', 'frame-on', 100, [99.96, 100.04]],
  ['second-back', 'second-on', 100, [99, 101]],
])('%s and %s', (back, on, from, places) => {
  const where = (command: string) => run(playheadAt(open(), from), command).playhead;
  expect([where(back), where(on)]).toEqual(places.map(at));
});

describe('what a cut says in the history', () => {
  const marked = (from: number, to: number) => run(playheadAt(run(playheadAt(open(), from), 'in'), to), 'out');
  test.each<[string, string | undefined, string]>([
    ['cut', label(marked(20, 30), 'cut'), 'cut 0:00:10 out at 0:00:20'],
    ['keep', label(marked(310, 320), 'keep'), 'put 0:00:10 back at 0:05:10'],
    ['keep of a cut', label(playheadAt(open(), 330), 'keep'), 'put 0:01:00 back at 0:05:00'],
    ['head', label(playheadAt(open(), 20), 'cut-head'), 'cut 0:00:10 off the head at 0:00:20'],
    ['tail', label(playheadAt(open(), 290), 'cut-tail'), 'cut 0:00:10 off the tail at 0:04:50'],
    ['edge', label(playheadAt(open(), 301), 'edge-on'), 'moved the out point from 0:05:00 to 0:05:00.04'],
    ['edge before', label(playheadAt(open(), 359), 'edge-here'), 'moved the in point from 0:06:00 to 0:05:59'],
  ])('%s', (_, said, wanted) => {
    expect(said).toBe(wanted);
  });
});

describe('why it cannot be done', () => {
  const marked = (from: number, to: number) => run(playheadAt(run(playheadAt(open(), from), 'in'), to), 'out');
  const none = open(undefined, null, () => ({ state: 'missing' }));
  test.each<[string, string, string]>([
    ['cut without points', refusal(open(), 'cut'), 'set an in and an out point around what is to go'],
    ['cut of a cut', refusal(marked(310, 320), 'cut'), 'this is cut out already'],
    [
      'cut of everything',
      refusal(marked(0, 1799.99), 'cut'),
      'that would leave nothing of the recording in the programme',
    ],
    ['keep of what is kept', refusal(marked(20, 30), 'keep'), 'this is kept already'],
    [
      'keep outside of a cut',
      refusal(playheadAt(open(), 20), 'keep'),
      'the playhead is not in a cut, and no in and out points are set',
    ],
    [
      'keep of no length',
      refusal(none, 'keep'),
      'the recording has no length: its camera files are missing or cannot be read',
    ],
    ['tail in a cut', refusal(playheadAt(open(), 330), 'cut-tail'), 'the playhead is in a cut'],
    ['head at the edge', refusal(playheadAt(open(), 10), 'cut-head'), 'the playhead stands at this edge already'],
    ['edge where nothing was found', refusal(playheadAt(open(), 301), 'edge-snap-on'), 'nothing to snap to this way'],
  ])('%s', (_, said, wanted) => {
    expect(said).toBe(wanted);
  });

  test('an edge that is gone, or can go no further', () => {
    const drag = (words?: string) => {
      const outcome = dragEdge(open(), words);
      return 'refused' in outcome ? outcome.refused : undefined;
    };
    expect([drag(), drag('2 in 0'), drag('0 side 0')]).toEqual(Array(3).fill('that edge is gone'));
    expect(drag(`1 in ${at(0)}`)).toBeUndefined();
    expect(drag(`0 in ${ticks(at(10))}`)).toBe('the edge can go no further');
  });
});

test('a point before the other one takes its place; the points are a frame each', () => {
  const both = run(playheadAt(run(playheadAt(open(), 20), 'in'), 30), 'out');
  expect(both.marks).toEqual({ in: at(20), out: at(30) });
  expect(run(playheadAt(both, 40), 'in').marks).toEqual({ in: at(40), out: undefined });
  expect(run(playheadAt(both, 30), 'in').marks.out).toBeUndefined();
  expect(run(playheadAt(both, 25), 'in').marks).toEqual({ in: at(25), out: at(30) });
  expect(run(playheadAt(both, 20), 'out').marks).toEqual({ in: undefined, out: at(20) });
});
