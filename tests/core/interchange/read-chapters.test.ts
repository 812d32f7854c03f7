import { describe, expect, test } from 'vitest';
import type { Imported } from '../../../src/core/interchange/imported.ts';
import {
  readChapterList,
  readFfmetadata,
  readMkvChapters,
  readVttChapters,
} from '../../../src/core/interchange/read-chapters.ts';
import type { Parsed } from '../../../src/core/time/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { edit } from '../../support/edit.ts';
import { done } from '../../support/shop.ts';

// Matroska chapters (RFC 9559, 20), FFMETADATA1 as ffmpeg's manual has it, WebVTT chapter cues, plain lists.
const RECORDING = { clock: 'recording' } as const;
const shown = (read: Parsed<Imported>) => {
  const { marks = [], notes } = done(read);
  return [
    marks.map(({ kind, title, at, until }) => [kind, title, toSeconds(at), ...(until ? [toSeconds(until)] : [])]),
    ...notes,
  ];
};

describe('Matroska chapters', () => {
  const atom = (start: string, title: string, inner = '', end = '') =>
    `<ChapterAtom><ChapterTimeStart>${start}</ChapterTimeStart>${end && `<ChapterTimeEnd>${end}</ChapterTimeEnd>`}<ChapterDisplay><ChapterString>${title}</ChapterString></ChapterDisplay>${inner}</ChapterAtom>`;
  const chapters = (...editions: string[]) =>
    `<Chapters>${editions.map((atoms) => `<EditionEntry>${atoms}</EditionEntry>`).join('')}</Chapters>`;
  const read = (...editions: string[]) => shown(readMkvChapters(chapters(...editions), RECORDING));

  test('times to the nanosecond, steps within chapters, what lies deeper is a step too', () => {
    const deeper = atom('00:01:12.000000000', 'Deep', atom('00:01:13.000000000', 'Deeper'));
    const step = atom('00:01:11.250000000', 'Step &amp; more', deeper, '00:01:20.000000000');
    expect(read(atom('01:02:03.5', 'Late') + atom('0:01:10', 'First', step))).toEqual([
      [
        ['chapter', 'Late', 3723.5],
        ['chapter', 'First', 70],
        ['step', 'Step & more', 71.25],
        ['step', 'Deep', 72],
      ],
      'chapters deeper than steps were left out, under "Deep"',
    ]);
  });

  test('an end is kept where it says more than the next start', () => {
    const steps = (end: string) => atom('00:00:05', 'a', '', end) + atom('00:00:20', 'b');
    expect(read(atom('00:00:00', 'C', steps('00:00:10')))[0]).toContainEqual(['step', 'a', 5, 10]);
    expect(read(atom('00:00:00', 'C', steps('00:00:19.999')))[0]).toContainEqual(['step', 'a', 5]);
    expect(read(atom('00:00:00', 'C', steps('00:00:19.998')))[0]).toContainEqual(['step', 'a', 5, 19.998]);
    expect(read(atom('00:00:00', 'C', atom('00:00:05', 'a', '', '00:00:10'), '00:00:10'))[0]).toContainEqual([
      ...['step', 'a', 5],
    ]);
    expect(read(atom('00:00:00', 'C', '', '00:00:10'))[0]).toEqual([['chapter', 'C', 0]]);
  });

  test('of several editions the first; what has no time, or no title, is told or named', () => {
    const none = '<ChapterAtom><ChapterTimeStart>00:00:04</ChapterTimeStart></ChapterAtom>';
    expect(read(atom('soon', 'When') + none, atom('00:00:00', 'Other'))).toEqual([
      [['chapter', 'Untitled', 4]],
      'the first of 2 editions was taken',
      '"When" has no start, so it was left out',
    ]);
  });

  test('what is none is refused', () => {
    expect(readMkvChapters('<Chapters></Chapters>', RECORDING)).toEqual({
      ...{ ok: false, problem: 'the file holds no Matroska chapters' },
      help: 'it begins with <Chapters> and an <EditionEntry>',
    });
    expect(readMkvChapters('<Chapters', RECORDING)).toMatchObject({
      ...{
        ok: false,
        problem: expect.stringMatching(/^the file is not sound XML: ./),
        help: 'export the chapters again',
      },
    });
    expect(readMkvChapters(chapters(atom('soon', 'When')), RECORDING)).toEqual({
      ...{ ok: false, problem: 'the file holds no chapter', help: '"When" has no start, so it was left out' },
    });
  });
});

describe('FFMETADATA', () => {
  const read = (text: string) => shown(readFfmetadata(`;FFMETADATA1\ntitle=Whole\n${text}`, RECORDING));

  test('times in its own base, a billionth of a second where it names none; signs escaped with a backslash', () => {
    expect(
      read(
        '[CHAPTER]\nTIMEBASE=1/1000\nSTART=1500\nEND=4000\ntitle=Bolt\\; nut \\= two\\\nlines\r\n[CHAPTER]\r\nstart=4000000000\ntitle= \n[STREAM]\ntitle=no\n',
      ),
    ).toEqual([
      [
        ['chapter', 'Bolt; nut = two lines', 1.5],
        ['chapter', 'Untitled', 4],
      ],
    ]);
    expect(read('[CHAPTER]\nTIMEBASE=2/3\nSTART=3\ntitle=a\n')[0]).toEqual([['chapter', 'a', 2]]);
  });

  test.each(['', 'START=-1\n', 'START=x\n'])('a chapter with %j is told', (start) => {
    expect(readFfmetadata(`[CHAPTER]\n${start}title=Bolt\n[CHAPTER]\n${start}`, RECORDING)).toMatchObject({
      ...{ ok: false, help: 'a chapter "Bolt" has no sound START, so it was left out' },
    });
  });
});

describe('WebVTT chapters', () => {
  const read = (...cues: string[]) => shown(readVttChapters('a.vtt', `WEBVTT\n\n${cues.join('\n\n')}\n`, RECORDING));
  const cue = (from: number, until: number, text: string) => {
    const time = (s: number) => `00:00:${String(s).padStart(2, '0')}.000`;
    return `${time(from)} --> ${time(until)}\n${text}`;
  };

  test('a cue inside another is its step; its own words say otherwise', () => {
    expect(
      read(cue(0, 20, 'One'), cue(0, 10, 'In it'), cue(10, 20, 'Too'), cue(20, 40, 'Two'), cue(30, 41, 'Out')),
    ).toEqual([
      [
        ['chapter', 'One', 0],
        ['step', 'In it', 0],
        ['step', 'Too', 10],
        ['chapter', 'Two', 20],
        ['chapter', 'Out', 30],
      ],
    ]);
    expect(read(cue(0, 20, '{"kind": "step", "title": "Turn", "id": "t"}'))[0]).toEqual([['step', 'Turn', 0, 20]]);
    expect(read(cue(0, 20, '{"no json'))[0]).toEqual([['chapter', '{"no json', 0]]);
  });

  test('ids come along: of the words before that of the cue', () => {
    const ids = (id: string, text: string) =>
      done(readVttChapters('a.vtt', `WEBVTT\n\n${id}${cue(0, 20, text)}\n`, RECORDING)).marks?.map((mark) => mark.id);
    expect(ids('own\n', 'One')).toEqual(['own']);
    expect(ids('own\n', '{"kind": "step", "title": "Turn", "id": "t"}')).toEqual(['t']);
    expect(ids('', 'One')).toEqual([undefined]);
  });
});

test('times of the programme go over its cuts; what lies past its end is told', () => {
  const clock = { clock: 'programme', edit: edit('10-20 40-50') } as const;
  const list = (text: string) => shown(readChapterList(text, clock));
  expect(list('0:00 Begin\n0:10 Go on\n0:19 Near the end\n0:20 Behind\n')).toEqual([
    [
      ['chapter', 'Begin', 10],
      ['chapter', 'Go on', 40],
      ['chapter', 'Near the end', 49],
    ],
    '"Behind" lies past the end of the programme, so it was left out',
  ]);
});
