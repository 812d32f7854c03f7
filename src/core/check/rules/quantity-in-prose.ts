import { findQuantities, type HeardQuantity } from '../../heard/index.ts';
import { type Passage, type Place, type Prose, placeOf, type Read, type Shop } from '../../model/index.ts';
import { kindInWords } from '../../spec/index.ts';
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
    for (const each of [...shop.lessons, ...shop.translations.map(({ lesson }) => lesson)]) {
      yield* inValues(each, [['title'], ['summary'], ['level']]);
      yield* inProse(each.intro);
      for (const passage of passagesOf(each)) {
        yield* inTitle(passage);
        yield* inProse(passage.prose);
        yield* inProse(passage.labels);
        for (const { why = '', place } of passage.keyPoints)
          for (const heard of findQuantities(why)) yield findingOf(heard, place);
      }
    }
  },

  *recording({ recordings }) {
    for (const each of recordings) yield* inValues(each, [['title']]);
  },

  check: (shop) => aroundLessons(shop),
});

type Path = readonly (string | number)[];

/** What is written by hand round the lessons: in classes, corrections, rows and the kit. */
function* aroundLessons({ info, classes, corrections, kit, machines }: Shop): Generator<Finding> {
  for (const each of classes) {
    const blocks = each.blocks.flatMap(({ treatments }, index): Path[] => [
      ['blocks', index, 'title'],
      ['blocks', index, 'note'],
      ...treatments.map((_, at): Path => ['blocks', index, 'treatments', at, 'title']),
    ]);
    // How long a class or a block lasts is no value of a machine.
    yield* inValues(each, [['title'], ['summary'], ...blocks], (heard) => heard.kind !== 'time');
  }
  yield* inValues(info, [['about']]);
  for (const each of corrections) yield* inValues(each, [['note']]);
  for (const spec of machines.flatMap(({ specs }) => specs))
    yield* inValues(spec, [['title'], ['note']], undefined, OF_A_ROW, spec.written);
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
    ({ kind }) => kind === 'torque',
    OF_A_TOOL,
  );
}

const CITED = 'leave the number out; a step cites the row of the spec table with <Spec of="…" />';
const OF_A_ROW = 'leave the number out: the row says its value once; what else is a value has a row of its own';
const OF_A_TOOL = 'leave the number out; `range` says from where to where its scale goes';

/** Quantities in some texts of a read thing, each told where the text stands. @param texts where they are kept; the thing itself */
function* inValues(
  read: Read,
  paths: readonly Path[],
  counts: (heard: HeardQuantity) => boolean = () => true,
  help = CITED,
  texts: unknown = read,
): Generator<Finding> {
  for (const path of paths) {
    const text = path.reduce<unknown>((value, key) => Object(value)[key], texts);
    if (typeof text !== 'string') continue;
    for (const heard of findQuantities(text).filter(counts)) yield findingOf(heard, placeOf(read, ...path), help);
  }
}

function findingOf(heard: HeardQuantity, place: Place, help = CITED): Finding {
  return {
    place,
    message: `"${heard.text.replaceAll(/\s+/g, ' ')}" is ${article(kindInWords(heard.kind))} written by hand`,
    help,
  };
}

function article(noun: string): string {
  return `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
}

function* inTitle({ title, place }: Passage): Generator<Finding> {
  for (const heard of findQuantities(title)) yield findingOf(heard, place);
}

function* inProse(prose: readonly Prose[]): Generator<Finding> {
  for (const run of runs(prose))
    for (const heard of findQuantities(run.map(({ text }) => text).join('')))
      yield findingOf(heard, within(run, heard));
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
function within(run: readonly Prose[], { start, end }: HeardQuantity): Place {
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
