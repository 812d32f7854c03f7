import { expect, test } from 'vitest';
import { chooseById } from '../../../src/core/edit/index.ts';
import { at, choosing, open, playheadAt, refusal, run } from './support.ts';

test('to the cue of the chosen step, from wherever the playhead stands', () => {
  const session = playheadAt(choosing(open(), 'Open the two bolts'), 1000);
  expect(run(session, 'to-cue').playhead).toBe(at(420));
});

test('a step without a cue has nowhere to go', () => {
  expect(refusal(choosing(open(), 'Look at the pads'), 'to-cue')).toBe('“Look at the pads” has no cue yet');
});

test('a step is chosen by its id; one that is gone is told', () => {
  expect(run(open(), chooseById, 'open-the-two-bolts').content.chosen).toBe('open-the-two-bolts');
  expect(() => run(open(), chooseById, 'gone')).toThrow('that step is gone');
});
