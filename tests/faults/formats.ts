import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { check, reportJson, reportSarif, reportText } from '../../src/core/check/index.ts';
import { isClean, openSession, readBindings } from '../../src/core/edit/index.ts';
import { blockNeeds, offersFor, partLookup, toPlan } from '../../src/core/fit/index.ts';
import { findQuantitiesByLine } from '../../src/core/heard/index.ts';
import {
  FORMATS,
  findImportFormat,
  IMPORT_FORMATS,
  mergeSpecTable,
  planImport,
  readMappedTranscript,
  readTranscriptMapping,
  specTable,
} from '../../src/core/interchange/index.ts';
import type { Diagnostic, FileFacts, Shop } from '../../src/core/model/index.ts';
import { lessonPage, MissingValue } from '../../src/core/pages/index.ts';
import { correctionsShown, lessonTimes } from '../../src/core/programme/index.ts';
import { readShop } from '../../src/core/read/index.ts';
import { stepRecords } from '../../src/core/search/index.ts';
import type { Parsed } from '../../src/core/time/index.ts';
import { RICH_SHOP } from './rich-shop.ts';

/** A format that people or their programs write, a sound text of it, and all that reads it. */
export interface Format {
  readonly name: string;
  readonly sound: string;
  /** True where another value can be set by way of YAML, JSON among it. */
  readonly data: boolean;
  /** True for a content file. */
  readonly ofShop: boolean;
  /** @throws whenever something is not told as a finding or refused in words */
  read(text: string): void;
}

const TODAY = '2026-11-25';
const SECOND = 705_600_000;

export function facts(texts: ReadonlyMap<string, string>): (file: string) => FileFacts {
  return (file) => {
    const text = texts.get(file);
    if (text !== undefined) return { state: 'text', text };
    if (file.endsWith('.mp4'))
      return { state: 'media', media: { duration: 300 * SECOND, framesPerSecond: 30000 / 1001 } };
    return { state: 'missing' };
  };
}

/** What would tell a person nothing, or speaks of the program instead of the content. */
const NOT_FOR_PEOPLE =
  /\bundefined\b|\[object |\bNaN\b|TypeError|RangeError|Cannot read|is not a function|is not iterable|Unexpected token .* in JSON|\n\s+at /;

/** Holds a line of words against what a person can use, apart from words of the content that it repeats. */
export function forPeople(words: string, content: string): void {
  const bad = NOT_FOR_PEOPLE.exec(words)?.[0];
  if (words.trim() === '') throw new Error('nothing is said');
  if (bad !== undefined && !content.includes(bad)) throw new Error(`this is not for people: ${words.slice(0, 300)}`);
}

function sound(diagnostic: Diagnostic, texts: ReadonlyMap<string, string>, content: string): void {
  const { rule, place, message, why, help } = diagnostic;
  const text = texts.get(place.file);
  forPeople(message, content);
  forPeople(why, content);
  forPeople(help, content);
  if (/[\n\r]/.test(message)) throw new Error(`${rule} speaks in more than one line: ${JSON.stringify(message)}`);
  const lines = (text ?? '').split(/\r\n|\n|\r/).length;
  if (text !== undefined && (place.start.line < 1 || place.start.line > lines || place.start.offset > text.length))
    throw new Error(`${rule} lies outside ${place.file}: line ${place.start.line} of ${lines}`);
}

/** Everything that is made of a shop, errors or not: `start` shows what can be shown. */
function useShop(shop: Shop, diagnostics: readonly Diagnostic[]): void {
  const errors = diagnostics.some(({ severity }) => severity === 'error');
  stepRecords(shop);
  correctionsShown(shop);
  for (const lesson of shop.lessons) {
    const recording = shop.recordings.find(({ id }) => id === lesson.recording);
    if (recording) {
      const times = lessonTimes(lesson, recording);
      for (const format of FORMATS) {
        const written =
          format.of === 'lesson'
            ? format.write(times, shop)
            : format.of === 'recording'
              ? format.write(recording, [times], shop)
              : undefined;
        if (written && !written.ok) refusedInWords(written);
      }
    }
    try {
      lessonPage(shop, lesson, 'uncut', (path) => `/${path}`);
    } catch (error) {
      // A page that would lack a value is not made; then there is an error that says so.
      if (!(error instanceof MissingValue) || !errors) throw error;
    }
  }
  for (const shopClass of shop.classes) {
    toPlan(shopClass, partLookup(shop));
    offersFor(shopClass, shop);
    for (const [index, { treatments }] of shopClass.blocks.entries())
      for (const { id } of treatments) blockNeeds(shopClass, index, id, shop.lessons);
    const ics = FORMATS.find(({ id }) => id === 'ics');
    if (ics?.of === 'class') {
      const written = ics.write(shopClass, shop, new Date(0));
      if (!written.ok) refusedInWords(written);
    }
  }
}

function refusedInWords({ problem, help }: { problem: string; help: string }, content = ''): void {
  forPeople(problem, content);
  forPeople(help, content);
}

/** Reads the rich shop with one of its files in place of its own. */
export function readContent(file: string, text: string): Diagnostic[] {
  const srt = file.endsWith('.srt');
  const recording = (RICH_SHOP['recordings/chain.yaml'] ?? '').replace('chain.vtt', srt ? 'side.srt' : 'chain.vtt');
  const texts = new Map(Object.entries({ ...RICH_SHOP, 'recordings/chain.yaml': recording, [file]: text }));
  const { shop, diagnostics } = readShop(texts, facts(texts));
  const found = check(shop, diagnostics, { today: TODAY });
  const content = [...texts.values()].join('\n');
  for (const diagnostic of found) sound(diagnostic, texts, content);
  reportText(found, texts);
  JSON.parse(reportJson(found));
  JSON.parse(reportSarif(found, 'file:///content/'));
  useShop(shop, found);
  openSession({ recordingFile: 'recordings/chain.yaml', lessonFile: 'lessons/chain.mdx', facts: facts(texts) }, texts);
  return found;
}

const RICH = new Map(Object.entries(RICH_SHOP));
const { shop: SHOP } = readShop(RICH, facts(RICH));
const [RECORDING] = SHOP.recordings;
const [LESSON] = SHOP.lessons;
const [MACHINE] = SHOP.machines;
if (!RECORDING || !LESSON || !MACHINE) throw new Error('the rich shop has one of everything');
const [recording, lesson, machine] = [RECORDING, LESSON, MACHINE];
const times = lessonTimes(lesson, recording);

function written(id: string): string {
  const format = FORMATS.find((each) => each.id === id);
  const made: Parsed<{ text: string }> | undefined =
    format?.of === 'lesson'
      ? format.write(times, SHOP)
      : format?.of === 'recording'
        ? format.write(recording, [times], SHOP)
        : undefined;
  if (!made?.ok) throw new Error(`${id} is not written`);
  return made.value.text;
}

/** What a file that comes in is read as: by name, and by what its text looks like. */
function readImport(id: string, file: string, text: string): void {
  const named = IMPORT_FORMATS.find((format) => format.id === id);
  const guessed = findImportFormat(file, text);
  if (!guessed.ok) refusedInWords(guessed, text);
  for (const format of new Set([named, guessed.ok ? guessed.value : undefined])) {
    if (!format) continue;
    for (const clock of ['recording', 'programme'] as const) {
      const fileClock = clock === 'recording' ? { clock } : { clock, edit: recording.edit };
      const read = format.read(file, text, recording, fileClock, [lesson]);
      if (!read.ok) {
        refusedInWords(read, text);
        continue;
      }
      for (const note of read.value.notes) forPeople(note, text);
      if (clock !== (format.clock ?? 'recording')) continue;
      const plan = planImport(read.value, recording, SHOP, RICH, lesson);
      if (!plan.ok) {
        refusedInWords(plan, text);
        continue;
      }
      for (const words of plan.value.words) forPeople(words, text);
      // What is written can be read, and gives no fault of syntax.
      const after = new Map(plan.value.texts.map(({ file: path, text: changed }) => [path, changed]));
      const again = readShop(after, facts(after));
      const torn = again.diagnostics.find(({ rule }) => rule === 'yaml-syntax' || rule === 'mdx-syntax');
      if (torn) throw new Error(`the import writes what cannot be read: ${torn.message}`);
    }
  }
}

function readTable(text: string): void {
  let rows: string[][];
  try {
    rows = parse(text, { bom: true, relax_column_count: true, skip_empty_lines: true });
  } catch (error) {
    // The library's own complaint is what the import repeats.
    if (error instanceof Error && 'code' in error) return;
    throw error;
  }
  const source = RICH_SHOP['specs/tarn-420.yaml'] ?? '';
  const merged = mergeSpecTable(source, machine, rows);
  if (!merged.ok) refusedInWords(merged, text);
  else readContent('specs/tarn-420.yaml', merged.value.text);
}

const WORDS = JSON.stringify({
  segments: [
    {
      text: 'Crack the nut',
      start: 11,
      end: 13,
      words: [
        { word: 'Crack', start: 11, end: 11.5 },
        { word: 'the', start: 11.5, end: 12 },
        { word: 'nut', start: 12, end: 13 },
      ],
    },
    { text: 'to ninety eight newton metres', start: 375, end: 380 },
  ],
});

const MAPPING = `entries: $.segments[*]
start: $.start
end: $.end
text: $.text
unit: seconds
words: {each: "$.words[?@.start >= 0]", start: $.start, end: $.end, text: $.word}
`;

/** A transcript by a mapping, either of them changed. */
function readMapped(mapping: string, transcript: string): void {
  const content = `${mapping}\n${transcript}`;
  const read = readTranscriptMapping('map.yaml', mapping);
  for (const diagnostic of read.diagnostics) sound(diagnostic, new Map([['map.yaml', mapping]]), content);
  if (!read.mapping) {
    if (read.diagnostics.length === 0) throw new Error('a mapping is refused without a word');
    return;
  }
  const found = readMappedTranscript(transcript, read.mapping, (key) => `map.yaml:${read.lineOf(key)}`);
  if (!found.ok) refusedInWords(found, content);
  else for (const note of found.value.notes) forPeople(note, content);
}

const content = (name: string, file: string, data = true): Format => ({
  name,
  sound: RICH_SHOP[file] ?? '',
  data,
  ofShop: true,
  read: (text) => void readContent(file, text),
});
const imported = (id: string, file: string, text: string, data = false): Format => ({
  name: `import of ${id} (${file})`,
  sound: text,
  data,
  ofShop: false,
  read: (changed) => readImport(id, file, changed),
});

export const CHANGED_FORMATS: readonly Format[] = [
  content('shop.yaml', 'shop.yaml'),
  content('kit.yaml', 'kit.yaml'),
  content('spec table', 'specs/tarn-420.yaml'),
  content('recording', 'recordings/chain.yaml'),
  content('class', 'classes/saturday.yaml'),
  content('what a class took', 'classes/saturday.actual.yaml'),
  content('corrections', 'corrections/chain.yaml'),
  content('lesson', 'lessons/chain.mdx', false),
  content('captions, WebVTT', 'media/chain.vtt', false),
  content('captions, SRT', 'media/side.srt', false),
  imported('edl', 'a.edl', written('edl')),
  imported('otio', 'a.otio', written('otio'), true),
  imported('paper-edit', 'paper.txt', written('paper-edit')),
  imported('mkv-chapters', 'a.xml', written('mkv-chapters')),
  imported('ffmetadata', 'a.txt', written('ffmetadata')),
  imported('vtt-chapters', 'chapters.vtt', written('vtt-chapters')),
  imported('vtt-chapters', 'metadata.vtt', written('vtt-metadata')),
  imported('captions', 'a.vtt', written('vtt')),
  imported('captions', 'a.srt', written('srt')),
  imported('words', 'a.json', WORDS, true),
  {
    name: 'mapping of a transcript',
    sound: MAPPING,
    data: true,
    ofShop: false,
    read: (text) => readMapped(text, WORDS),
  },
  { name: 'mapped transcript', sound: WORDS, data: true, ofShop: false, read: (text) => readMapped(MAPPING, text) },
  imported('chapter-list', 'list.txt', written('chapter-list')),
  { name: 'spec table, CSV', sound: stringify(specTable(machine)), data: false, ofShop: false, read: readTable },
  {
    name: 'spoken text',
    sound: RICH_SHOP['media/side.srt'] ?? '',
    data: false,
    ofShop: false,
    read: (text) => void findQuantitiesByLine(text),
  },
  {
    name: 'keys kept by the browser',
    sound: '{"mark-in": ["i"], "play": [" ", "k"]}',
    data: true,
    ofShop: false,
    read: (text) => void isClean(readBindings(text)),
  },
];
