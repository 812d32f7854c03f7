import { XMLParser } from 'fast-xml-parser';
import { captionWords, readCaptions } from '../read/index.ts';
import {
  type EditList,
  fail,
  ok,
  type Parsed,
  parseClockTime,
  TICKS_PER_SECOND,
  type Ticks,
  ticks,
  toRecording,
} from '../time/index.ts';
import { LEAST_SECONDS } from './chapter-list.ts';
import { brief, type Imported, type ImportedMark, MOST_EVENTS, MOST_TEXT, Notes } from './imported.ts';

/** A chapter or step on the clock of the file it comes from. */
interface Timed {
  readonly kind: ImportedMark['kind'];
  readonly title: string;
  readonly id?: string;
  readonly start: number;
  readonly end?: number;
  /** A time this near is the same, ticks. */
  readonly loose?: number;
}

/** Files keep whole milliseconds. */
const ROUNDING = TICKS_PER_SECOND / 1000;

/** Which clock the times of a file are on. */
export type FileClock = { readonly clock: 'recording' } | { readonly clock: 'programme'; readonly edit: EditList };

/** A WebVTT chapters or metadata track: a chapter for each cue; a cue inside another one is its step. */
export function readVttChapters(file: string, text: string, clock: FileClock): Parsed<Imported> {
  const { captions, diagnostics } = readCaptions(file, text);
  const notes = new Notes();
  for (const { message } of diagnostics) notes.add(message);
  let outer = -1;
  const timed = captions
    .toSorted((a, b) => a.at.start - b.at.start || b.at.end - a.at.end)
    .map(({ id, at, text: words, markup }): Timed => {
      const inside = at.end <= outer;
      if (!inside) outer = at.end;
      const said = metadata(markup);
      return {
        kind: said?.kind ?? (inside ? 'step' : 'chapter'),
        title: said?.title ?? words,
        ...((said?.id ?? id) && { id: said?.id ?? id }),
        start: at.start,
        end: at.end,
      };
    });
  return marksOf(timed, clock, notes);
}

/** The title, kind and id that a metadata cue of ours holds as JSON. */
function metadata(markup: string): Pick<ImportedMark, 'kind' | 'title' | 'id'> | undefined {
  if (!markup.startsWith('{')) return undefined;
  try {
    const said = JSON.parse(markup) as { kind?: unknown; title?: unknown; id?: unknown };
    return typeof said.title === 'string'
      ? {
          kind: said.kind === 'step' ? 'step' : 'chapter',
          title: said.title,
          ...(typeof said.id === 'string' && { id: said.id }),
        }
      : undefined;
  } catch {
    return undefined;
  }
}

/** A list with one `0:00 Title` a line; lines without a time are left out and told. */
export function readChapterList(text: string, clock: FileClock): Parsed<Imported> {
  if (text.length > MOST_TEXT) return fail('the file is too long for a list of chapters', 'take the list alone');
  const notes = new Notes();
  const timed: Timed[] = [];
  const lines = text.split(/\r\n|\r|\n/, MOST_EVENTS + 1);
  if (lines.length > MOST_EVENTS) notes.add(`only the first ${MOST_EVENTS} lines were read`);
  for (const line of lines.slice(0, MOST_EVENTS)) {
    const match = /^\s*[([]?((?:\d{1,4}:)?\d{1,3}:\d\d(?:[.,]\d{1,9})?)[)\]]?\s*(?:[-–—|:]\s*)?(\S.{0,300})?\s*$/.exec(
      line.slice(0, 400),
    );
    const time = match && parseClockTime(match[1] ?? '');
    if (time?.ok)
      timed.push({
        ...{ kind: 'chapter', title: match?.[2]?.trim() ?? 'Untitled', start: time.value },
        // Such a list has to begin at 0:00, whenever its first chapter does.
        ...(time.value === 0 && { loose: LEAST_SECONDS * TICKS_PER_SECOND }),
      });
    else if (line.trim() !== '')
      notes.add(time && !time.ok ? time.problem : `no time in "${brief(line)}", so it was left out`);
  }
  return marksOf(timed, clock, notes, TICKS_PER_SECOND);
}

/** Matroska chapters as XML: atoms become chapters, atoms inside them steps. */
export function readMkvChapters(text: string, clock: FileClock): Parsed<Imported> {
  if (text.length > MOST_TEXT) return fail('the file is too long for chapters', 'take the chapters alone');
  const notes = new Notes();
  const timed: Timed[] = [];
  let tree: unknown;
  try {
    tree = new XMLParser({ parseTagValue: false, processEntities: true }).parse(text);
  } catch (error) {
    return fail(
      `the file is not sound XML: ${brief(error instanceof Error ? error.message : String(error))}`,
      'export the chapters again',
    );
  }
  const editions = many(field(field(tree, 'Chapters'), 'EditionEntry'));
  if (editions.length === 0)
    return fail('the file holds no Matroska chapters', 'it begins with <Chapters> and an <EditionEntry>');
  if (editions.length > 1) notes.add(`the first of ${editions.length} editions was taken`);
  const visit = (atoms: readonly unknown[], depth: number) => {
    if (atoms.length > MOST_EVENTS) notes.add(`only the first ${MOST_EVENTS} of ${atoms.length} atoms were read`);
    for (const atom of atoms.slice(0, MOST_EVENTS)) {
      const start = nanoseconds(field(atom, 'ChapterTimeStart'));
      const end = nanoseconds(field(atom, 'ChapterTimeEnd'));
      const title = String(field(many(field(atom, 'ChapterDisplay'))[0], 'ChapterString') ?? 'Untitled');
      if (start === undefined) notes.add(`"${brief(title)}" has no start, so it was left out`);
      else timed.push({ kind: depth === 0 ? 'chapter' : 'step', title, start, ...(end === undefined ? {} : { end }) });
      const inner = many(field(atom, 'ChapterAtom'));
      if (depth < 2) visit(inner, depth + 1);
      else if (inner.length > 0) notes.add(`chapters deeper than steps were left out, under "${brief(title)}"`);
    }
  };
  visit(many(field(editions[0], 'ChapterAtom')), 0);
  return marksOf(timed, clock, notes);
}

/** Chapters of an FFMETADATA1 file. */
export function readFfmetadata(text: string, clock: FileClock): Parsed<Imported> {
  if (text.length > MOST_TEXT) return fail('the file is too long for chapters', 'take the chapters alone');
  const notes = new Notes();
  const timed: Timed[] = [];
  const sections = text.split(/^\[CHAPTER\][ \t]*\r?$/m, MOST_EVENTS + 2).slice(1);
  if (sections.length > MOST_EVENTS) notes.add(`only the first ${MOST_EVENTS} chapters were read`);
  for (const section of sections.slice(0, MOST_EVENTS)) {
    const own = section.split(/^\[(?!CHAPTER)/m)[0] ?? '';
    const values = new Map<string, string>();
    for (const line of own.matchAll(/^((?:[^=;#\\\n]|\\.){1,100})=((?:[^\\\n]|\\[\s\S]){0,2000})$/gm))
      values.set((line[1] ?? '').toLowerCase(), (line[2] ?? '').replaceAll(/\\([\s\S])/g, '$1').replace(/\r$/, ''));
    const [numerator = 1, denominator = 1e9] = (values.get('timebase') ?? '1/1000000000').split('/').map(Number);
    const moment = (key: string) => Math.round((Number(values.get(key)) * numerator * TICKS_PER_SECOND) / denominator);
    const [start, end] = [moment('start'), moment('end')];
    if (Number.isSafeInteger(start) && start >= 0)
      timed.push({
        kind: 'chapter',
        title: values.get('title')?.trim() || 'Untitled',
        start,
        ...(Number.isSafeInteger(end) ? { end } : {}),
      });
    else notes.add(`a chapter "${brief(values.get('title') ?? 'untitled')}" has no sound START, so it was left out`);
  }
  return marksOf(timed, clock, notes);
}

function marksOf(timed: readonly Timed[], clock: FileClock, notes: Notes, precision = ROUNDING): Parsed<Imported> {
  let outer: Timed | undefined;
  const marks = timed.slice(0, MOST_EVENTS).flatMap(({ kind, title, id, start, end, loose }, i): ImportedMark[] => {
    const at = moment(start, clock, 'after');
    if (kind === 'chapter') outer = timed[i];
    // An end where the next one starts, or the chapter ends, goes without saying.
    const said = Math.min(timed[i + 1]?.start ?? Number.POSITIVE_INFINITY, outer?.end ?? Number.POSITIVE_INFINITY);
    const until =
      kind === 'step' && end !== undefined && end < said - ROUNDING ? moment(end, clock, 'before') : undefined;
    const plain = captionWords(title).replaceAll(/\s+/g, ' ').trim() || 'Untitled';
    if (at === undefined) {
      notes.add(`"${brief(plain)}" lies past the end of the programme, so it was left out`);
      return [];
    }
    return [
      {
        kind,
        title: plain,
        ...(id && { id }),
        ...(loose !== undefined && { precision: loose }),
        at,
        ...(until !== undefined && until > at ? { until } : {}),
      },
    ];
  });
  if (marks.length === 0)
    return fail('the file holds no chapter', notes.all()[0] ?? 'a chapter has a time and a title');
  return ok({ marks, precision, notes: notes.all() });
}

function moment(at: number, clock: FileClock, leaning: 'before' | 'after'): Ticks<'recording'> | undefined {
  if (!Number.isSafeInteger(at) || at < 0) return undefined;
  if (clock.clock === 'recording') return ticks(at);
  const length = clock.edit.reduce((sum, { start, end }) => sum + (end - start), 0);
  return leaning === 'after' && at >= length
    ? undefined
    : toRecording(clock.edit, ticks(Math.min(at, length)), leaning);
}

/** `hh:mm:ss.nnnnnnnnn` */
function nanoseconds(value: unknown): number | undefined {
  const match = /^(\d{1,4}):(\d\d):(\d\d)(?:\.(\d{1,9}))?$/.exec(String(value ?? '').trim());
  if (!match) return undefined;
  const seconds = (Number(match[1]) * 60 + Number(match[2])) * 60 + Number(match[3]);
  return seconds * TICKS_PER_SECOND + Math.round(Number(`0.${match[4] ?? '0'}`) * TICKS_PER_SECOND);
}

function field(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Readonly<Record<string, unknown>>)[key]
    : undefined;
}

function many(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : value === undefined || value === '' ? [] : [value];
}
