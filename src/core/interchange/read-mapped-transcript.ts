import { compile, JSONPathError, type JSONPathQuery, type JSONValue } from 'json-p3';
import { captionTime } from '../read/index.ts';
import { fail, ok, type Parsed, remembered, TICKS_PER_SECOND } from '../time/index.ts';
import type { TimedWord } from '../words/index.ts';
import { recognisedWords } from '../words/index.ts';
import { brief, Notes } from './imported.ts';
import { parseJsonText } from './json-text.ts';
import type { TranscriptMapping } from './transcript-mapping.ts';

/** Entries of which no more are read: words of a day of talk. */
const MOST = 300_000;
/** Later than any recording goes, s. */
const LATEST = 1e7;
/** An entry whose end nothing tells lasts so long for each letter at most, s: slow speech. (Common practice, no source.) */
const LETTER = 0.12;

/** Words of a transcript with their times, on whichever clock it is; what had to be left out is told. */
export interface MappedTranscript {
  readonly words: readonly TimedWord[];
  readonly notes: readonly string[];
}

interface Spoken {
  readonly text: string;
  /** s */
  readonly start: number;
  readonly end?: number;
  readonly entry: JSONValue;
}

/**
 * Reads a transcript as JSON by a mapping. Words without times of their own share the time of their entry by their
 * letters.
 *
 * @param lineOf where the mapping says something, for messages: `mapping.yaml:3`
 */
export function readMappedTranscript(
  text: string,
  mapping: TranscriptMapping,
  lineOf: (key: string) => string,
): Parsed<MappedTranscript> {
  const read = parseJsonText(text, 'a transcript');
  if (!read.ok) return read;
  try {
    // What JSON.parse gives back is nothing else.
    return readEntries(read.value as JSONValue, mapping, lineOf);
  } catch (error) {
    if (!(error instanceof JSONPathError)) throw error;
    const said = error.message.replace(/ \('.*$/s, '');
    return fail(`a path of the mapping cannot be followed in this file: ${said}`, 'name each level, in place of ..');
  }
}

function readEntries(
  whole: JSONValue,
  mapping: TranscriptMapping,
  lineOf: (key: string) => string,
): Parsed<MappedTranscript> {
  const entries = compile(mapping.entries).query(whole).values();
  if (entries.length === 0)
    return fail(
      `${lineOf('entries')}: entries: ${mapping.entries} finds nothing in the file`,
      `the file holds ${outline(whole)}; a path to a list ends in [*]`,
    );
  if (entries.length > MOST)
    return fail(`the file has more than ${MOST} entries`, 'take the transcript of one recording');
  const notes = new Notes();
  const spoken = spokenBy(entries, mapping, mapping.unit, notes);
  if (!spoken.ok) return fail(`${lineOf(spoken.key)}: ${spoken.problem}`, spoken.help);
  const words: TimedWord[] = [];
  let inner = 0;
  for (const one of spoken.value) {
    const own = mapping.words ? wordsWithin(one.entry, mapping.words, mapping.unit, notes) : [];
    inner += own.length;
    words.push(
      ...(own.length > 0 ? own : recognisedWords({ text: one.text, tokens: [], timestamps: [] }, lasting(one))),
    );
  }
  if (mapping.words && inner === 0)
    return fail(
      `${lineOf('words')}: no entry has a word with a time by these paths`,
      `an entry holds ${outline(spoken.value[0]?.entry ?? null)}; leave words out where it has none`,
    );
  return ok({ words: words.toSorted((a, b) => a.start - b.start), notes: notes.all() });
}

type Found =
  | { readonly ok: true; readonly value: readonly Spoken[] }
  | { readonly ok: false; readonly key: string; readonly problem: string; readonly help: string };

type Paths = Pick<TranscriptMapping, 'start' | 'end' | 'length' | 'text'>;

/** What each entry says and when, in order; a problem where no entry has it. */
function spokenBy(entries: readonly JSONValue[], paths: Paths, unit: TranscriptMapping['unit'], notes: Notes): Found {
  const at = queries(paths);
  const found: Spoken[] = [];
  let [timed, told] = [0, 0];
  let odd: JSONValue | undefined;
  for (const entry of entries) {
    const text = textAt(at, entry);
    if (text !== '') told++;
    const { start, end } = timesAt(at, entry, unit);
    if (start !== undefined) timed++;
    else odd ??= valueAt(at.start, entry);
    if (text === '') continue;
    if (start === undefined) {
      notes.add(`"${brief(text)}" has no sound start, so it was left out`);
      continue;
    }
    found.push({ text, start, entry, ...(end !== undefined && end > start && { end }) });
  }
  const first = outline(entries[0] ?? null);
  if (told === 0)
    return {
      ok: false,
      key: 'text',
      problem: `text: ${paths.text} finds no words in any entry`,
      help: `an entry holds ${first}; the path begins at the entry, which is its $`,
    };
  if (timed === 0)
    return {
      ok: false,
      key: odd === undefined ? 'start' : 'unit',
      problem:
        odd === undefined
          ? `start: ${paths.start} finds nothing in any entry`
          : `unit: ${brief(JSON.stringify(odd))} is no time in ${unit}`,
      help:
        odd === undefined
          ? `an entry holds ${first}; the path begins at the entry, which is its $`
          : 'seconds and milliseconds are numbers, clock is text such as 0:01:02.5',
    };
  const sorted = found.toSorted((a, b) => a.start - b.start);
  return {
    ok: true,
    value: sorted.map((one, i) => {
      const next = sorted[i + 1]?.start;
      return one.end === undefined && next !== undefined && next > one.start
        ? { ...one, end: endBefore(one, next) }
        : one;
    }),
  };
}

/** Where nothing tells its end: when the next one begins, unless that is long after it can have been said. */
function endBefore({ text, start }: Spoken, next: number): number {
  return Math.min(next, start + text.length * LETTER);
}

function lasting({ text, start, end }: Spoken) {
  return { start, end: end ?? start + text.length * LETTER };
}

function wordsWithin(
  entry: JSONValue,
  { each, ...paths }: NonNullable<TranscriptMapping['words']>,
  unit: TranscriptMapping['unit'],
  notes: Notes,
): TimedWord[] {
  const rows = compile(each).query(entry).values();
  const at = queries(paths);
  const words: TimedWord[] = [];
  for (const row of rows) {
    const text = textAt(at, row);
    const last = words.at(-1);
    // Some programs write a full stop as a word of its own, often without a time.
    if (last && text !== '' && !/[\p{L}\p{N}]/u.test(text)) {
      words[words.length - 1] = { ...last, text: `${last.text}${text}`, ends: /[.!?…]/u.test(text) };
      continue;
    }
    if (text === '') continue;
    const { start, end } = timesAt(at, row, unit);
    if (start === undefined) {
      notes.add(`the word "${brief(text)}" has no sound start, so it was left out`);
      continue;
    }
    const [word] = recognisedWords({ text, tokens: [], timestamps: [] }, lasting({ text, start, entry: row }));
    words.push({ text, start, end: Math.max(start, end ?? word?.end ?? start), ends: /[.!?…]["'”’)]*$/u.test(text) });
  }
  const sorted = words.toSorted((a, b) => a.start - b.start);
  return sorted.map((word, i) => ({
    ...word,
    end: Math.min(word.end, Math.max(word.start, sorted[i + 1]?.start ?? word.end)),
  }));
}

function queries({ start, end, length, text }: Paths) {
  const query = (path: string | undefined) => (path === undefined ? undefined : known(path));
  return { start: query(start), end: query(end), length: query(length), text: query(text) };
}

type Queries = ReturnType<typeof queries>;

/** What is said in an entry or a word, on one line; empty where that is no text. */
function textAt(at: Queries, value: JSONValue): string {
  const said = valueAt(at.text, value);
  return typeof said === 'string' ? said.replaceAll(/\s+/g, ' ').trim() : '';
}

/** When it begins and ends, s, as far as it says so. */
function timesAt(
  at: Queries,
  value: JSONValue,
  unit: TranscriptMapping['unit'],
): { start: number | undefined; end: number | undefined } {
  const start = secondsOf(valueAt(at.start, value), unit);
  const length = secondsOf(valueAt(at.length, value), unit);
  const sum = start === undefined || length === undefined ? undefined : start + length;
  return { start, end: secondsOf(valueAt(at.end, value), unit) ?? sum };
}

/** Paths are compiled once, though they are asked of each word. */
const known = remembered(100, (path: string) => path, compile);

function valueAt(query: JSONPathQuery | undefined, value: JSONValue): JSONValue | undefined {
  return query?.query(value).values()[0];
}

/** A time in seconds; nothing where it is none. */
function secondsOf(value: JSONValue | undefined, unit: TranscriptMapping['unit']): number | undefined {
  if (unit === 'clock') {
    const read = typeof value === 'string' ? captionTime(value.trim()) : undefined;
    return read?.ok ? read.value.at / TICKS_PER_SECOND : undefined;
  }
  const number =
    typeof value === 'number'
      ? value
      : typeof value === 'string' && /^\s*\d+(?:\.\d+)?\s*(?:s|ms)?\s*$/.test(value)
        ? Number.parseFloat(value)
        : Number.NaN;
  const seconds = unit === 'milliseconds' ? number / 1000 : number;
  return seconds >= 0 && seconds < LATEST ? seconds : undefined;
}

/** What a value holds, in a few words. */
function outline(value: JSONValue): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value !== 'object' || value === null) return brief(JSON.stringify(value));
  const keys = Object.keys(value);
  const named = keys.slice(0, 8).map((key) => JSON.stringify(brief(key)));
  return keys.length === 0 ? 'nothing' : `${named.join(', ')}${keys.length > 8 ? ', …' : ''}`;
}
