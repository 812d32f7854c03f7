import { expect, test } from 'vitest';
import { nameClashes, packageNameReason } from '../../../src/core/pack/index.ts';

// Source: Microsoft, "Naming Files, Paths, and Namespaces": reserved signs < > : " / \ | ? *, reserved names
// CON PRN AUX NUL COM1 LPT1 with any ending, no blank or dot at the end. From memory.
test.each([
  ['media/rear wheel.mp4', undefined],
  ['READ ME FIRST.html', undefined],
  ['media/Schräge Kette.mp4', undefined],
  ['media/what?.mp4', /\? cannot stand/],
  ['media/a|b.mp4', /\| cannot stand/],
  ['media/take "1".mp4', /" cannot stand/],
  ['media/aux.mp4', /Windows keeps the name aux\.mp4/],
  ['com1', /Windows keeps/],
  ['company', undefined],
  ['media/end.', /dot at the end/],
  ['media/end ', /blank at the end/],
  ['../out', /leads out/],
  ['/etc/passwd', /root of a disk/],
  ['C:/x', /root of a disk/],
  ['a\\b', /parted by \//],
  [`media/${'x'.repeat(256)}`, /more than 255/],
  [`${'folder/'.repeat(26)}x`, /more than 180/],
])('%s', (path, says) => {
  if (says === undefined) expect(packageNameReason(path)).toBeUndefined();
  else expect(packageNameReason(path)).toMatch(says);
});

test('names that are one file on a disk without capital letters, or with composed ones, clash; so do a file and a folder', () => {
  expect(nameClashes(['a/Chain.mp4', 'a/brake.mp4', 'A/x', 'b'])).toEqual([['a/', 'A/']]);
  expect(nameClashes(['media/Chain.mp4', 'media/chain.mp4'])).toEqual([['media/Chain.mp4', 'media/chain.mp4']]);
  expect(nameClashes(['media/ä.mp4', 'media/a\u0308.mp4'])).toHaveLength(1);
  expect(nameClashes(['media', 'media/chain.mp4'])).toEqual([['media', 'media/chain.mp4']]);
  expect(nameClashes(['media/chain.mp4', 'media/chain.vtt', 'film/chain.mp4'])).toEqual([]);
});
