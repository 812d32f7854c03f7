import { expect, test } from 'vitest';
import {
  COMMANDS,
  commandOf,
  DEFAULT_BINDINGS,
  isClean,
  keyName,
  keyText,
  printBindings,
  readBindings,
  remap,
  reservedReason,
} from '../../../src/core/edit/index.ts';

const press = (key: string, held: Partial<Record<'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey', boolean>> = {}) =>
  keyName({ key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...held });

test('no key runs two commands, and none belongs to a browser or a screen reader', () => {
  expect(isClean(DEFAULT_BINDINGS)).toBe(true);
  for (const { id, keys } of COMMANDS) {
    expect(keys.length, id).toBeGreaterThan(0);
    for (const key of keys) expect(reservedReason(key), `${id}: ${key}`).toBeUndefined();
  }
  expect(new Set(COMMANDS.map(({ id }) => id)).size).toBe(COMMANDS.length);
  for (const row of COMMANDS) expect(Number(row.run !== undefined) + Number(row.screen !== undefined), row.id).toBe(1);
});

// J K L, space, I and O, arrows by frame. Common practice of editing rooms, no source.
test.each([
  ['j', 'back'],
  ['k', 'stop'],
  ['l', 'forward'],
  ['Space', 'play'],
  ['i', 'in'],
  ['o', 'out'],
  ['ArrowLeft', 'frame-back'],
  ['ArrowRight', 'frame-on'],
  ['Home', 'start'],
  ['End', 'end'],
])('%s does what hands expect: %s', (key, id) => {
  expect(commandOf(DEFAULT_BINDINGS, key)?.id).toBe(id);
});

test('a key is named the same on every keyboard', () => {
  expect(press(' ')).toBe('Space');
  expect(press('M', { shiftKey: true })).toBe('Shift+m');
  expect(press('?', { shiftKey: true })).toBe('?');
  expect(press('[', { ctrlKey: true, altKey: true })).toBe('[');
  expect(press('Z', { metaKey: true, shiftKey: true })).toBe('Mod+Shift+z');
  expect(press('z', { ctrlKey: true })).toBe('Mod+z');
  expect(press('ArrowUp', { shiftKey: true })).toBe('Shift+ArrowUp');
});

test('another key is taken where it is free, refused where it is not, and kept between visits', () => {
  const free = remap(DEFAULT_BINDINGS, 'play', '9');
  if (!free.ok) throw new Error(free.problem);
  expect(commandOf(free.value, '9')?.id).toBe('play');
  expect(commandOf(free.value, 'Space')).toBeUndefined();
  expect(printBindings(free.value)).toBe('{"play":["9"]}');
  expect(commandOf(readBindings(printBindings(free.value)), '9')?.id).toBe('play');
  for (const key of ['m', 'Mod+w', 'Alt+ArrowLeft', 'F5', 'Tab', 'Insert', '/', "'"])
    expect(remap(DEFAULT_BINDINGS, 'play', key).ok, key).toBe(false);
});

test('what was kept and makes no sense any more goes back to the beginning', () => {
  for (const text of [null, '', '{', '[]', '{"play":"u"}', '{"play":["F5"]}', '{"play":["m"]}', '{"gone":["u"]}'])
    expect(readBindings(text)).toEqual(DEFAULT_BINDINGS);
});

test('keys read as people write them', () => {
  expect(['Space', 'Shift+m', 'Mod+Shift+z', '+', 'ArrowLeft'].map(keyText)).toEqual([
    'space',
    'Shift + M',
    'Ctrl + Shift + Z',
    '+',
    '←',
  ]);
});
