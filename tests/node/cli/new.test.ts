import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, onTestFinished, test } from 'vitest';
import { parse } from 'yaml';
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

test('the words of the trade are one file, in which every word is a blank', async () => {
  const content = emptyFolder();
  expect((await call(['new', 'words'], { content })).code).toBe(0);
  expect(readFileSync(join(content, 'words.yaml'), 'utf8')).toContain('also: [FILL IN]');
  const { out } = await call(['check', '--json'], { content });
  const { diagnostics } = JSON.parse(out) as { diagnostics: { rule: string; file: string; line: number }[] };
  expect(diagnostics.filter(({ file }) => file.endsWith('words.yaml')).map(({ rule }) => rule)).toEqual([
    'placeholder-left',
    'placeholder-left',
  ]);
});

test('what needs an id asks for one', async () => {
  const { code, said } = await call(['new', 'lesson'], { content: emptyFolder() });
  expect([code, said]).toEqual([2, expect.stringContaining('say the id of the lesson')]);
});

test('a new shop is a whole folder whose files know each other, and beside its blanks only what has still to be filmed is told', async () => {
  const folder = emptyFolder();
  const begun = await call(['new', 'shop', 'our-shop'], { cwd: folder });
  expect([begun.code, begun.said]).toEqual([0, expect.stringContaining('check --content our-shop')]);
  const content = join(folder, 'our-shop');
  for (const file of begun.out.split('\n'))
    expect(readFileSync(join(folder, file.replace('wrote ', '')), 'utf8')).not.toBe('');
  const rules = new Set((await told(content)).map((each) => each.split(' ')[0]));
  // Beside the blanks: film, captions and a signed release, which nobody else can bring.
  expect([...rules].toSorted()).toEqual(['captions-missing', 'footage-missing', 'placeholder-left', 'release-missing']);
});

test('with its blanks filled in and its footage there, a new shop passes check', async () => {
  const folder = emptyFolder();
  await call(['new', 'shop', 'our-shop'], { cwd: folder });
  const content = join(folder, 'our-shop');
  const fill = (file: string, pairs: Record<string, string>) => {
    const path = join(content, file);
    let text = readFileSync(path, 'utf8');
    for (const [blank, words] of Object.entries(pairs)) {
      expect([file, blank, text.includes(blank)]).toEqual([file, blank, true]);
      text = text.replace(blank, words);
    }
    writeFileSync(path, text.replaceAll(/FILL IN[^,{}#\n<"]*/g, 'some words'));
  };
  fill('shop.yaml', { 'name: FILL IN': 'name: Garage at the lock', 'timezone: FILL IN': 'timezone: Europe/Vienna' });
  fill('kit.yaml', {});
  fill('words.yaml', { 'also: [FILL IN]': 'also: [other words]' });
  fill('specs/first-machine.yaml', {
    'years: FILL IN': 'years: 2019-2025',
    'edition: FILL IN': 'edition: second',
    'date: FILL IN': 'date: 2023-06-01',
    'kind: FILL IN': 'kind: length',
    'nominal: FILL IN': 'nominal: 5',
    'plusMinus: FILL IN': 'plusMinus: 1',
    'unit: FILL IN': 'unit: mm',
    'page: FILL IN }': 'page: 12 }\n    checkedBy: lead mechanic\n    checkedOn: 2026-10-01',
  });
  fill('recordings/first-recording.yaml', { 'release: missing': 'release: on-file' });
  fill('lessons/first-lesson.mdx', { '<Cue at="FILL IN" />': '<Cue at="0:00:05" />', 'at="FILL IN"': 'at="0:00:08"' });
  fill('classes/first-class.yaml', {
    'date: FILL IN': 'date: 2026-12-05',
    'starts: FILL IN': 'starts: "10:00"',
    'slot: FILL IN': 'slot: "2:00"',
    'worth: FILL IN, minutes: FILL IN': 'worth: 50, minutes: [5, 10, 15]',
  });
  const left = await told(content);
  expect(left.map((each) => each.split(' ')[0])).toEqual(['captions-missing', 'footage-missing']);
  // Language servers for YAML find the schema that each file names in its first line, and it fits.
  const judge = new Ajv2020({ strict: false, validateFormats: false });
  const files = ['shop.yaml', 'kit.yaml', 'words.yaml', 'specs/first-machine.yaml', 'recordings/first-recording.yaml'];
  for (const file of [...files, 'classes/first-class.yaml']) {
    const text = readFileSync(join(content, file), 'utf8');
    const named = /^# yaml-language-server: \$schema=(\S+)\n/.exec(text)?.[1] ?? 'none';
    const schema = JSON.parse(readFileSync(join(content, dirname(file), named), 'utf8')) as object;
    expect([file, judge.validate(schema, parse(text)), judge.errorsText()]).toEqual([file, true, 'No errors']);
  }
});

test('the workflow of a new shop holds calls that Liftside understands', async () => {
  const folder = emptyFolder();
  await call(['new', 'shop', '.'], { cwd: folder });
  const text = readFileSync(join(folder, '.github/workflows/content.yml'), 'utf8');
  const { jobs } = parse(text) as { jobs: Record<string, { steps: { run?: string }[] }> };
  const calls = Object.values(jobs).flatMap(({ steps }) =>
    steps.flatMap(
      ({ run }) =>
        /liftside (?<words>[^>]*)/
          .exec(run ?? '')
          ?.groups?.words?.trim()
          .split(' ') ?? [],
    ),
  );
  expect(calls.join(' ')).toBe('check --content . --sarif build --content . --to site');
  const checked = await call(calls.slice(0, 4), { cwd: folder });
  // Its blanks are errors, at their places, for the code host to show.
  expect(checked.code).toBe(1);
  expect(JSON.parse(checked.out)).toMatchObject({ version: '2.1.0' });
  const built = await call(calls.slice(4), { cwd: folder });
  expect([built.code, built.said]).toEqual([1, expect.stringContaining('FILL IN')]);
});

test('a shop is not begun where something is', async () => {
  const folder = emptyFolder();
  writeFileSync(join(folder, 'letter.txt'), 'dear all');
  const refused = await call(['new', 'shop', '.'], { cwd: folder });
  expect([refused.code, refused.said]).toEqual([2, expect.stringContaining('holds letter.txt already')]);
  expect(readdirSync(folder)).toEqual(['letter.txt']);
});

test('a new lesson names the machine and recording that are there', async () => {
  const content = emptyFolder();
  await call(['new', 'machine', 'tarn'], { content });
  await call(['new', 'recording', 'take'], { content });
  await call(['new', 'lesson', 'pads'], { content });
  const text = readFileSync(join(content, 'lessons/pads.mdx'), 'utf8');
  expect(text).toMatch(/^recording: take\s/m);
  expect(text).toMatch(/^machine: tarn\s/m);
  await call(['new', 'recording', 'other'], { content });
  await call(['new', 'lesson', 'chain'], { content });
  expect(readFileSync(join(content, 'lessons/chain.mdx'), 'utf8')).toMatch(/^recording: chain\s/m);
});

test('on a terminal it asks for what was not said, and which of several is meant', async () => {
  const content = emptyFolder();
  for (const words of ['recording first', 'recording second', 'machine tarn', 'machine weir'])
    await call(['new', ...words.split(' ')], { content });
  const questions: string[] = [];
  const answers = ['lesson', 'pads', 'second', 'nonsense'];
  const ask = async (question: string) => {
    questions.push(question);
    return answers.shift() ?? '';
  };
  const { code } = await call(['new'], { content, ask });
  expect(code).toBe(0);
  expect(questions).toEqual([
    expect.stringMatching(/^What do you want to begin \(shop, .*lesson/),
    'The id of the lesson, such as chain? ',
    'Which recording: first, second? Enter leaves it blank. ',
    'Which machine: tarn, weir? Enter leaves it blank. ',
  ]);
  const text = readFileSync(join(content, 'lessons/pads.mdx'), 'utf8');
  // An answer that names none of them leaves the blank, which check refuses.
  expect(text).toMatch(/^recording: second\s/m);
  expect(text).toMatch(/^machine: FILL IN\s/m);
});

test('where nobody can be asked, it says what is missing', async () => {
  const { code, said } = await call(['new'], { content: emptyFolder() });
  expect([code, said]).toEqual([2, expect.stringContaining('say what to begin: shop, ')]);
});
