import { expect, test } from 'vitest';
import { type ArchiveEntry, archiveProblem, isLitter } from '../../../src/core/pack/index.ts';

const entry = (changes: Partial<ArchiveEntry> = {}): ArchiveEntry => ({
  ...{ name: 'pages/index.html', bytes: 1000, packed: 400, method: 8, encrypted: false, mode: 0o100644, offset: 0 },
  ...changes,
});
const MiB = 1 << 20;

test.each<[string, readonly ArchiveEntry[], RegExp]>([
  ['a way out', [entry({ name: '../out.html' })], /"\.\.\/out\.html": \.\. leads out/],
  ['a hidden way out', [entry({ name: '.x/../../out' })], /leads out/],
  ['an absolute name', [entry({ name: '/etc/cron.d/x' })], /root of a disk/],
  ['a drive', [entry({ name: 'C:/x' })], /root of a disk/],
  ['backslashes', [entry({ name: 'pages\\..\\x' })], /parted by/],
  ['a link', [entry({ mode: 0o120777 })], /it is a link/],
  ['a device', [entry({ mode: 0o020666 })], /neither a file nor a folder/],
  ['an encrypted entry', [entry({ encrypted: true })], /it is encrypted/],
  ['an unknown packing', [entry({ method: 12 })], /packed in a way \(12\)/],
  ['another name at its place', [entry({ headerName: 'x' })], /it is called "x"/],
  ['a stored entry that claims more', [entry({ method: 0 })], /400 bytes cannot hold its 1000/],
  ['a bomb', [entry({ bytes: 2 * MiB, packed: 20_000 })], /more than 100 times/],
  [
    'capital letters',
    [entry(), entry({ name: 'pages/Index.html', offset: 500 })],
    /the same name as "pages\/index.html"/,
  ],
  ['twice', [entry(), entry({ offset: 500 })], /stands in the archive twice/],
  ['shared bytes', [entry(), entry({ name: 'b', offset: 429 })], /"b": it shares its bytes/],
  ['too many', Array.from({ length: 20_001 }, () => entry()), /20001 entries/],
])('%s is refused by name', (_, entries, says) => {
  expect(archiveProblem(entries)).toMatch(says);
});

test('what pack writes, what others zip again, and what file managers add, is not', () => {
  expect(
    archiveProblem([
      entry(),
      entry({ name: 'b', offset: 430 }),
      entry({ name: 'film/', mode: 0o040755, offset: 1000, bytes: 0, packed: 0, method: 0 }),
      entry({ name: '.liftside-made.json', mode: 0, offset: 1100 }),
      entry({ name: '__MACOSX/pages/._index.html', offset: 2000 }),
      // Text of a page, many times over, at the edge.
      entry({ name: 'c', offset: 3000, bytes: 2 * MiB, packed: (2 * MiB) / 100 }),
      entry({ name: 'd', offset: 90_000, bytes: MiB, packed: 1 }),
    ]),
  ).toBeUndefined();
  expect([isLitter('.DS_Store'), isLitter('film/.x'), isLitter('film/chain.mp4')]).toEqual([true, true, false]);
});
