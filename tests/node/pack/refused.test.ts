import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { expect, onTestFinished, test } from 'vitest';
import { call } from '../../support/call.ts';
import { type RawEntry, rawZip } from '../../support/raw-zip.ts';

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'liftside-refused-'));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

async function told(zip: Buffer) {
  const cwd = folder();
  writeFileSync(join(cwd, 'lesson.zip'), zip);
  return call(['check-pack', 'lesson.zip', '--json'], { cwd });
}

const SUMS: RawEntry = { name: 'files.txt', text: `${'0'.repeat(64)}  package.json\n` };

// CRC-32 of "123456789": the check value of the catalogue of parametrised CRC algorithms for CRC-32/ISO-HDLC.
test('the writer of the fixtures writes zip files: the same ones are opened where nothing is wrong', async () => {
  expect(crc32('123456789')).toBe(0xcbf43926);
  const { code, out } = await told(rawZip([{ ...SUMS, deflated: true }]));
  expect([code, JSON.parse(out)]).toEqual([1, expect.objectContaining({ missing: ['package.json'], damaged: [] })]);
});

test.each<[string, readonly RawEntry[], RegExp]>([
  ['a way out of the folder', [{ name: '../../out' }], /"\.\.\/\.\.\/out": \.\. leads out/],
  ['an absolute name', [{ name: '/tmp/out' }], /"\/tmp\/out": it is counted from the root/],
  ['a drive letter', [{ name: 'c:/out' }], /root of a disk/],
  ['a link', [{ name: 'film', text: '/etc', mode: 0o120777 }], /"film": it is a link/],
  [
    'a clash of capital letters',
    [{ name: 'a.html' }, { name: 'A.html' }],
    /"A\.html": on many disks it is the same name/,
  ],
  [
    'a name that stands in it twice',
    [{ name: 'a.html' }, { name: 'a.html' }],
    /"a\.html": it stands in the archive twice/,
  ],
  [
    'an encrypted entry',
    [{ name: 'film/a.mp4', text: 'secret', deflated: true, flags: 0x801 }],
    /"film\/a\.mp4": it is encrypted/,
  ],
  ['a bomb', [{ name: 'b', text: '0'.repeat(30_000_000), deflated: true }], /"b": \d+ bytes claim to hold 30000000/],
  [
    'a name that differs from the one in the directory',
    [{ name: 'a', listedAs: 'b' }],
    /"b": at its place in the archive it is called "a"/,
  ],
])('%s is refused by name, and nothing is unpacked', async (_, entries, says) => {
  const { code, said, out } = await told(rawZip([SUMS, ...entries]));
  expect(code).toBe(1);
  expect(said).toMatch(says);
  expect(said).toContain('nothing was unpacked');
  expect(JSON.parse(out)).toMatchObject({ whole: false, refused: expect.stringMatching(says) });
});

test('an archive whose directory is cut off or overwritten, and what is no archive, is told as that', async () => {
  const zip = rawZip([SUMS]);
  for (const broken of [zip.subarray(0, -30), zip.subarray(0, 60), Buffer.alloc(0), Buffer.from('<html>no</html>')])
    expect(await told(broken)).toMatchObject({
      code: 1,
      said: expect.stringMatching(/no zip file, or one that was cut off/),
    });
  const overwritten = Buffer.from(zip);
  overwritten.fill(0, zip.length - 60, zip.length - 30);
  expect(await told(overwritten)).toMatchObject({ code: 1, said: expect.stringMatching(/is not opened/) });
});

test('an entry that holds more or less than it claims, or other bytes than its sum, is damaged', async () => {
  const list = { name: 'files.txt', text: ['a', 'b', 'c'].map((name) => `${'0'.repeat(64)}  ${name}\n`).join('') };
  const text = 'x'.repeat(1000);
  const { code, out } = await told(
    rawZip([
      list,
      { name: 'a', text, deflated: true, claims: 10 },
      { name: 'b', text, deflated: true, claims: 2000 },
      { name: 'c', text, crc: 1 },
    ]),
  );
  expect([code, JSON.parse(out).damaged]).toEqual([1, ['a', 'b', 'c']]);
});

test('a folder with a link in it is not read', async () => {
  const cwd = folder();
  symlinkSync('/etc/hosts', join(cwd, 'files.txt'));
  expect(await call(['check-pack', '.'], { cwd })).toMatchObject({
    code: 1,
    said: expect.stringContaining('it is a link'),
  });
});

test('what is not there is a wrong call', async () => {
  expect(await call(['check-pack', 'gone.zip'], { cwd: folder() })).toMatchObject({ code: 2 });
});
