import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { STARTERS } from '../../../src/node/cli/starters.ts';
import { call } from '../../support/call.ts';

function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'liftside-new-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Rules that speak of a content folder, with the line each is told on. */
async function told(content: string): Promise<string[]> {
  const { out } = await call(['check', '--json'], { content });
  const { diagnostics } = JSON.parse(out) as { diagnostics: { rule: string; file: string; line: number }[] };
  return diagnostics.map(({ rule, file, line }) => `${rule} ${file.split('/').slice(-2).join('/')}:${line}`);
}

/** Lines of a text that hold a placeholder outside a note. */
function placeholders(name: string, text: string): string[] {
  return text
    .split('\n')
    .flatMap((line, index) => (withoutNote(line).includes('FILL IN') ? [`placeholder-left ${name}:${index + 1}`] : []));
}

const withoutNote = (line: string) => line.replace(/(^|\s)#(?!#).*$/, '').replace(/\{\/\*.*?\*\/\}/g, '');

test.each(['recording', 'lesson', 'class', 'machine'] as const)(
  'every placeholder of a new %s is refused, at its line',
  async (kind) => {
    const content = emptyFolder();
    expect((await call(['new', kind, 'chain'], { content })).code).toBe(0);
    const { folder, ending, text } = STARTERS[kind];
    const left = (await told(content)).filter((each) => each.startsWith('placeholder-left'));
    const wanted = placeholders(`${folder}/chain${ending}`, text('chain'));
    expect(wanted.length).toBeGreaterThan(0);
    expect(new Set(left)).toEqual(new Set(wanted));
  },
);

test('no starting file attests anything or holds a figure outside its notes', () => {
  for (const { text } of Object.values(STARTERS)) {
    const written = text('chain').split('\n').map(withoutNote).join('\n');
    expect(written.replaceAll('chain.mp4', '')).not.toMatch(/\d/);
    expect(written).not.toMatch(/checkedBy|checkedOn|on-file/);
  }
});

test('what was filled in is refused no longer', async () => {
  const content = emptyFolder();
  await call(['new', 'machine', 'tarn'], { content });
  const file = join(content, 'specs/tarn.yaml');
  const filled = readFileSync(file, 'utf8')
    .replace('years: FILL IN', 'years: 2019-2025')
    .replace('date: FILL IN', 'date: 2023-06-01')
    .replace('kind: FILL IN', 'kind: length')
    .replace('nominal: FILL IN', 'nominal: 5')
    .replace('plusMinus: FILL IN', 'plusMinus: 1')
    .replace('unit: FILL IN', 'unit: mm')
    .replaceAll(/FILL IN[^,}#\n]*/g, 'words ');
  writeFileSync(file, filled);
  // What nobody has compared with its source is told as long as nobody says so.
  expect((await told(content)).filter((each) => each.includes('tarn.yaml'))).toEqual([
    expect.stringContaining('row-incomplete'),
  ]);
});

test('what is there already is never written over', async () => {
  const content = emptyFolder();
  await call(['new', 'class', 'saturday'], { content });
  const before = readFileSync(join(content, 'classes/saturday.yaml'), 'utf8');
  const again = await call(['new', 'class', 'saturday'], { content });
  expect([again.code, again.said]).toEqual([2, expect.stringContaining('is there already')]);
  expect(readFileSync(join(content, 'classes/saturday.yaml'), 'utf8')).toBe(before);
  expect(readdirSync(join(content, 'classes'))).toEqual(['saturday.yaml']);
});

test('an id that could not stand in an address is refused with one that could', async () => {
  const { code, said } = await call(['new', 'lesson', '../Räder & Kette'], { content: emptyFolder() });
  expect([code, said]).toEqual([2, expect.stringContaining('"rader-kette"')]);
});

test('the words of the trade are one file, read without a fault', async () => {
  const content = emptyFolder();
  expect((await call(['new', 'words'], { content })).code).toBe(0);
  expect(readFileSync(join(content, 'words.yaml'), 'utf8')).toContain('also: [rotor, brake rotor]');
  const { out } = await call(['check', '--json'], { content });
  const { diagnostics } = JSON.parse(out) as { diagnostics: { file: string }[] };
  expect(diagnostics.filter(({ file }) => file.endsWith('words.yaml'))).toEqual([]);
});

test('what needs an id asks for one', async () => {
  const { code, said } = await call(['new', 'lesson'], { content: emptyFolder() });
  expect([code, said]).toEqual([2, expect.stringContaining('say the id of the lesson')]);
});
