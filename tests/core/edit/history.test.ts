import fc from 'fast-check';
import { expect, test } from 'vitest';
import { addEntry, begin, closeEntry, type History, rebase, redo, undo } from '../../../src/core/edit/index.ts';

test('undo gives back what was there, redo what was done, each by its name', () => {
  const history = addEntry(addEntry(begin('a'), 'b', 'wrote b'), 'c', 'wrote c');
  const back = undo(history);
  expect([back?.label, back?.history.now]).toEqual(['wrote c', 'b']);
  const again = redo(back?.history ?? history);
  expect([again?.label, again?.history.now]).toEqual(['wrote c', 'c']);
});

test('something new after an undo forgets what was undone', () => {
  const back = undo(addEntry(begin('a'), 'b', 'wrote b'))?.history ?? begin('');
  expect(redo(addEntry(back, 'x', 'wrote x'))).toBeUndefined();
});

test('a row of typing is undone at once, until it is closed', () => {
  let history = addEntry(addEntry(begin(''), 'h', 'typed', 'text'), 'hi', 'typed', 'text');
  expect(undo(history)?.history.now).toBe('');
  history = addEntry(closeEntry(history), 'hi!', 'typed', 'text');
  expect(undo(history)?.history.now).toBe('hi');
});

test('there is no limit', () => {
  let history: History<number> = begin(0);
  for (let n = 1; n <= 5000; n++) history = addEntry(history, n, `counted ${n}`);
  for (let n = 0; n < 5000; n++) history = undo(history)?.history ?? history;
  expect(history.now).toBe(0);
  expect(undo(history)).toBeUndefined();
});

test('a change from outside goes into every state; where it does not fit the rest is let go', () => {
  const history = addEntry(addEntry(addEntry(begin('0'), '1', 'one'), '2', 'two'), '3', 'three');
  const { history: next, lost } = rebase(history, '3+', (state) => (state === '0' ? undefined : `${state}+`));
  expect([next.now, lost]).toEqual(['3+', 1]);
  const back = undo(undo(next)?.history ?? next)?.history;
  expect(back?.now).toBe('1+');
  expect(undo(back ?? next)).toBeUndefined();
});

test('undoing everything and doing it again ends where it was', () => {
  fc.assert(
    fc.property(fc.array(fc.integer()), (values) => {
      let history: History<number> = begin(0);
      for (const value of values) history = addEntry(history, value, `${value}`);
      const end = history.now;
      for (let back = undo(history); back; back = undo(history)) history = back.history;
      expect(history.now).toBe(0);
      for (let next = redo(history); next; next = redo(history)) history = next.history;
      expect(history.now).toBe(end);
    }),
  );
});
