/**
 * What big and hostile files cost when they are taken in: time and peak memory of the whole `import … --dry-run`, each
 * beside a named alternative that only parses, one process each:
 *
 *     npx node tests/bench/big-files.ts [megabytes, 1 10 30 60 100 when left out]
 *
 * Files of over 64 MB are refused by their size, before anything of them is read.
 */
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { execa } from 'execa';
import { XMLParser } from 'fast-xml-parser';
import { parseText } from 'media-captions';
import { SOUND_SHOP } from '../../src/core/check/index.ts';
import { runCommandLine } from '../../src/node/cli/run-command-line.ts';

/** So often as it takes to fill a size. */
function filled(megabytes: number, head: string, piece: (i: number) => string, tail = ''): string {
  const pieces = [head];
  let length = head.length + tail.length;
  for (let i = 0; length < megabytes * 1e6; i++) {
    const next = piece(i);
    pieces.push(next);
    length += next.length;
  }
  return [...pieces, tail].join('');
}

const two = (n: number) => String(n).padStart(2, '0');
const clock = (s: number) => `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
/** Seconds of a day, over and over. */
const at = (i: number) => (i * 2) % 86_000;

interface Case {
  readonly name: string;
  readonly file: string;
  make(megabytes: number): string;
  readonly alternative: readonly [name: string, parse: (text: string) => unknown];
}

const CAPTIONS = ['media-captions', (text: string) => parseText(text, { type: 'vtt' })] as const;
const SUBRIP = ['media-captions', (text: string) => parseText(text, { type: 'srt' })] as const;
const JSON_ALONE = ['JSON.parse', (text: string) => JSON.parse(text) as unknown] as const;
const LINES = ['split into lines', (text: string) => text.split('\n').length] as const;
const XML = ['fast-xml-parser alone', (text: string) => new XMLParser().parse(text) as unknown] as const;

const CASES: readonly Case[] = [
  {
    name: 'WebVTT, many cues',
    file: 'big.vtt',
    make: (mb) =>
      filled(mb, 'WEBVTT\n\n', (i) => `${clock(at(i))}.000 --> ${clock(at(i) + 2)}.000\nMind the spring, ${i}.\n\n`),
    alternative: CAPTIONS,
  },
  {
    name: 'WebVTT, one cue of an hour, one line',
    file: 'line.vtt',
    make: (mb) => filled(mb, 'WEBVTT\n\n00:00:00.000 --> 01:00:00.000\n', (i) => `word${i} `, '\n'),
    alternative: CAPTIONS,
  },
  {
    name: 'WebVTT, one line of open tags',
    file: 'tags.vtt',
    make: (mb) => filled(mb, 'WEBVTT\n\n00:00:00.000 --> 01:00:00.000\n', () => '<b', '\n'),
    alternative: LINES,
  },
  {
    name: 'SRT, many cues',
    file: 'big.srt',
    make: (mb) =>
      filled(mb, '', (i) => `${i + 1}\n${clock(at(i))},000 --> ${clock(at(i) + 2)},000\nMind it, ${i}.\n\n`),
    alternative: SUBRIP,
  },
  {
    name: 'transcript, JSON with word times',
    file: 'words.json',
    make: (mb) =>
      filled(mb, '{"words":[', (i) => `${i ? ',' : ''}{"word":"w${i}","start":${i / 4},"end":${i / 4 + 0.2}}`, ']}'),
    alternative: JSON_ALONE,
  },
  {
    name: 'EDL, many events',
    file: 'big.edl',
    make: (mb) =>
      filled(mb, 'TITLE: x\nFCM: NON-DROP FRAME\n', (i) => {
        const [start, end] = [clock(at(i) % 500), clock((at(i) % 500) + 1)];
        return `${String((i % 999) + 1).padStart(3, '0')}  CHAIN    V     C        ${start}:00 ${end}:00 ${clock(at(i))}:00 ${clock(at(i) + 1)}:00\n* LOC: ${clock(at(i))}:00 GREEN  Mark ${i}\n`;
      }),
    alternative: LINES,
  },
  {
    name: 'EDL, one line',
    file: 'line.edl',
    make: (mb) => filled(mb, 'TITLE: x\n001 ', () => '00:00:10:00 '),
    alternative: LINES,
  },
  {
    name: 'OpenTimelineIO, many clips',
    file: 'big.otio',
    make: (mb) => {
      const time = (value: number) => `{"OTIO_SCHEMA":"RationalTime.1","rate":30,"value":${value}}`;
      const clip = (i: number) =>
        `${i ? ',' : ''}{"OTIO_SCHEMA":"Clip.2","name":"chain","source_range":{"OTIO_SCHEMA":"TimeRange.1","start_time":${time((i * 3) % 15_000)},"duration":${time(2)}},"markers":[],"effects":[]}`;
      return filled(
        mb,
        '{"OTIO_SCHEMA":"Timeline.1","tracks":{"OTIO_SCHEMA":"Stack.1","children":[{"OTIO_SCHEMA":"Track.1","kind":"Video","children":[',
        clip,
        ']}]}}',
      );
    },
    alternative: JSON_ALONE,
  },
  {
    name: 'OpenTimelineIO, nested lists',
    file: 'nested.otio',
    make: (mb) => filled(mb, '{"OTIO_SCHEMA":"Timeline.1","tracks":', () => '['),
    alternative: LINES,
  },
  {
    name: 'FFMETADATA1 chapters',
    file: 'big.ffmeta',
    make: (mb) =>
      filled(
        mb,
        ';FFMETADATA1\n',
        (i) => `[CHAPTER]\nTIMEBASE=1/1000\nSTART=${at(i) * 1000}\nEND=${at(i) * 1000 + 2000}\ntitle=Part ${i}\n`,
      ),
    alternative: LINES,
  },
  {
    name: 'Matroska chapters, XML',
    file: 'big.xml',
    make: (mb) =>
      filled(
        mb,
        '<Chapters><EditionEntry>',
        (i) =>
          `<ChapterAtom><ChapterTimeStart>${clock(at(i))}.000000000</ChapterTimeStart><ChapterDisplay><ChapterString>Part ${i}</ChapterString></ChapterDisplay></ChapterAtom>`,
        '</EditionEntry></Chapters>',
      ),
    alternative: XML,
  },
  {
    name: 'list of chapters',
    file: 'list.txt',
    make: (mb) => filled(mb, '', (i) => `${clock(at(i))} Part ${i}\n`),
    alternative: LINES,
  },
];

/** In a process of its own: does one thing, and says how long it took and how much memory it held at most. */
async function measured(work: () => Promise<unknown>): Promise<void> {
  const from = performance.now();
  const words = await work();
  const seconds = (performance.now() - from) / 1000;
  process.stdout.write(JSON.stringify({ seconds, megabytes: process.resourceUsage().maxRSS / 1024, words }));
}

async function imported(folder: string, file: string): Promise<string> {
  const said: string[] = [];
  await runCommandLine(
    ['import', join(folder, file), '--into', 'chain', '--dry-run', '--content', join(folder, 'shop')],
    {
      cwd: folder,
      home: folder,
      env: {},
      terminal: false,
      signal: new AbortController().signal,
      now: () => new Date(),
      input: async () => '',
      out: () => undefined,
      say: (text) => said.push(text),
    },
  );
  return said.join(' · ').replaceAll('\n', ' · ').replaceAll(`${folder}/`, '').slice(0, 110);
}

interface Measured {
  readonly seconds: number;
  readonly megabytes: number;
  readonly words?: string;
}

async function child(...words: string[]): Promise<Measured | string> {
  const done = await execa(process.execPath, [import.meta.filename, ...words], { reject: false, timeout: 300_000 });
  if (done.timedOut) return 'over 5 min';
  return done.exitCode === 0 ? (JSON.parse(done.stdout) as Measured) : `ends with ${done.exitCode ?? done.signal}`;
}

const cell = (got: Measured | string) =>
  typeof got === 'string'
    ? got.padStart(20)
    : `${got.seconds.toFixed(2).padStart(9)} s ${got.megabytes.toFixed(0).padStart(6)} MB`;

async function compare(sizes: readonly number[]): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'bench-big-'));
  try {
    for (const [file, text] of Object.entries(SOUND_SHOP)) {
      await mkdir(dirname(join(folder, 'shop', file)), { recursive: true });
      await writeFile(join(folder, 'shop', file), text);
    }
    for (const megabytes of sizes) {
      console.log(`\n${megabytes} MB`.padEnd(42), 'import'.padStart(20), ' alternative');
      for (const { name, file, make, alternative } of CASES) {
        await writeFile(join(folder, file), make(megabytes));
        const ours = await child('ours', folder, file);
        const other = await child('other', folder, file);
        console.log(name.padEnd(40), cell(ours), cell(other), ` ${alternative[0]}`);
        if (typeof ours !== 'string' && ours.words) console.log(`    ${ours.words}`);
        await rm(join(folder, file));
      }
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const [mode = '', folder = '', file = ''] = process.argv.slice(2);
if (mode === 'ours') await measured(() => imported(folder, file));
else if (mode === 'other') {
  const parse = CASES.find((one) => one.file === file)?.alternative[1];
  await measured(async () => {
    try {
      await parse?.(await readFile(join(folder, file), 'utf8'));
    } catch {
      // What is no such file costs what it costs to find out.
    }
  });
} else {
  const sizes = process.argv.slice(2).map(Number);
  await compare(sizes.length > 0 ? sizes : [1, 10, 30, 60, 100]);
}
