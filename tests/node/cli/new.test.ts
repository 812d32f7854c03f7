import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { call } from '../../support/call.ts';

function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'liftside-new-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

test('a new shop written with nothing but "new" has no fault of form', async () => {
  const content = emptyFolder();
  for (const kind of ['recording', 'lesson', 'class', 'machine'])
    expect((await call(['new', kind, kind === 'machine' ? 'my-machine' : 'chain'], { content })).code).toBe(0);
  const { out } = await call(['check', '--json'], { content });
  const { diagnostics } = JSON.parse(out) as { diagnostics: { rule: string }[] };
  // What is left is what only the author can bring: the footage and the signed release.
  expect(diagnostics.map(({ rule }) => rule)).toEqual(['captions-missing', 'footage-missing', 'release-missing']);
});

test('what is there already is never written over', async () => {
  const content = emptyFolder();
  await call(['new', 'class', 'saturday'], { content });
  const before = readFileSync(join(content, 'classes/saturday.yaml'), 'utf8');
  const again = await call(['new', 'class', 'saturday'], { content });
  expect([again.code, again.said]).toEqual([2, expect.stringContaining('is there already')]);
  expect(readFileSync(join(content, 'classes/saturday.yaml'), 'utf8')).toBe(before);
});

test('an id that could not stand in an address is refused with one that could', async () => {
  const { code, said } = await call(['new', 'lesson', '../Räder & Kette'], { content: emptyFolder() });
  expect([code, said]).toEqual([2, expect.stringContaining('"rader-kette"')]);
});
