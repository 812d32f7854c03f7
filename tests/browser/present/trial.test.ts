import { expect, test } from 'vitest';
import { trialCommand, trialOf } from '../../../src/browser/present/trial.ts';

test('a filled form asks for what stands in it, in the words of the command line', () => {
  const trial = trialOf([
    ['attendees', ' 9 '],
    ['slot', ''],
    ['way look', 'short'],
    ['way tale', '-'],
    ['way soup', ''],
    ['at soup', '10:45'],
  ]);
  expect(trial).toEqual({ attendees: '9', without: ['tale'], with: ['look=short'], at: ['soup=10:45'] });
  expect(trialCommand('saturday', trial)).toBe(
    'liftside fit saturday --attendees 9 --without tale --with look=short --at soup=10:45',
  );
});
