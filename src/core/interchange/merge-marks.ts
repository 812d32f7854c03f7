import type { Lesson, Passage, Recording, Shop } from '../model/index.ts';
import { plural } from '../read/index.ts';
import { fail, ok, type Parsed, type Ticks, toProgramme } from '../time/index.ts';
import { elementText, insertBelowHeading, insertPassages, type NewPassage, setAttributes } from '../write/index.ts';
import type { ImportedMark } from './imported.ts';
import { knownPassages } from './known-passages.ts';
import { momentText } from './moment-text.ts';

type Merged = Parsed<{ file: string; text: string; words: readonly string[] }>;

/** More chapters and steps than any lesson has; a file that names more is not one of chapters. */
const MOST_MARKS = 500;

/**
 * Marks merged into a lesson by id, then by title and time: a known chapter or step gets its cue, a new one its place in time, all else stays.
 *
 * @param precision ticks; a time nearer than this to the one that is there is the same
 * @param wanted left out: the one lesson of the recording, or a new one
 */
export function mergeMarks(
  marks: readonly ImportedMark[],
  precision: number,
  recording: Recording,
  shop: Shop,
  texts: ReadonlyMap<string, string>,
  wanted?: Lesson,
): Merged {
  if (marks.length > MOST_MARKS)
    return fail(
      `the file names ${marks.length} chapters and steps, more than a lesson can have`,
      'export chapters, not every mark or caption',
    );
  const users = shop.lessons.filter((lesson) => lesson.recording === recording.id);
  const lesson = wanted ?? (users.length === 1 ? users[0] : undefined);
  if (lesson) return intoLesson(marks, precision, lesson, recording, texts);
  if (users.length > 1)
    return fail(
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
    return fail('a lesson is about a machine, and there is none yet', 'write one: liftside new machine <id>');
  if (texts.has(file)) return fail(`${file} is there already, but cannot be read`, 'liftside check says why');
  const head = `---\ntitle: ${JSON.stringify(recording.title)}\nrecording: ${recording.id}\nmachine: ${machine.id}\n---\n`;
  const text = insertPassages(
    head,
    marks.map((mark) => passage(mark, recording)),
  );
  if (!text.ok) return text;
  const others = machines.length > 1 ? `; of ${plural(machines.length, 'machine')} it names ${machine.id}` : '';
  return ok({ file, text: text.value, words: [`a new lesson ${recording.id} with ${tally(marks)}${others}`] });
}

function tally(marks: readonly ImportedMark[]): string {
  const chapters = marks.filter(({ kind }) => kind === 'chapter').length;
  return [
    ...(chapters > 0 ? [plural(chapters, 'chapter')] : []),
    ...(marks.length > chapters ? [plural(marks.length - chapters, 'step')] : []),
  ].join(' and ');
}

/** A change at an offset of the lesson as it was; done from the last to the first, none moves another. */
interface Change {
  readonly at: number;
  readonly make: (text: string) => Parsed<string>;
}

function intoLesson(
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
  const known = knownPassages(lesson);
  const order = lesson.chapters.flatMap((chapter) => [
    { one: chapter as Passage, depth: 2 },
    ...chapter.steps.map((one) => ({ one: one as Passage, depth: 3 })),
  ]);
  const changes: Change[] = [];
  const fresh = new Map<number | undefined, ImportedMark[]>();
  let moved = 0;
  let same = 0;
  let inNewChapter: number | undefined | false = false;
  const within: string[] = [];
  for (const mark of marks) {
    const found = known(mark);
    if (found) {
      inNewChapter = false;
      const change = cueChange(found, mark, mark.precision ?? precision, recording, shift);
      if (change) changes.push(change);
      if (change) moved++;
      else same++;
      continue;
    }
    const next: number | undefined =
      mark.kind === 'step' && inNewChapter !== false ? inNewChapter : before(order, mark, shift);
    if (mark.kind === 'chapter') {
      inNewChapter = next;
      const passed = order.find(
        ({ one }) =>
          one.cue && one.cue.at > mark.at && one.place.start.offset + shift < (next ?? Number.POSITIVE_INFINITY),
      );
      if (passed)
        within.push(
          `"${mark.title}" begins before "${passed.one.title}", which stands above it: move the heading, or make it a step with ###`,
        );
    }
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
  return ok({
    file,
    text,
    words: [
      `lesson ${lesson.id}: ${[
        ...(added.length > 0 ? [`${tally(added)} new`] : []),
        ...(moved > 0 ? [`${plural(moved, 'cue')} set`] : []),
        ...(same > 0 ? [`${same} as before`] : []),
      ].join(', ')}`,
      ...within,
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
