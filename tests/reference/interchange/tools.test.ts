import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { writeFfmetadata } from '../../../src/core/interchange/ffmetadata.ts';
import { writeIcs, writeSrt, writeVtt } from '../../../src/core/interchange/index.ts';
import { writeMkvChapters } from '../../../src/core/interchange/mkv-chapters.ts';
import { TICKS_PER_SECOND, toSeconds } from '../../../src/core/time/index.ts';
import { span } from '../../support/edit.ts';
import { done, smallShop } from '../../support/shop.ts';

// Independent programs read what is written: ffmpeg and ffprobe, mkvmerge and mkvextract, ical.js.

const has = (program: string, flag: string) => spawnSync(program, [flag], { stdio: 'ignore' }).status === 0;
const FFMPEG = has('ffmpeg', '-version') && has('ffprobe', '-version');
const MKVMERGE = has('mkvmerge', '--version') && has('mkvextract', '--version');

const BODY = `## Take it = off; # \\\\ <Cue at="0:00:10" />

### Lift & "turn"
<Cue at="0:00:30.033" />

## Größe prüfen
<Cue at="0:01:00.1" />

### Read it
<Cue at="0:01:10" />

## Fit it
<Cue at="0:06:00" />

### Set it
<Cue at="0:06:10" until="0:07:00" />
`;
const made = smallShop({
  'lessons/chain.mdx': `---\ntitle: Chain; all = of it\nrecording: chain\nmachine: tarn-420\n---\n${BODY.replace(' <Cue at="0:00:10" />', '\n<Cue at="0:00:10" />')}`,
});
const expected = made.times.chapters.map(({ chapter, at }) => ({
  title: chapter.title,
  start: toSeconds(at.start),
  end: toSeconds(at.end),
}));

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'liftside-tools-'));
  if (FFMPEG)
    execFileSync('ffmpeg', [
      '-v',
      'error',
      '-f',
      'lavfi',
      '-i',
      `anullsrc=r=8000:cl=mono`,
      '-t',
      String(toSeconds(made.times.length)),
      '-c:a',
      'aac',
      '-b:a',
      '8k',
      join(folder, 'sound.mp4'),
    ]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function put(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

interface Probed {
  readonly chapters: readonly {
    readonly start_time: string;
    readonly end_time: string;
    readonly tags: { readonly title: string };
  }[];
}

function chaptersOf(file: string) {
  const { chapters } = JSON.parse(
    execFileSync('ffprobe', ['-v', 'error', '-show_chapters', '-of', 'json', file], { encoding: 'utf8' }),
  ) as Probed;
  return chapters.map(({ start_time, end_time, tags }) => ({
    title: tags.title,
    start: Number(start_time),
    end: Number(end_time),
  }));
}

test('the lesson has what makes chapters hard: signs to escape, times between milliseconds', () => {
  expect(expected).toHaveLength(3);
  expect(expected.map(({ title }) => title).join()).toMatch(/=.*;.*#.*\\.*ß/);
});

describe.skipIf(!FFMPEG)('ffmpeg (skipped where it is not installed)', () => {
  test.each(['mp4', 'mkv'])(
    'reads our FFMETADATA into %s, and ffprobe prints our chapters at our times',
    (container) => {
      const meta = put('chapters.txt', writeFfmetadata(made.times).text);
      const out = join(folder, `out.${container}`);
      execFileSync('ffmpeg', [
        '-v',
        'error',
        '-y',
        '-i',
        join(folder, 'sound.mp4'),
        '-i',
        meta,
        '-map',
        '0',
        '-map_chapters',
        '1',
        '-map_metadata',
        '1',
        '-c',
        'copy',
        out,
      ]);
      const read = chaptersOf(out);
      expect(read.map(({ title }) => title.trimEnd())).toEqual(expected.map(({ title }) => title));
      // MP4 keeps chapters to the millisecond.
      read.forEach(({ start, end }, i) => {
        expect(Math.abs(start - (expected[i]?.start ?? Number.NaN))).toBeLessThanOrEqual(0.001);
        expect(Math.abs(end - (expected[i]?.end ?? Number.NaN))).toBeLessThanOrEqual(0.001);
      });
    },
  );

  test('reads our WebVTT and SRT, cue for cue', () => {
    const captions = [
      { at: span('1.5-3.25'), markup: 'Mind the <i>spring</i> &amp; pin', settings: '' },
      { at: span('3600.001-3602'), markup: 'Größe 81 N·m\nzwei', settings: '' },
    ];
    for (const [name, text] of [
      ['a.vtt', writeVtt(captions)],
      ['a.srt', writeSrt(captions).text],
    ] as const) {
      const srt = execFileSync('ffmpeg', ['-v', 'error', '-i', put(name, text), '-f', 'srt', '-'], {
        encoding: 'utf8',
      });
      expect(srt.trim().split(/\r?\n/)).toEqual([
        '1',
        '00:00:01,500 --> 00:00:03,250',
        'Mind the <i>spring</i> & pin',
        '',
        '2',
        '01:00:00,001 --> 01:00:02,000',
        'Größe 81 N·m',
        'zwei',
      ]);
    }
  });
});

describe.skipIf(!MKVMERGE || !FFMPEG)('mkvmerge (skipped where it is not installed)', () => {
  test('reads our Matroska XML, and mkvextract gives the same chapters and steps back', () => {
    const { text } = writeMkvChapters(made.times, 'en');
    const out = join(folder, 'chapters.mkv');
    // In the language of a machine that has none set, mkvextract ends at the first letter that is not ASCII.
    const env = { ...process.env, LC_ALL: 'C.UTF-8' };
    const chapters = put('chapters.xml', text);
    execFileSync('mkvmerge', ['-q', '-o', out, '--chapters', chapters, join(folder, 'sound.mp4')], { env });
    const back = execFileSync('mkvextract', [out, 'chapters'], { encoding: 'utf8', env });
    const strings = (xml: string) =>
      [...xml.matchAll(/<(ChapterString|ChapterTimeStart|ChapterTimeEnd|ChapterUID)>([^<]*)</g)]
        .map(([, tag, value]) => `${tag} ${value?.replaceAll('&quot;', '"')}`)
        .toSorted();
    expect(strings(back)).toEqual(strings(text));
    expect(chaptersOf(out).map(({ start }) => start)[0]).toBeCloseTo(expected[0]?.start ?? Number.NaN, 9);
  });
});

// RFC 9559: unsigned nanoseconds, the end excluded and not before the start, a UID that is not 0.
test('Matroska XML is well formed and keeps the rules of RFC 9559', () => {
  const { text } = writeMkvChapters(made.times);
  expect(XMLValidator.validate(text)).toBe(true);
  const uids = [...text.matchAll(/<ChapterUID>(\d+)</g)].map(([, uid]) => BigInt(uid ?? 0));
  expect(uids.every((uid) => uid > 0n && uid < 2n ** 64n)).toBe(true);
  expect(new Set(uids).size).toBe(uids.length);
  const { EditionEntry } = new XMLParser().parse(text).Chapters;
  expect(EditionEntry.ChapterAtom).toHaveLength(3);
  for (const { ChapterTimeStart, ChapterTimeEnd } of EditionEntry.ChapterAtom)
    expect(ChapterTimeEnd >= ChapterTimeStart).toBe(true);
});

test('ical.js reads the event, in UTC, with its words unescaped, and every line is short (RFC 5545 §3.1)', () => {
  const { shop, shopClass } = smallShop({
    'shop.yaml': 'name: Millrace\ntimezone: Europe/Vienna\nsite: https://millrace.example/\n',
  });
  const words = {
    ...shopClass,
    summary: `Bring; gloves, and a \\ backslash.\nÄ${'Ä'.repeat(59)}`,
    place: 'Bay 2; Mill Lane',
  };
  const { text, notes } = done(writeIcs(words, shop, new Date('2026-11-25T08:00:00Z')));
  expect(notes).toEqual([]);
  const lines = text.split('\r\n');
  expect(lines.every((line) => Buffer.byteLength(line) <= 75)).toBe(true);
  expect(text).not.toMatch(/(?<!\r)\n/);
  const event = new ICAL.Event(new ICAL.Component(ICAL.parse(text)).getFirstSubcomponent('vevent')!);
  expect(event.startDate.toJSDate().toISOString()).toBe('2026-12-05T09:00:00.000Z');
  expect(event.startDate.zone.tzid).toBe('UTC');
  expect(event.duration.toSeconds()).toBe(7200);
  expect(event.location).toBe('Bay 2; Mill Lane');
  expect(event.description).toContain(words.summary);
  expect(event.uid).toBe('saturday@millrace.example');
});

const calendarOf = (shopYaml: string, more: object = {}) => {
  const { shop, shopClass } = smallShop({ 'shop.yaml': `name: Millrace\ntimezone: Europe/Vienna\n${shopYaml}` });
  const { text } = done(writeIcs({ ...shopClass, ...more }, shop, new Date('2026-11-25T08:00:00Z')));
  const event = new ICAL.Component(ICAL.parse(text)).getFirstSubcomponent('vevent')!;
  return { event, title: shopClass.title };
};

test('ical.js reads who invites: a calendar address with a name (RFC 5545 §3.8.4.3, §3.2.2)', () => {
  const organizer = calendarOf('contact: hello@millrace.example\n').event.getFirstProperty('organizer')!;
  expect(organizer.getFirstValue()).toBe('mailto:hello@millrace.example');
  expect(organizer.getFirstParameter('cn')).toBe('Millrace');
});

test.each(['0123 456', 'https://millrace.example/us', 'ring the bell'])(
  '%s is no calendar address, and no organizer is made of it (RFC 5545 §3.3.3)',
  (contact) => {
    expect(calendarOf(`contact: ${contact}\n`).event.getFirstProperty('organizer')).toBe(null);
  },
);

test('ical.js reads an alarm that shows words a day before the start (RFC 5545 §3.6.6, §3.8.6.3), and the place', () => {
  const { event, title } = calendarOf('', { place: 'Bay 2', bring: ['closed shoes', 'gloves'] });
  const alarms = event.getAllSubcomponents('valarm');
  expect(alarms).toHaveLength(1);
  const [alarm] = alarms;
  expect(alarm?.getFirstPropertyValue('action')).toBe('DISPLAY');
  const trigger = alarm?.getFirstPropertyValue('trigger') as ICAL.Duration;
  expect(trigger.toSeconds()).toBe(-24 * 3600);
  // Without RELATED it counts from the start (§3.2.14).
  expect(alarm?.getFirstProperty('trigger')?.getFirstParameter('related')).toBeUndefined();
  expect(alarm?.getFirstPropertyValue('description')).toBe(`${title} tomorrow. Bring: closed shoes, gloves.`);
  expect(event.getFirstPropertyValue('location')).toBe('Bay 2');
});

// Escapes of ffmpeg's documentation are compared in published.test.ts; these titles were read back by ffmpeg 5.1.
test('titles are escaped as ffmpeg reads them', () => {
  for (const [title, written] of [
    ['chapter #1', 'chapter \\#1'],
    ['Torque = 25 N·m; check\ntwice', 'Torque \\= 25 N·m\\; check\\\ntwice'],
  ] as const) {
    const [chapter] = made.times.chapters;
    const one = { ...made.times, chapters: [{ ...chapter!, chapter: { ...chapter!.chapter, title } }] };
    expect(writeFfmetadata(one).text).toContain(`title=${written}\n`);
  }
  expect(writeFfmetadata(made.times).text).toContain(`TIMEBASE=1/${TICKS_PER_SECOND}`);
});
