import type { Recording } from '../../model/index.ts';
import { type Parsed, parseClockTime, parseMoment, type Ticks } from '../../time/index.ts';
import { brief, MOST_LINES, Notes } from '../imported.ts';
import { BARE_REST, bareWord } from './paper-words.ts';
import { PAPER_EDIT } from './write-paper-edit.ts';

/** What a paper says of a word; `open` where its signs do not agree, and it stays as it is. */
export type Wanted = 'cut' | 'keep' | 'open';

/** A word as it stands on paper. */
export interface MarkedWord {
  readonly text: string;
  readonly bare: string;
  readonly line: number;
  wanted: Wanted;
  /** Which pair of signs, or which marked line, it stands in: above 0. */
  run: number;
}

/** Words from one time to the next. */
export interface Segment {
  readonly line: number;
  readonly at?: Ticks<'recording'>;
  /** Positions among the words, half-open. */
  readonly from: number;
  to: number;
}

export interface MarkedHeading {
  readonly kind: 'chapter' | 'step';
  readonly title: string;
  readonly line: number;
  readonly at?: Ticks<'recording'>;
  /** Position of the word that follows. */
  readonly before: number;
}

/** A paper edit as it was handed back. */
export interface PaperMarks {
  /** The recording that it names. */
  readonly recording?: string;
  readonly words: readonly MarkedWord[];
  readonly segments: readonly Segment[];
  readonly headings: readonly MarkedHeading[];
  /** What was cut when it was printed, ticks, half-open, in order; nothing where the file does not say. */
  readonly printed?: readonly (readonly [start: number, end: number])[];
  readonly notes: Notes;
}

const RULE = /^\s*={20,}\s*$/;
const SIGNS = /(\[-|-\]|\[\+|\+\]|\[cut\]|\[keep\]|\(no words[^()]{0,40}\))/i;
/** A time anywhere says its frames or thousandths; at the beginning of a line it may be shorter. */
const TIME = /^\d{1,2}:\d{2}:\d{2}(?:[:;]\d{2}|[.,]\d{1,3})$/;
const TIME_FIRST = /^\d{1,2}(?::\d{2}){1,2}(?:[:;]\d{2}|[.,]\d{1,3})?$/;
const HEADING = /^\s*(?:(\d{1,2}(?::\d{2}){1,2}(?:[:;]\d{2}|[.,]\d{1,3})?)\s+)?(step|chapter)\s*:(.*)$/i;
const PRINTED = /^\s*cut\s+(?:(nothing)|(\d{1,3}:[\d:.]+)-(\d{1,3}:[\d:.]+|end))\s*$/i;

/** Reads the signs of a paper edit; whatever does not agree is told by its line, and the rest is read. */
export function readMarks(text: string, recording: Recording): PaperMarks {
  const lines = text.split(/\r\n|\r|\n/, MOST_LINES + 1);
  const reader = new MarkReader(recording);
  if (lines.length > MOST_LINES) reader.notes.add(`only the first ${MOST_LINES} lines were read`);
  const rules = lines.flatMap((line, i) => (RULE.test(line) ? [i] : []));
  const headed = lines.slice(0, rules[0] ?? 0).some((line) => line.includes(PAPER_EDIT));
  const first = headed ? (rules[0] ?? -1) + 1 : 0;
  const last = rules[headed ? 1 : 0] ?? lines.length;
  for (let i = first; i < Math.min(last, MOST_LINES); i++) reader.line(lines[i] ?? '', i + 1);
  const named = /^\s*Recording:\s*(\S+)\s*$/im.exec(lines.slice(0, first).join('\n'))?.[1];
  const printed = printedCuts(lines.slice(last));
  return { ...reader.end(), ...(named !== undefined && { recording: named }), ...(printed && { printed }) };
}

function printedCuts(lines: readonly string[]): [number, number][] | undefined {
  const found = lines.map((line) => PRINTED.exec(line)).filter((match) => match !== null);
  if (found.length === 0) return undefined;
  return found
    .flatMap(([, , from = '', until = '']): [number, number][] => {
      const [start, end] = [parseClockTime(from), parseClockTime(until)];
      return start.ok ? [[start.value, end.ok ? end.value : Number.POSITIVE_INFINITY]] : [];
    })
    .toSorted(([a], [b]) => a - b);
}

/** A sign that waits for its other half. */
interface Opened {
  readonly sign: '-' | '+';
  readonly line: number;
  readonly from: number;
}

class MarkReader {
  readonly notes = new Notes();
  readonly #recording: Recording;
  readonly #words: MarkedWord[] = [];
  readonly #segments: Segment[] = [];
  readonly #headings: MarkedHeading[] = [];
  #opened: Opened | undefined;
  #runs = 0;
  /** Words before this position that are to stay as they are, are settled. */
  #left = 0;
  /** `[cut]` or `[keep]`: until the words come that it is of, and then with them. */
  #waiting: Wanted | undefined;
  #flag: { readonly wanted: Wanted; readonly run: number } | undefined;

  constructor(recording: Recording) {
    this.#recording = recording;
  }

  line(text: string, line: number): void {
    if (/^\s*#/.test(text)) return;
    const heading = HEADING.exec(text);
    if (heading) this.#heading(heading, line);
    else this.#rest(text, line, true);
  }

  end(): Omit<PaperMarks, 'recording' | 'printed'> {
    if (this.#opened) this.#unclosed(this.#opened);
    return { words: this.#words, segments: this.#segments, headings: this.#headings, notes: this.notes };
  }

  #heading([, time, kind = '', rest = '']: RegExpExecArray, line: number): void {
    // An editor that fills paragraphs has put the words behind it.
    const more = rest.search(/\s\d{1,2}:\d{2}:\d{2}[:;.,]\d/);
    const said = more < 0 ? rest : rest.slice(0, more);
    const title = said
      .split(SIGNS)
      .filter((part) => !SIGNS.test(part))
      .join(' ')
      .replaceAll(/\s+/g, ' ')
      .trim();
    const at = time === undefined ? undefined : this.#moment(time);
    if (title === '' || bareWord(title) === '') this.notes.add(`line ${line}: the ${kind.toLowerCase()} has no title`);
    else
      this.#headings.push({
        kind: kind.toLowerCase() === 'step' ? 'step' : 'chapter',
        title,
        line,
        before: this.#words.length,
        ...(at?.ok && { at: at.value }),
      });
    for (const sign of said.match(new RegExp(SIGNS, 'gi')) ?? []) this.#sign(sign, line);
    if (more >= 0) this.#rest(rest.slice(more), line, false);
  }

  #rest(text: string, line: number, begins: boolean): void {
    let first = begins;
    for (const part of text.split(SIGNS)) {
      if (SIGNS.test(part)) {
        this.#sign(part, line);
        continue;
      }
      for (const word of part.split(/\s+/)) {
        if (word === '') continue;
        const moment = TIME.test(word) || (first && TIME_FIRST.test(word)) ? this.#moment(word) : undefined;
        first = false;
        if (moment?.ok) this.#time(line, moment.value);
        else if (moment) {
          this.notes.add(`line ${line}: ${moment.problem}`);
          this.#time(line, undefined);
        } else this.#word(word, bareWord(word), line);
      }
    }
  }

  #moment(text: string): Parsed<Ticks<'recording'>> {
    const read = parseMoment(text.replace(',', '.'), this.#recording);
    // A timecode on a recording whose rate is not known any more still says its second.
    return read.ok ? read : parseClockTime(text.replace(/[:;]\d{2}$/, ''));
  }

  #time(line: number, at: Ticks<'recording'> | undefined): void {
    const here = this.#words.length;
    this.#segments.push({ line, from: here, to: here, ...(at !== undefined && { at }) });
    this.#flag = this.#waiting && { wanted: this.#waiting, run: ++this.#runs };
    this.#waiting = undefined;
  }

  #word(text: string, bare: string, line: number): void {
    // A dash that stands alone says nothing.
    if (bare === '') return;
    if (this.#segments.length === 0) this.#time(line, undefined);
    if (this.#waiting) this.#flag = { wanted: this.#waiting, run: ++this.#runs };
    this.#waiting = undefined;
    this.#words.push({ text, bare, line, wanted: this.#flag?.wanted ?? 'keep', run: this.#flag?.run ?? 0 });
    const segment = this.#segments.at(-1);
    if (segment) segment.to = this.#words.length;
  }

  #sign(written: string, line: number): void {
    const sign = written.toLowerCase();
    if (sign.startsWith('(')) this.#word(written, BARE_REST, line);
    else if (sign === '[cut]' || sign === '[keep]') this.#waiting = sign === '[cut]' ? 'cut' : 'keep';
    else if (sign.startsWith('[')) {
      if (this.#opened) this.#unclosed(this.#opened);
      this.#opened = { sign: sign === '[-' ? '-' : '+', line, from: this.#words.length };
    } else this.#close(sign === '-]' ? '-' : '+', line);
  }

  #close(sign: '-' | '+', line: number): void {
    const opened = this.#opened;
    if (opened?.sign !== sign) {
      if (opened) this.#unclosed(opened);
      this.#opened = undefined;
      this.notes.add(`line ${line}: "${sign}]" has no "[${sign}" before it; the words of its line stay as they are`);
      this.#leave(this.#segments.at(-1)?.from ?? 0);
      return;
    }
    const run = ++this.#runs;
    for (const word of this.#words.slice(opened.from)) {
      word.wanted = sign === '-' ? 'cut' : 'keep';
      word.run = run;
    }
    this.#opened = undefined;
  }

  #unclosed({ sign, line, from }: Opened): void {
    const words = brief(
      this.#words
        .slice(from, from + 4)
        .map(({ text }) => text)
        .join(' '),
    );
    this.notes.add(
      `line ${line}: "[${sign}" before "${words}" has no "${sign}]"; the words behind it stay as they are`,
    );
    this.#leave(from);
  }

  /** The words from a position on stay as they are, apart from those between signs that agree. */
  #leave(from: number): void {
    // Those before were left already: a file of nothing but odd signs takes no longer than another one.
    for (let i = Math.max(from, this.#left); i < this.#words.length; i++) {
      const word = this.#words[i];
      if (word?.run === 0) word.wanted = 'open';
    }
    this.#left = this.#words.length;
  }
}
