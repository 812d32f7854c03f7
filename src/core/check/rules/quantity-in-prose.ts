import { findQuantities, type HeardQuantity, isSpanish, measuresInSpanish } from '../../heard/index.ts';
import { type Lesson, type Place, type Prose, placeOf, type Read, type Words } from '../../model/index.ts';
import { aKind } from '../../spec/index.ts';
import type { AroundLessons } from '../alone.ts';
import { type Finding, rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { passagesOf } from './find.ts';

export default rule({
  id: 'quantity-in-prose',
  severity: 'warning',
  why: 'A value written by hand stays as it is when the table changes, and shows neither tolerance nor source.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\n\nGo to 98 newton metres.'),
  says: '12:7 "98 newton metres" is a torque written by hand',
  good: SOUND,

  *lesson(shop) {
    for (const each of shop.lessons) yield* inLesson(each, shop.hear ?? findQuantities);
    for (const { lesson: each, language } of shop.translations) yield* inLesson(each, finderFor(language));
  },

  *recording({ recordings }) {
    for (const each of recordings) yield* inValues(each, [['title']]);
  },

  *machine({ machines }) {
    for (const spec of machines.flatMap(({ specs }) => specs))
      yield* inValues(spec, [['title'], ['note']], { help: OF_A_ROW, texts: spec.written });
  },

  around: (shop) => inOthers(shop),
});

/** What is found in a text: its place in it, its words, and what it measures. */
type Found = Pick<HeardQuantity, 'start' | 'end' | 'text' | 'kind'>;
type Finder = (text: string) => readonly Found[];

/** Figures with a sign for their unit are found in every language; of units in words only those of some. */
function finderFor(language: string): Finder {
  if (!isSpanish(language)) return findQuantities;
  return (text) => {
    const found: readonly Found[] = findQuantities(text);
    const more = measuresInSpanish(text).filter(({ start, end }) =>
      found.every((each) => end <= each.start || each.end <= start),
    );
    return [...found, ...more].toSorted((a, b) => a.start - b.start);
  };
}

function* inLesson(lesson: Lesson, find: Finder): Generator<Finding> {
  yield* inValues(lesson, [['title'], ['summary'], ['level']], { find });
  yield* inProse(lesson.intro, find);
  for (const passage of passagesOf(lesson)) {
    for (const found of inTitle(passage.title, find)) yield findingOf(found, passage.place);
    yield* inProse(passage.prose, find);
    yield* inProse(passage.labels, find);
    for (const { why = '', place } of passage.keyPoints) for (const found of find(why)) yield findingOf(found, place);
  }
}

type Path = readonly (string | number)[];

/** What is written by hand round the lessons: in classes, corrections and the kit. */
function* inOthers({ info, classes, corrections, kit, words, wordsIn }: AroundLessons): Generator<Finding> {
  for (const each of classes) {
    const blocks = each.blocks.flatMap(({ treatments }, index): Path[] => [
      ['blocks', index, 'title'],
      ['blocks', index, 'note'],
      ...treatments.map((_, at): Path => ['blocks', index, 'treatments', at, 'title']),
    ]);
    const bring = (each.bring ?? []).map((_, index): Path => ['bring', index]);
    // How long a class or a block lasts is no value of a machine.
    yield* inValues(each, [['title'], ['summary'], ...bring, ...blocks], { counts: (found) => found.kind !== 'time' });
  }
  yield* inValues(info, [['about']]);
  for (const each of corrections) yield* inValues(each, [['note']]);
  const named = (['tools', 'parts', 'supplies', 'protective'] as const).flatMap((group) =>
    Object.keys(kit[group] ?? {}).map((id): Path => [group, id]),
  );
  yield* inValues(
    kit,
    named.map((path) => [...path, 'hazard']),
  );
  // A thing is named by its size, its volts, its teeth; its scale has a key of its own.
  yield* inValues(
    kit,
    named.map((path) => [...path, 'title']),
    { counts: ({ kind }) => kind === 'torque', help: OF_A_TOOL },
  );
  yield* inGlossary(words, findQuantities);
  for (const [language, own] of wordsIn ?? []) yield* inGlossary(own, finderFor(language));
}

/** What a word means is shown wherever the word stands. */
function* inGlossary(words: Words, find: Finder): Generator<Finding> {
  yield* inValues(
    words,
    (words.words ?? []).map((_, index) => ['words', index, 'meaning']),
    { help: OF_A_WORD, find },
  );
}

const CITED = 'leave the number out; a step cites the row of the spec table with <Spec of="…" />';
const OF_A_ROW = 'leave the number out: the row says its value once; what else is a value has a row of its own';
const OF_A_WORD = 'leave the number out: a meaning stands beside every use of the word, and no table keeps it right';
const OF_A_TOOL = 'leave the number out; `range` says from where to where its scale goes';

interface Looking {
  /** Which of them are told; all when left out. */
  readonly counts?: (found: Found) => boolean;
  readonly help?: string;
  /** Where the texts are kept; the thing itself when left out. */
  readonly texts?: unknown;
  readonly find?: Finder;
}

/** Quantities in some texts of a read thing, each told where the text stands. */
function* inValues(
  read: Read,
  paths: readonly Path[],
  { counts = () => true, help = CITED, texts = read, find = findQuantities }: Looking = {},
): Generator<Finding> {
  for (const path of paths) {
    const text = path.reduce<unknown>((value, key) => Object(value)[key], texts);
    if (typeof text !== 'string') continue;
    const found = path.at(-1) === 'title' ? inTitle(text, find) : find(text);
    for (const heard of found.filter(counts)) yield findingOf(heard, placeOf(read, ...path), help);
  }
}

/** The number that a title ends with counts it: `Front brake pads 2`. */
function inTitle(title: string, find: Finder): readonly Found[] {
  return find(title).filter(({ end, text }) => end < title.length || !/^\d+$/.test(text));
}

function findingOf(heard: Found, place: Place, help = CITED): Finding {
  return {
    place,
    message: `"${heard.text.replaceAll(/\s+/g, ' ')}" is ${aKind(heard.kind)} written by hand`,
    help,
  };
}

function* inProse(prose: readonly Prose[], find: Finder): Generator<Finding> {
  for (const run of runs(prose))
    for (const found of find(run.map(({ text }) => text).join(''))) yield findingOf(found, within(run, found));
}

/** Marks of emphasis: `**98** N·m` is one quantity in two runs of prose. */
const MARKS = 3;

/** Runs of prose that only marks of emphasis part. */
function runs(prose: readonly Prose[]): Prose[][] {
  const joined: Prose[][] = [];
  for (const each of prose) {
    const before = joined.at(-1)?.at(-1);
    const gap = before ? each.place.start.offset - before.place.end.offset : Infinity;
    if (gap >= 0 && gap <= MARKS && before?.place.end.line === each.place.start.line) joined.at(-1)?.push(each);
    else joined.push([each]);
  }
  return joined;
}

/** The place of some words in a run. */
function within(run: readonly Prose[], { start, end }: Found): Place {
  /** What starts where one run of prose ends stands in the next one. */
  const point = (at: number, starts: boolean) => {
    let from = 0;
    const own = run.find(({ text }) => {
      if (starts ? at < from + text.length : at <= from + text.length) return true;
      from += text.length;
      return false;
    });
    const { text = '', place } = own ?? {};
    const lines = text.slice(0, at - from).split('\n');
    const { line = 1, column = 1, offset = 0 } = place?.start ?? {};
    return {
      line: line + lines.length - 1,
      column: (lines.at(-1)?.length ?? 0) + (lines.length === 1 ? column : 1),
      offset: offset + at - from,
    };
  };
  const file = run[0]?.place.file ?? '';
  return { file, start: point(start, true), end: point(end, false) };
}
