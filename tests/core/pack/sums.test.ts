import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { readSums, sumsText } from '../../../src/core/pack/index.ts';

// SHA-256 of "abc". Source: FIPS 180-4, example values published by NIST (SHA256.pdf, one block message).
const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

test('what is written is read again, in the order of the names', () => {
  const sums = [
    { path: 'pages/index.html', sha256: 'f'.repeat(64) },
    { path: 'READ ME FIRST.html', sha256: ABC },
  ];
  expect(sumsText(sums)).toBe(`${ABC}  READ ME FIRST.html\n${'f'.repeat(64)}  pages/index.html\n`);
  expect(readSums(sumsText(sums))).toEqual({ ok: true, value: sums.toReversed() });
  expect(readSums(sumsText(sums).replaceAll('\n', '\r\n'))).toMatchObject({ ok: true });
});

// On systems with GNU coreutils, whose own check is the outside judge.
test.runIf(process.platform === 'linux')('sha256sum -c takes the list, and finds a change', () => {
  const folder = mkdtempSync(join(tmpdir(), 'liftside-sums-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  writeFileSync(join(folder, 'READ ME FIRST.html'), 'abc');
  expect(createHash('sha256').update('abc').digest('hex')).toBe(ABC);
  writeFileSync(join(folder, 'files.txt'), sumsText([{ path: 'READ ME FIRST.html', sha256: ABC }]));
  const check = () => execFileSync('sha256sum', ['-c', 'files.txt'], { cwd: folder, encoding: 'utf8', stdio: 'pipe' });
  expect(check()).toBe('READ ME FIRST.html: OK\n');
  writeFileSync(join(folder, 'READ ME FIRST.html'), 'abd');
  expect(check).toThrow();
});

test.each([
  ['', /names no file/],
  [`${ABC}  a`, /middle of a line/],
  ['nonsense\n', /line 1 of files.txt is no sum/],
  [`${ABC}  a\n${ABC}  a\n`, /names a twice/],
  [`${ABC}  ../a\n`, /leads out/],
  [`${ABC}  /a\n`, /root of a disk/],
  [`${ABC.slice(1)}  a\n`, /no sum/],
])('%j is refused', (text, says) => {
  const read = readSums(text);
  expect(read.ok ? '' : read.problem).toMatch(says);
});
