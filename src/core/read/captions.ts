import type { Caption, Diagnostic } from '../model/index.ts';
import { startOf } from '../model/index.ts';
import type { Ticks } from '../time/index.ts';
import { type Line, Lines, placeInLine, placeOfLines } from './caption-lines.ts';
import { CaptionProblems } from './caption-problems.ts';
import { captionWords, fromSrtText, withoutBlankLines } from './caption-text.ts';
import { clip, type TimeLine, timeLine } from './caption-times.ts';
import { plural } from './words.ts';

/** A caption file as read. */
export interface ReadCaptions {
  readonly format: 'vtt' | 'srt';
  /** In the order of the file. */
  readonly captions: readonly Caption[];
  /** Style and region blocks of a WebVTT file, as written. */
  readonly blocks: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Longest caption file that is read: a day of talk takes a fifth of it. UTF-16 units. */
export const MOST_CAPTION_TEXT = 8_000_000;

/**
 * Captions of a WebVTT or SRT text, whichever it is; a byte order mark and any line ends are fine.
 * What cannot be read is told with its place, and what browsers would skip is read and told.
 *
 * @param file path for the places
 * @param text decoded text
 */
export function readCaptions(file: string, text: string): ReadCaptions {
  const problems = new CaptionProblems();
  if (text.length > MOST_CAPTION_TEXT) {
    problems.tell(
      'caption-unreadable',
      startOf(file),
      `the file is too long for captions (${Math.round(text.length / 1_000_000)} million characters)`,
      'take the caption file of one recording',
    );
    return { format: 'srt', captions: [], blocks: [], diagnostics: problems.all() };
  }
  const isVtt = /^\uFEFF?WEBVTT(?![^ \t\r\n])/.test(text);
  if (!isVtt && /\.vtt$/i.test(file) && text.trim() !== '')
    problems.tell(
      'caption-not-webvtt',
      startOf(file),
      'the file is named .vtt but does not begin with WEBVTT',
      'put WEBVTT and a blank line at its top, or name it .srt',
    );
  const reader = { file, lines: new Lines(text), problems, source: text };
  const { captions, blocks } = isVtt ? vttCaptions(reader) : { captions: srtCaptions(reader), blocks: [] };
  return { format: isVtt ? 'vtt' : 'srt', captions, blocks, diagnostics: problems.all() };
}

interface Reader {
  readonly file: string;
  readonly source: string;
  readonly lines: Lines;
  readonly problems: CaptionProblems;
}

/** A stretch of the source, from the first line of a caption's words to the last. */
interface Payload {
  readonly first: Line;
  last: Line;
}

function payloadText(source: string, payload: Payload | undefined): string {
  if (!payload) return '';
  return source.slice(payload.first.offset, payload.last.offset + payload.last.text.length).replaceAll('\0', '\uFFFD');
}

/** Blocks as W3C WebVTT, "collect a WebVTT block", takes them apart. */
function vttCaptions(reader: Reader): { captions: Caption[]; blocks: string[] } {
  const { lines } = reader;
  const captions: Caption[] = [];
  const blocks: string[] = [];
  lines.next();
  for (let line = lines.peek(); line && line.text !== '' && !line.text.includes('-->'); line = lines.peek())
    lines.next();
  while (lines.peek()) {
    if (lines.peek()?.text === '') lines.next();
    else vttBlock(reader, captions, blocks);
  }
  return { captions, blocks };
}

function vttBlock(reader: Reader, captions: Caption[], blocks: string[]): void {
  const { file, source, lines, problems } = reader;
  let first: Line | undefined;
  let id: Line | undefined;
  let time: Line | undefined;
  let payload: Payload | undefined;
  for (let line = lines.peek(); line && line.text !== ''; line = lines.peek()) {
    if (line.text.includes('-->')) {
      if (time || (payload && payload.first !== payload.last)) break;
      time = line;
      id = payload?.first;
      payload = undefined;
    } else if (payload) payload.last = line;
    else payload = { first: line, last: line };
    first ??= line;
    lines.next();
  }
  if (!first) return;
  if (time) {
    const caption = captionFrom(reader, time, id, payload, (text) => ({
      markup: text.replaceAll(/\r\n?/g, '\n'),
      settings: '',
    }));
    if (caption) captions.push(caption);
    return;
  }
  const block = payloadText(source, payload);
  if (/^(STYLE|REGION)[ \t]*(?:[\r\n]|$)/.test(block)) blocks.push(block.replaceAll(/\r\n?/g, '\n'));
  else if (!/^NOTE(?:\s|$)/.test(block))
    problems.tell(
      'caption-unreadable',
      placeOfLines(file, first, payload?.last),
      `"${clip(captionWords(first.text))}" stands there without a time`,
      'give it a line start --> end, or begin it with NOTE',
    );
}

/** Captions between their time lines; a line of digits before a time line is its counter. */
function srtCaptions(reader: Reader): Caption[] {
  const { file, lines, problems } = reader;
  const captions: Caption[] = [];
  let time: Line | undefined;
  let counter: Line | undefined;
  let payload: Payload | undefined;
  let beforeLast: Line | undefined;
  const finish = () => {
    if (time) {
      const caption = captionFrom(reader, time, counter, payload, (text, place) => {
        const { markup, settings, left } = fromSrtText(text);
        tellCodes(problems, place, left);
        return { markup, settings };
      });
      if (caption) captions.push(caption.id === undefined ? caption : { ...caption, id: caption.id.trim() });
    } else if (payload)
      problems.tell(
        'caption-unreadable',
        placeOfLines(file, payload.first, payload.last),
        `"${clip(payload.first.text)}" stands there without a time`,
        'give it a line start --> end',
      );
  };
  for (let line = lines.next(); line; line = lines.next()) {
    const isCounter: boolean = payload !== undefined && /^\s*\d{1,9}\s*$/.test(payload.last.text);
    if (line.text.includes('-->') && (isCounter || /^\s*\d[\d:.,]*\s*-->/.test(line.text))) {
      const next = isCounter ? payload?.last : undefined;
      if (next && payload) {
        if (payload.first === next) payload = undefined;
        else payload.last = beforeLast ?? payload.first;
      }
      finish();
      time = line;
      counter = next;
      payload = undefined;
      beforeLast = undefined;
    } else if (line.text.trim() !== '') {
      beforeLast = payload?.last;
      if (payload) payload.last = line;
      else payload = { first: line, last: line };
    }
  }
  finish();
  return captions;
}

function captionFrom(
  { file, source, problems }: Reader,
  time: Line,
  id: Line | undefined,
  payload: Payload | undefined,
  read: (text: string, place: Caption['place']) => { markup: string; settings: string },
): Caption | undefined {
  const place = placeOfLines(file, id ?? time, payload?.last ?? time);
  const timePlace = placeInLine(file, time, 0, time.text.length);
  const words = payloadText(source, payload);
  const times = timeLine(time.text);
  if (!times.ok) {
    problems.tell('caption-unreadable', timePlace, `${times.problem}, so ${leftOutWords(words)}`, times.help);
    return undefined;
  }
  const { start, end, settings } = times.value;
  if (end.at <= start.at) {
    problems.tell(
      'caption-unreadable',
      timePlace,
      `the caption ends ${end.at === start.at ? 'as' : 'before'} it starts, so ${leftOutWords(words)}`,
      'set its end after its start',
    );
    return undefined;
  }
  if (/\.vtt$/i.test(file)) tellLoose(problems, timePlace, times.value, time);
  const { markup, settings: carried } = read(words, place);
  return {
    ...(id ? { id: id.text } : {}),
    at: { start: start.at as Ticks<'recording'>, end: end.at },
    markup: withoutBlankLines(markup),
    text: captionWords(withoutBlankLines(markup)),
    settings: carried || (settings.includes(':') && !/^[XY][12]:/i.test(settings) ? settings : ''),
    place,
  };
}

function leftOutWords(words: string): string {
  return words === '' ? 'it is left out' : `"${clip(captionWords(words))}" is left out`;
}

function tellLoose(problems: CaptionProblems, place: Caption['place'], { start, end }: TimeLine, time: Line): void {
  if (!start.strict || !end.strict)
    problems.tell(
      'caption-time-loose',
      place,
      `"${clip(time.text.trim())}" is not how WebVTT writes times`,
      'write 00:01:02.500 --> 00:01:04.000',
    );
}

function tellCodes(problems: CaptionProblems, place: Caption['place'], codes: readonly string[]): void {
  if (codes.length === 0) return;
  const kinds = [...new Set(codes)];
  problems.tell(
    'caption-codes-dropped',
    place,
    `${plural(codes.length, 'styling tag')} dropped: ${kinds.slice(0, 5).map(clip).join(' ')}${kinds.length > 5 ? ' …' : ''}`,
    'nothing has to be done where the looks do not matter',
  );
}
