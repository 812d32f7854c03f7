import { type Caption, startOf } from '../model/index.ts';
import { webvttTime } from '../programme/index.ts';
import { captionWords, escapeMarkup, readCaptions, withoutBlankLines } from '../read/index.ts';
import { fail, fromSeconds, ok, type Parsed, TICKS_PER_SECOND, ticks, toRecording } from '../time/index.ts';
import { brief, type Imported, Notes } from './imported.ts';
import { parseJsonText } from './json-text.ts';
import type { FileClock } from './read-chapters.ts';

/** Characters of a line, lines of a caption and seconds it stands at most, when words are set into captions. (Common practice, no source.) */
const LINE = 37;
const LINES = 2;
const LONGEST = 6;
/** A silence this long ends a caption, seconds. */
const PAUSE = 0.7;

/** A transcript as WebVTT or SRT. */
export function readCaptionTranscript(file: string, text: string, clock: FileClock): Parsed<Imported> {
  const { captions, blocks, diagnostics } = readCaptions(file, text);
  if (captions.length === 0)
    return fail('the file holds no caption', diagnostics[0]?.message ?? 'a caption has a line start --> end and words');
  const notes = new Notes();
  for (const { message, place } of diagnostics) notes.add(`line ${place.start.line}: ${message}`);
  const placed = onRecording(captions, clock, notes);
  return ok({ captions: placed, captionClock: clock.clock, captionBlocks: blocks, notes: notes.all() });
}

interface Word {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * A transcript as JSON with word times: `{words: […]}`, `{segments: [{start, end, text, words}]}`, or such a list alone;
 * times in seconds, a word under `word` or `text`. Words are set into captions of two lines with a time for each word.
 */
export function readJsonTranscript(text: string, clock: FileClock): Parsed<Imported> {
  const read = parseJsonText(text, 'a transcript');
  if (!read.ok) return read;
  const notes = new Notes();
  const rows = rowsOf(read.value);
  const words = rows.flatMap((row) => {
    const inner = listUnder(row, 'words');
    return inner.length > 0 ? inner.flatMap((one) => wordOf(one, notes)) : wordOf(row, notes);
  });
  if (words.length === 0)
    return fail('the file holds no words with times', 'each has a start and an end in seconds, and a word or text');
  const captions = groupIntoCaptions(words.toSorted((a, b) => a.start - b.start));
  return ok({ captions: onRecording(captions, clock, notes), captionClock: clock.clock, notes: notes.all() });
}

function rowsOf(tree: unknown): readonly unknown[] {
  if (Array.isArray(tree)) return tree;
  for (const key of ['segments', 'words', 'results', 'captions']) {
    const rows = listUnder(tree, key);
    if (rows.length > 0) return rows;
  }
  return [];
}

function listUnder(value: unknown, key: string): readonly unknown[] {
  if (typeof value !== 'object' || value === null) return [];
  const found = (value as Readonly<Record<string, unknown>>)[key];
  return Array.isArray(found) ? found : [];
}

function wordOf(value: unknown, notes: Notes): Word[] {
  if (typeof value !== 'object' || value === null) return [];
  const { start, end, word, text } = value as { start?: unknown; end?: unknown; word?: unknown; text?: unknown };
  const said = typeof word === 'string' ? word : typeof text === 'string' ? text : undefined;
  if (said === undefined || said.trim() === '') return [];
  if (typeof start !== 'number' || typeof end !== 'number' || !(start >= 0) || !(end >= start) || end > 1e7) {
    notes.add(`"${brief(said)}" has no sound start and end, so it was left out`);
    return [];
  }
  return [{ start, end, text: said.replaceAll(/\s+/g, ' ').trim() }];
}

/** Words set into captions: a new one after a pause, a sentence, or when two lines or six seconds are full. */
function groupIntoCaptions(words: readonly Word[]): Caption[] {
  const captions: Caption[] = [];
  let run: Word[] = [];
  let length = 0;
  const finish = () => {
    const [first] = run;
    const last = run.at(-1);
    if (first && last) captions.push(captionOf(run, first.start, Math.max(last.end, first.start + 0.001)));
    run = [];
    length = 0;
  };
  for (const word of words) {
    const last = run.at(-1);
    const [first] = run;
    const full = lineStarts([...run, word]).size >= LINES || (first && word.end - first.start > LONGEST);
    if (last && (full || word.start - last.end >= PAUSE || (/[.!?…]["')\]]?$/.test(last.text) && length > LINE / 2)))
      finish();
    run.push(word);
    length += word.text.length + 1;
  }
  finish();
  return captions;
}

/** The words after the first that begin a line. */
function lineStarts(words: readonly Word[]): ReadonlySet<number> {
  const starts = new Set<number>();
  let line = words[0]?.text.length ?? 0;
  for (const [i, { text }] of words.entries()) {
    if (i === 0) continue;
    const longer = line + 1 + text.length;
    if (longer > LINE) starts.add(i);
    line = longer > LINE ? text.length : longer;
  }
  return starts;
}

function captionOf(words: readonly Word[], start: number, end: number): Caption {
  const breaks = lineStarts(words);
  const markup = words
    .map(({ text, start: at }, i) => {
      const tag = i > 0 && at > start ? `<${webvttTime(fromSeconds(at))}>` : '';
      return `${i === 0 ? '' : breaks.has(i) ? '\n' : ' '}${tag}${escapeMarkup(text)}`;
    })
    .join('');
  const plain = withoutBlankLines(markup);
  return {
    at: { start: ms(start), end: ms(Math.max(end, start + 0.001)) },
    markup: plain,
    text: captionWords(plain),
    settings: '',
    place: startOf(''),
  };
}

/** Seconds as ticks, on whole milliseconds as WebVTT has them. */
function ms(seconds: number) {
  return ticks<'recording'>(Math.round(seconds * 1000) * (TICKS_PER_SECOND / 1000));
}

/** Captions of the programme back where their words were said; those of the recording as they are. */
function onRecording(captions: readonly Caption[], clock: FileClock, notes: Notes): Caption[] {
  if (clock.clock === 'recording') return [...captions];
  const length = clock.edit.reduce((sum, { start, end }) => sum + (end - start), 0);
  return captions.flatMap((caption) => {
    if (caption.at.start >= length) {
      notes.add(`"${brief(caption.text)}" lies past the end of the programme, so it was left out`);
      return [];
    }
    const start = toRecording(clock.edit, ticks(caption.at.start), 'after');
    const end = toRecording(clock.edit, ticks(Math.min(caption.at.end, length)), 'before');
    // Word times inside would point to the programme; the words stay, their times go.
    const markup = caption.markup.replaceAll(/<[\d:.]{9,20}>/g, '');
    if (markup !== caption.markup)
      notes.add('word times were left out: the transcript is on the clock of the programme');
    return end > start ? [{ ...caption, at: { start, end }, markup }] : [];
  });
}
