/** A child of `hostile-readers.ts`: reads texts one after the other, and says what each took. */
import { parse } from 'csv-parse/sync';
import { SOUND, sampleContent } from '../../src/core/check/index.ts';
import { findQuantities } from '../../src/core/heard/index.ts';
import { findImportFormat, mergeSpecTable } from '../../src/core/interchange/index.ts';
import { MOST_CAPTION_TEXT, readCaptions, readShop } from '../../src/core/read/index.ts';
import { HOSTILE_TEXT, type HostileTo } from '../support/hostile-text.ts';

interface Reader {
  readonly aimedAt: readonly HostileTo[];
  read(text: string): unknown;
}

const { texts, facts } = sampleContent(SOUND);
const shopWith = (file: string) => (text: string) =>
  readShop(new Map([...texts, [file, text]]), facts).diagnostics.length;
const importer = (name: string) => (text: string) => {
  const [recording] = readShop(texts, facts).shop.recordings;
  if (!recording) throw new Error('the sample has a recording');
  const found = findImportFormat(name, text);
  return found.ok ? found.value.read(name, text, recording, { clock: 'recording' }) : found.problem;
};

export const READERS: Readonly<Record<string, Reader>> = {
  quantities: { aimedAt: ['quantities'], read: (text) => findQuantities(text) },
  lesson: { aimedAt: ['mdx'], read: shopWith('lessons/hostile.mdx') },
  recording: { aimedAt: ['yaml'], read: shopWith('recordings/hostile.yaml') },
  specs: { aimedAt: ['yaml'], read: shopWith('specs/hostile.yaml') },
  kit: { aimedAt: ['yaml'], read: shopWith('kit.yaml') },
  class: { aimedAt: ['yaml'], read: shopWith('classes/hostile.yaml') },
  corrections: { aimedAt: ['yaml'], read: shopWith('corrections/chain.yaml') },
  webvtt: { aimedAt: ['captions'], read: (text) => readCaptions('a.vtt', text) },
  subrip: { aimedAt: ['captions'], read: (text) => readCaptions('a.srt', text) },
  'import edl': { aimedAt: ['edit lists'], read: importer('a.edl') },
  'import list': { aimedAt: ['edit lists'], read: importer('a.txt') },
  'import otio': { aimedAt: ['json'], read: importer('a.otio') },
  'import words': { aimedAt: ['json'], read: importer('a.json') },
  'import vtt': { aimedAt: ['captions'], read: importer('a.vtt') },
  'import xml': { aimedAt: ['xml'], read: importer('a.xml') },
  'import csv': {
    aimedAt: ['tables'],
    read: (text) => {
      const [machine] = readShop(texts, facts).shop.machines;
      if (!machine) throw new Error('the sample has a machine');
      let rows: string[][];
      try {
        rows = parse(text, { bom: true, relax_column_count: true, skip_empty_lines: true });
      } catch {
        // The command says so in words.
        return 'no CSV';
      }
      return mergeSpecTable(texts.get('specs/tarn-420.yaml') ?? '', machine, rows);
    },
  },
};

const CAPTIONS: Readonly<Record<string, (i: number) => string>> = {
  cues: (i) => `${clock(i * 2)} --> ${clock(i * 2 + 2)}\nMind the spring, take ${i} of it.\n\n`,
  'one cue': (i) => (i === 0 ? `${clock(0)} --> ${clock(3600)}\n` : `word${i} `),
  words: (i) => `${clock(i)} --> ${clock(i + 1)}\n<${clock(i)}>Mind <${clock(i)}>it\n\n`,
};

function clock(seconds: number): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}.000`;
}

function memory(kind: string): void {
  const piece = CAPTIONS[kind];
  if (!piece) throw new Error(`no captions of ${kind}`);
  const pieces = ['WEBVTT\n\n'];
  for (let [i, size] = [0, 8]; ; i++) {
    const next = piece(i);
    size += next.length;
    if (size > MOST_CAPTION_TEXT) break;
    pieces.push(next);
  }
  const { captions } = readCaptions('a.vtt', Buffer.from(pieces.splice(0).join('')).toString('latin1'));
  console.log(`${Math.round(process.resourceUsage().maxRSS / 1024)} MiB at most, ${captions.length} captions`);
}

if (process.argv[1]?.endsWith('hostile-reading.ts')) {
  const [reader = '', bytes = '', ...names] = process.argv.slice(2);
  if (reader === 'memory') memory(bytes);
  else
    for (const name of names) {
      const text = HOSTILE_TEXT.find((one) => one.name === name)?.text(Number(bytes)) ?? '';
      const before = process.cpuUsage();
      let problem = '';
      try {
        READERS[reader]?.read(text);
      } catch (error) {
        problem = `it throws: ${error instanceof Error ? error.message.slice(0, 100) : error}`;
      }
      const { user, system } = process.cpuUsage(before);
      console.log(`${((user + system) / 1e6).toFixed(2)}\t${problem}`);
    }
}
