import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, SOUND_SHOP, sampleContent } from '../../../src/core/check/index.ts';
import {
  findImportFormat,
  IMPORT_FORMATS,
  planImport,
  writeEdl,
  writeSrt,
  writeVtt,
} from '../../../src/core/interchange/index.ts';
import { writeMkvChapters } from '../../../src/core/interchange/mkv-chapters.ts';
import { writeOtio } from '../../../src/core/interchange/otio.ts';
import { writePaperEdit } from '../../../src/core/interchange/paper-edit/write-paper-edit.ts';
import { readCaptions, readShop } from '../../../src/core/read/index.ts';
import { done, smallShop } from '../../support/shop.ts';

const { recording, times, shop } = smallShop();
const texts = new Map(Object.entries(SOUND_SHOP));
const cues = recording.captions!.cues;

/** Sound files, to be damaged. */
const SEEDS: readonly (readonly [string, string])[] = [
  [
    'a.vtt',
    writeVtt([
      ...cues,
      ...cues.map((cue) => ({ ...cue, markup: '<v Ann>Mind <00:00:20.000>the &amp; spring', settings: 'line:0' })),
    ]),
  ],
  ['a.srt', writeSrt(cues).text],
  ['a.edl', done(writeEdl(recording, [times])).text],
  ['a.otio', done(writeOtio(recording, [times])).text],
  ['a.xml', writeMkvChapters(times).text],
  ['a.txt', done(writePaperEdit(recording, [times])).text],
];
const SPLINTERS = [
  '-->',
  '\0',
  '\uFEFF',
  '<',
  '>',
  '&',
  '{',
  '}',
  '[',
  ']',
  '"',
  ';',
  ':',
  '99',
  '-1',
  '1e999',
  'null',
  '\r',
  '\n\n',
  ' '.repeat(50),
  'WEBVTT',
  'OTIO_SCHEMA',
  'Clip.2',
  '\uD800',
  '∞',
  '9'.repeat(40),
];

/** A small generator of numbers, the same for a seed each time (a linear congruential one; Numerical Recipes' constants). */
function dice(seed: number): (sides: number) => number {
  let state = seed >>> 0;
  return (sides) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * sides);
  };
}

function damaged(text: string, seed: number): string {
  const roll = dice(seed);
  let made = text;
  for (let i = 0; i <= roll(6); i++) {
    const from = roll(made.length + 1);
    const to = Math.min(made.length, from + roll(40));
    const kind = roll(4);
    if (kind === 0) made = made.slice(0, from) + made.slice(to);
    else if (kind === 1) made = made.slice(0, from) + (SPLINTERS[roll(SPLINTERS.length)] ?? '') + made.slice(from);
    else if (kind === 2) made = made.slice(0, from) + made.slice(from, to) + made.slice(from);
    else made = made.slice(0, from) + String.fromCharCode(roll(0x10000)) + made.slice(from + 1);
  }
  return made;
}

test.each([0, 1, 2, 3])('2 000 damaged files give a model or a message, never a crash (quarter %d)', (quarter) => {
  let models = 0;
  let messages = 0;
  for (let seed = quarter * 500; seed < quarter * 500 + 500; seed++) {
    const [file, sound] = SEEDS[seed % SEEDS.length] ?? ['', ''];
    const text = damaged(sound, seed);
    const format = findImportFormat(file, text);
    if (!format.ok) {
      expect(format.help.length).toBeGreaterThan(0);
      messages++;
      continue;
    }
    const read = format.value.read(file, text, recording, { clock: 'recording' });
    if (read.ok) {
      models++;
      const plan = planImport(read.value, recording, shop, texts);
      expect(plan.ok || plan.help.length > 0).toBe(true);
    } else {
      messages++;
      expect(read.problem.length > 0 && read.help.length > 0).toBe(true);
    }
  }
  expect(models + messages).toBe(500);
  expect(models).toBeGreaterThan(50);
});

const FORMATS = IMPORT_FORMATS.map(({ id, read }) => [id, read] as const);
const MB = 250_000;
/** Texts of a size that make a careless reader slow or hungry. */
const BIG: readonly (readonly [string, () => string])[] = [
  ['one line of letters', () => 'a'.repeat(8 * MB)],
  ['line ends alone', () => '\n'.repeat(8 * MB)],
  ['arrows alone', () => '-->'.repeat(2 * MB)],
  ['open tags', () => `WEBVTT\n\n00:00.000 --> 00:01.000\n${'<'.repeat(4 * MB)}`],
  ['open references', () => `WEBVTT\n\n00:00.000 --> 00:01.000\n${'&'.repeat(4 * MB)}`],
  ['open braces', () => `1\n00:00:00,000 --> 00:00:01,000\n${'{\\'.repeat(2 * MB)}`],
  ['nested lists', () => '['.repeat(4 * MB)],
  ['nested elements', () => `<Chapters><EditionEntry>${'<ChapterAtom>'.repeat(20_000)}`],
  ['counters', () => '1\n'.repeat(2 * MB)],
  ['digits and colons', () => '1:'.repeat(4 * MB)],
  ['events', () => `TITLE: x\n${'001 CHAIN V C 00:00:10:00 00:00:20:00 01:00:00:00 01:00:10:00\n'.repeat(20_000)}`],
  ['open signs', () => `[-word ${'[-'.repeat(MB)}`],
  ['signs that close nothing', () => 'word -] '.repeat(MB)],
  ['times alone', () => '0:00:11.000 '.repeat(MB / 4)],
  ['words without a time', () => 'working wheel nut '.repeat(MB / 4)],
  ['FFMETADATA keys', () => `;FFMETADATA1\n[CHAPTER]\n${'\\'.repeat(MB)}=${'a=b\n'.repeat(MB)}`],
];

// A reader whose time grows with the square of the length would need hours; the runner's own limit ends it.
test.each(BIG)('%s: every reader comes to an end', (_what, make) => {
  const text = make();
  for (const [id, read] of FORMATS) {
    const result = read('a.vtt', text, recording, { clock: 'recording' });
    expect(result.ok || result.help.length > 0, id).toBe(true);
  }
});

test('100 MB are refused at once, in words', () => {
  const text = 'a'.repeat(400 * MB);
  for (const [id, read] of FORMATS)
    expect(read('a.vtt', text, recording, { clock: 'recording' }), id).toMatchObject({ ok: false });
  expect(readCaptions('a.vtt', text).diagnostics[0]?.message).toContain(
    'too long for captions (100 million characters)',
  );
});

test('JSON that opens a million lists is refused before it is parsed, and a bracket in words is none', () => {
  for (const [id, read] of FORMATS.filter(([id]) => id === 'otio' || id === 'words')) {
    const deep = read('a.json', '[{"a":'.repeat(MB), recording, { clock: 'recording' });
    expect(deep, id).toMatchObject({ ok: false, problem: expect.stringContaining('nested more than 500 deep') });
  }
  const words = JSON.stringify([{ word: `${'['.repeat(600)}\\"{`, start: 1, end: 2 }]);
  const read = FORMATS.find(([id]) => id === 'words')?.[1]('a.json', words, recording, { clock: 'recording' });
  expect(read?.ok && read.value.captions?.[0]?.text.startsWith('[[[')).toBe(true);
});

// Sorted look-ups: ten thousand locators over ten thousand events were a hundred million comparisons.
test('locators and markers find their clip however many there are', () => {
  const clock = (s: number) => new Date(s * 1000).toISOString().slice(11, 19);
  const rows = Array.from(
    { length: 9000 },
    (_, i) =>
      `001 CHAIN V C ${clock(i % 500)}:00 ${clock((i % 500) + 1)}:00 ${clock(3600 + i)}:00 ${clock(3601 + i)}:00\n* LOC: ${clock(3600 + i)}:10 GREEN M${i}`,
  );
  const edl = FORMATS.find(([id]) => id === 'edl')?.[1]('a.edl', `TITLE: x\n${rows.join('\n')}\n`, recording, {
    clock: 'recording',
  });
  if (!edl?.ok) throw new Error(edl?.problem);
  const { rate } = recording;
  expect(edl.value.marks?.length).toBe(9000);
  expect(edl.value.marks?.[777]?.at).toBe((277 * 30 + 10) * (rate?.ticksPerFrame ?? 0));
});

test('an hour as one line of megabytes goes through every rule', () => {
  const line = 'word '.repeat(2 * MB);
  const sample = sampleContent({
    files: { 'media/chain.vtt': `WEBVTT\n\n00:00:00.000 --> 01:00:00.000\n${line}\n` },
  });
  const read = readShop(sample.texts, sample.facts);
  const rules = check(read.shop, read.diagnostics, { today: SAMPLE_TODAY }).map(({ rule }) => rule);
  expect(rules).toContain('caption-too-fast');
  expect(rules).toContain('caption-line-long');
});

test('an hour as one line of words is read whole', () => {
  const words = Array.from({ length: 10_000 }, (_, i) => `w${i}`).join(' ');
  const { captions, diagnostics } = readCaptions('a.vtt', `WEBVTT\n\n00:00:00.000 --> 01:00:00.000\n${words}\n`);
  expect([captions[0]?.text.length, diagnostics.length]).toEqual([words.length, 0]);
});
