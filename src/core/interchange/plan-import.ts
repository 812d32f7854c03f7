import type { Lesson, Passage, Recording, Shop } from '../model/index.ts';
import { lessonTimes } from '../programme/index.ts';
import { slug } from '../read/index.ts';
import {
  diffInWords,
  type EditList,
  editList,
  type Landmark,
  type Parsed,
  parsed,
  parseMoment,
  printClockTime,
  range,
  refused,
  TICKS_PER_SECOND,
  type Ticks,
  timecodeAt,
  toProgramme,
} from '../time/index.ts';
import {
  elementText,
  insertBelowHeading,
  insertPassages,
  type NewPassage,
  type Plain,
  setAttributes,
  setYaml,
  setYamlList,
} from '../write/index.ts';
import { counted } from './format.ts';
import type { Imported, ImportedMark } from './imported.ts';
import { writeVtt } from './vtt.ts';

/** A content file with its new text. */
export interface PlannedText {
  /** Path relative to the content folder. */
  readonly file: string;
  readonly text: string;
}

/** What an import would do: texts to write, and that in words. */
export interface ImportPlan {
  readonly texts: readonly PlannedText[];
  readonly words: readonly string[];
}

/** More chapters and steps than any lesson has; a file that names more is not one of chapters. */
const MOST_MARKS = 500;

/**
 * Plans an import into a shop, without touching it: the edit list and captions into the recording, marks into a lesson,
 * merged by id. What the file does not name stays as it is.
 *
 * @param texts content texts as read
 * @param lesson where marks go; left out: the one lesson of the recording, or a new one
 */
export function planImport(
  imported: Imported,
  recording: Recording,
  shop: Shop,
  texts: ReadonlyMap<string, string>,
  lesson?: Lesson,
): Parsed<ImportPlan> {
  const made = new Map<string, string>();
  const words: string[] = [];
  const file = recording.origin.place.file;
  const precision = imported.precision ?? 1;
  if (imported.edit) {
    const edit = settled(imported.edit, recording, precision);
    const next = withEdit(texts.get(file) ?? '', edit, recording);
    if (!next.ok) return next;
    made.set(file, next.value);
    words.push(...editInWords(edit, recording, shop));
  }
  if (imported.captions) {
    const path = captionPath(recording);
    const { text, said } = mergedCaptions(imported.captions, recording);
    made.set(path, text);
    words.push(said);
    if (recording.written.captions !== path) {
      const named = setYaml(made.get(file) ?? texts.get(file) ?? '', ['captions'], path);
      if (!named.ok) return named;
      made.set(file, named.value);
    }
  }
  if (imported.marks && imported.marks.length > 0) {
    const merged = withMarks(imported.marks, precision, recording, shop, texts, lesson);
    if (!merged.ok) return merged;
    made.set(merged.value.file, merged.value.text);
    words.push(...merged.value.words);
  }
  const changed = [...made]
    .filter(([path, text]) => texts.get(path) !== text)
    .map(([path, text]) => ({ file: path, text }));
  return parsed({ texts: changed, words });
}

/** A point of the edit list as written, and its moment. */
interface Point {
  readonly text: string;
  readonly at: Ticks<'recording'>;
}

/** The points of the present edit list, to be kept where the file means the same frame. */
function pointsOf({ rate, startFrame, written }: Recording): { ins: Point[]; outs: Point[] } {
  const labelling = { startFrame, ...(rate ? { rate } : {}) };
  const points = (key: 'in' | 'out') =>
    (written.edit ?? []).flatMap((entry): Point[] => {
      const read = parseMoment(entry[key], labelling);
      return read.ok ? [{ text: entry[key], at: read.value }] : [];
    });
  return { ins: points('in'), outs: points('out') };
}

/** The edit list with every point that is there already, within the precision of the file, as it was. */
function settled(edit: EditList, recording: Recording, precision: number): EditList {
  const { ins, outs } = pointsOf(recording);
  const near = (points: readonly Point[], at: Ticks<'recording'>) =>
    points.find((point) => Math.abs(point.at - at) < precision)?.at ?? at;
  return editList(edit.map(({ start, end }) => range(near(ins, start), near(outs, end))));
}

/** Only ranges that differ are written anew; those that stay keep what else stands with them. */
function withEdit(text: string, edit: EditList, recording: Recording): Parsed<string> {
  const { ins, outs } = pointsOf(recording);
  const written = (points: readonly Point[], at: Ticks<'recording'>) =>
    points.find((point) => point.at === at)?.text ?? momentText(at, recording);
  const angles = new Map((recording.written.edit ?? []).map(({ in: start, out, angle }) => [`${start} ${out}`, angle]));
  const entries = edit.map(({ start, end }): Plain => {
    const entry = { in: written(ins, start), out: written(outs, end) };
    const angle = angles.get(`${entry.in} ${entry.out}`);
    return angle === undefined ? entry : { ...entry, angle };
  });
  return setYamlList(text, ['edit'], entries);
}

/** A clock time where that is exact, else the timecode of the frame. */
function momentText(at: number, { rate, startFrame }: Recording): string {
  return at % (TICKS_PER_SECOND / 1000) === 0 || !rate ? printClockTime(at) : timecodeAt(at, rate, startFrame);
}

function editInWords(edit: EditList, recording: Recording, shop: Shop): string[] {
  const parts = shop.lessons
    .filter((lesson) => lesson.recording === recording.id)
    .flatMap((lesson) => lessonTimes(lesson, recording).chapters)
    .flatMap(({ chapter, recording: at, steps }): Landmark[] => [
      { name: `chapter "${chapter.title}"`, at },
      ...steps.map(({ step, recording: inner }) => ({ name: `step "${step.title}"`, at: inner })),
    ]);
  const lines = recording.length === undefined && !recording.edited ? [] : diffInWords(recording.edit, edit, parts);
  const head = `the edit list of ${recording.id} keeps ${counted(edit.length, 'range')}`;
  return lines.length > 0 ? [head, ...lines] : [`${head}${recording.edited ? ', as before' : ''}`];
}

/** A WebVTT file that is named already, or a new one beside the footage. */
function captionPath({ id, captions }: Recording): string {
  return captions && /\.vtt$/i.test(captions.file) ? captions.file : `media/${id}.vtt`;
}

function mergedCaptions(
  incoming: NonNullable<Imported['captions']>,
  { captions }: Recording,
): { text: string; said: string } {
  const present = captions?.cues ?? [];
  const ids = new Map(incoming.flatMap((caption) => (caption.id ? [[caption.id, caption] as const] : [])));
  const shared = present.filter(({ id }) => id !== undefined && ids.has(id));
  const blocks = captions?.blocks ?? [];
  // Counters of SRT are no ids: they only say how many came before.
  const counters = [...ids.keys()].every((id) => /^\d+$/.test(id));
  if (shared.length === 0 || counters)
    return {
      text: writeVtt(incoming, blocks),
      said: `${counted(incoming.length, 'caption')}${present.length > 0 ? ` in place of ${present.length}` : ''}`,
    };
  const kept = present.filter(({ id }) => id === undefined || !ids.has(id));
  return {
    text: writeVtt([...kept, ...incoming], blocks),
    said: `${counted(incoming.length, 'caption')}: ${shared.length} changed by id, ${incoming.length - shared.length} new; ${kept.length} stay`,
  };
}

type Merged = Parsed<{ file: string; text: string; words: readonly string[] }>;

function withMarks(
  marks: readonly ImportedMark[],
  precision: number,
  recording: Recording,
  shop: Shop,
  texts: ReadonlyMap<string, string>,
  wanted?: Lesson,
): Merged {
  if (marks.length > MOST_MARKS)
    return refused(
      `the file names ${marks.length} chapters and steps, more than a lesson can have`,
      'export chapters, not every mark or caption',
    );
  const users = shop.lessons.filter((lesson) => lesson.recording === recording.id);
  const lesson = wanted ?? (users.length === 1 ? users[0] : undefined);
  if (lesson) return mergeMarks(marks, precision, lesson, recording, texts);
  if (users.length > 1)
    return refused(
      `several lessons use ${recording.id}: ${users.map(({ id }) => id).join(', ')}`,
      'name one of them with --into',
    );
  return newLesson(marks, recording, shop, texts);
}

function cueOf({ at, until }: ImportedMark, recording: Recording): { at: string; until: string | undefined } {
  return { at: momentText(at, recording), until: until === undefined ? undefined : momentText(until, recording) };
}

function passage(mark: ImportedMark, recording: Recording): NewPassage {
  return {
    depth: mark.kind === 'chapter' ? 2 : 3,
    title: mark.title,
    lines: [elementText('Cue', cueOf(mark, recording))],
  };
}

function newLesson(
  marks: readonly ImportedMark[],
  recording: Recording,
  { machines }: Shop,
  texts: ReadonlyMap<string, string>,
): Merged {
  const file = `lessons/${recording.id}.mdx`;
  const [machine] = machines;
  if (!machine)
    return refused('a lesson is about a machine, and there is none yet', 'write one: liftside new machine <id>');
  if (texts.has(file)) return refused(`${file} is there already, but cannot be read`, 'liftside check says why');
  const head = `---\ntitle: ${JSON.stringify(recording.title)}\nrecording: ${recording.id}\nmachine: ${machine.id}\n---\n`;
  const text = insertPassages(
    head,
    marks.map((mark) => passage(mark, recording)),
  );
  if (!text.ok) return text;
  const others = machines.length > 1 ? `; of ${counted(machines.length, 'machine')} it names ${machine.id}` : '';
  return parsed({ file, text: text.value, words: [`a new lesson ${recording.id} with ${tally(marks)}${others}`] });
}

function tally(marks: readonly ImportedMark[]): string {
  const chapters = marks.filter(({ kind }) => kind === 'chapter').length;
  return [
    ...(chapters > 0 ? [counted(chapters, 'chapter')] : []),
    ...(marks.length > chapters ? [counted(marks.length - chapters, 'step')] : []),
  ].join(' and ');
}

/** A change at an offset of the lesson as it was; done from the last to the first, none moves another. */
interface Change {
  readonly at: number;
  readonly make: (text: string) => Parsed<string>;
}

function mergeMarks(
  marks: readonly ImportedMark[],
  precision: number,
  lesson: Lesson,
  recording: Recording,
  texts: ReadonlyMap<string, string>,
): Merged {
  const { file } = lesson.origin.place;
  const source = texts.get(file) ?? '';
  // Places count without a byte order mark.
  const shift = source.startsWith('\uFEFF') ? 1 : 0;
  const known = new Map<string, Passage>();
  for (const chapter of lesson.chapters)
    for (const one of [chapter, ...chapter.steps]) if (!known.has(one.id)) known.set(one.id, one);
  const order = lesson.chapters.flatMap((chapter) => [
    { one: chapter as Passage, depth: 2 },
    ...chapter.steps.map((one) => ({ one: one as Passage, depth: 3 })),
  ]);
  const changes: Change[] = [];
  const fresh = new Map<number | undefined, ImportedMark[]>();
  let moved = 0;
  let same = 0;
  let inNewChapter: number | undefined | false = false;
  for (const mark of marks) {
    const found = known.get(slug(mark.title));
    if (found) {
      inNewChapter = false;
      const change = cueChange(found, mark, precision, recording, shift);
      if (change) changes.push(change);
      if (change) moved++;
      else same++;
      continue;
    }
    const next: number | undefined =
      mark.kind === 'step' && inNewChapter !== false ? inNewChapter : before(order, mark, shift);
    if (mark.kind === 'chapter') inNewChapter = next;
    fresh.set(next, [...(fresh.get(next) ?? []), mark]);
  }
  for (const [at, list] of fresh)
    changes.push({
      at: at ?? Number.MAX_SAFE_INTEGER,
      make: (text) =>
        insertPassages(
          text,
          list.map((mark) => passage(mark, recording)),
          at,
        ),
    });
  let text = source;
  for (const { make } of changes.toSorted((a, b) => b.at - a.at)) {
    const next = make(text);
    if (!next.ok) return next;
    text = next.value;
  }
  const added = [...fresh.values()].flat();
  return parsed({
    file,
    text,
    words: [
      `lesson ${lesson.id}: ${[
        ...(added.length > 0 ? [`${tally(added)} new`] : []),
        ...(moved > 0 ? [`${counted(moved, 'cue')} set`] : []),
        ...(same > 0 ? [`${same} as before`] : []),
      ].join(', ')}`,
    ],
  });
}

function cueChange(
  { cue, place }: Passage,
  mark: ImportedMark,
  precision: number,
  recording: Recording,
  shift: number,
): Change | undefined {
  const { at, until } = cueOf(mark, recording);
  if (!cue) {
    const heading = place.start.offset + shift;
    return { at: heading, make: (text) => insertBelowHeading(text, heading, elementText('Cue', { at, until })) };
  }
  const { edit } = recording;
  // Near in the programme is near enough: at a join the recording jumps between two moments that are shown as one.
  const same = (a: Ticks<'recording'>, b: Ticks<'recording'>) => {
    const [one, other] = [toProgramme(edit, a), toProgramme(edit, b)];
    return Math.abs(a - b) < precision || (!one.cut && !other.cut && Math.abs(one.at - other.at) < precision);
  };
  if (same(cue.at, mark.at) && (mark.until === undefined || (cue.until !== undefined && same(cue.until, mark.until))))
    return undefined;
  const element = cue.place.start.offset + shift;
  // An end that would come before the new start is worse than none.
  const stale = mark.until === undefined && cue.until !== undefined && cue.until <= mark.at;
  return {
    at: element,
    make: (text) => setAttributes(text, element, { at, ...(until !== undefined || stale ? { until } : {}) }),
  };
}

/** Offset of the first heading whose cue comes later: for a chapter only chapters count, for a step both. */
function before(
  order: readonly { one: Passage; depth: number }[],
  mark: ImportedMark,
  shift: number,
): number | undefined {
  const later = order.find(
    ({ one, depth }) => (mark.kind === 'step' || depth === 2) && one.cue !== undefined && one.cue.at > mark.at,
  );
  return later && later.one.place.start.offset + shift;
}
