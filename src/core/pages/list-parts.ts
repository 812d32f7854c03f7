import type { Lesson, Machine, Shop } from '../model/index.ts';
import { rowsById } from '../programme/index.ts';
import { groupBy } from '../time/index.ts';
import { languageOfLesson } from './languages.ts';

/** A page of a list that is too long for one: some lessons of one machine, by title. */
export interface ListPart {
  /** The last part of its address, such as `tarn-420-3`. */
  readonly name: string;
  /** Counted from 1 among those of its machine. */
  readonly number: number;
  readonly machine: { readonly id: string; readonly title: string };
  readonly stretches: readonly Stretch[];
}

/** Steps of a lesson, counted through all its chapters: all of them, unless they are more than a page bears. */
export interface Stretch {
  readonly lesson: string;
  readonly from: number;
  /** The first one that is not in it. */
  readonly to: number;
}

/** What the rows of a page may weigh in bytes: with head, styles and the bar, 40 kB, it stays below 150 kB. */
const PART_BYTES = 105_000;
/** A list of at most so many bytes is one page, as that of a small shop. */
const WHOLE_BYTES = 95_000;

/**
 * The pages of the step index of a large shop; none where one page bears all its steps and specs.
 *
 * What stands on which page is the same in every language: it is decided by the shop in the language at the root.
 */
export function stepsParts(shop: Shop): ListPart[] {
  return known(STEPS, shop, () => {
    const weights = shownLessons(shop).map((lesson) => ({ lesson, steps: stepWeights(shop, lesson) }));
    const specs = shop.machines.reduce((sum, { specs }) => sum + specs.length * SPEC_BYTES, 0);
    const whole = weights.reduce((sum, { steps }) => sum + total(steps), specs);
    if (whole <= WHOLE_BYTES) return [];
    return inParts(
      shop,
      weights.flatMap(({ lesson, steps }) => stretchesOf(lesson, steps)),
    );
  });
}

/** The pages of the lessons of a large shop, which its front page leads to; none where the front page bears them all. */
export function lessonsParts(shop: Shop): ListPart[] {
  return known(LESSONS, shop, () => {
    const cards = shownLessons(shop).map((lesson) => ({
      ...{ lesson: lesson.id, from: 0, to: lesson.chapters.reduce((sum, { steps }) => sum + steps.length, 0) },
      weight: cardWeight(lesson),
    }));
    return total(cards.map(({ weight }) => weight)) <= WHOLE_BYTES ? [] : inParts(shop, cards);
  });
}

/**
 * A page of a list, and how many its machine has.
 *
 * @throws RangeError when there is none of that name
 */
export function partAt(parts: readonly ListPart[], name: string | undefined): { part: ListPart; pages: number } {
  const part = parts.find((each) => each.name === name);
  if (!part) throw new RangeError(`the list has no page ${name}`);
  return { part, pages: parts.filter(({ machine }) => machine.id === part.machine.id).length };
}

/** A page of a list as the page before it names it. */
export interface PartNamed {
  readonly name: string;
  readonly lessons: number;
  readonly first: LessonNamed;
  /** Where it is another one than the first. */
  readonly last?: LessonNamed;
}

interface LessonNamed {
  readonly title: string;
  /** That it is written in, BCP 47. */
  readonly language: string;
}

/** The pages of a list by machine, with their first and last lessons as the shop of a page's language calls them. */
export function partsNamed(
  shop: Shop,
  parts: readonly ListPart[],
): readonly { readonly machine: string; readonly parts: readonly PartNamed[] }[] {
  const lessons = new Map(shop.lessons.map((lesson) => [lesson.id, lesson]));
  const named = (id: string): LessonNamed => {
    const lesson = lessons.get(id);
    return lesson
      ? { title: lesson.title, language: languageOfLesson(shop, lesson) }
      : { title: id, language: shop.locale.tag };
  };
  return [...groupBy(parts, ({ machine }) => machine.id).values()].map((own) => ({
    machine: own[0]?.machine.title ?? '',
    parts: own.map(({ name, stretches }) => {
      const ids = [...new Set(stretches.map(({ lesson }) => lesson))];
      const [first = ''] = ids;
      const last = ids.at(-1) ?? first;
      return { name, lessons: ids.length, first: named(first), ...(last === first ? {} : { last: named(last) }) };
    }),
  }));
}

const STEPS = new WeakMap<Shop, ListPart[]>();
const LESSONS = new WeakMap<Shop, ListPart[]>();

function known(parts: WeakMap<Shop, ListPart[]>, shop: Shop, make: () => ListPart[]): ListPart[] {
  const found = parts.get(shop) ?? make();
  parts.set(shop, found);
  return found;
}

interface Weighed extends Stretch {
  /** bytes */
  readonly weight: number;
}

function inParts(shop: Shop, stretches: readonly Weighed[]): ListPart[] {
  const lessons = new Map(shop.lessons.map((lesson) => [lesson.id, lesson]));
  const byLetter = new Intl.Collator(shop.locale.tag, { numeric: true });
  const title = (id: string) => lessons.get(id)?.title ?? id;
  const groups = groupBy(stretches, ({ lesson }) => lessons.get(lesson)?.machine ?? '');
  const machines = [...groups.keys()].map((id) => ({ id, title: titleOf(shop.machines, id) }));
  return machines
    .toSorted((a, b) => byLetter.compare(a.title, b.title))
    .flatMap((machine) => {
      const sorted = (groups.get(machine.id) ?? []).toSorted((a, b) =>
        a.lesson === b.lesson ? a.from - b.from : byLetter.compare(title(a.lesson), title(b.lesson)),
      );
      return filled(sorted).map((part, index) => ({
        ...{ name: `${machine.id}-${index + 1}`, number: index + 1, machine },
        stretches: part.map(({ lesson, from, to }) => ({ lesson, from, to })),
      }));
    });
}

/** As many to a page as it bears. */
function filled(stretches: readonly Weighed[]): Weighed[][] {
  const parts: Weighed[][] = [];
  let room = 0;
  for (const stretch of stretches) {
    const last = parts.at(-1);
    if (last && stretch.weight <= room) last.push(stretch);
    else {
      parts.push([stretch]);
      room = PART_BYTES;
    }
    room -= stretch.weight;
  }
  return parts;
}

/** A lesson stays together where a page bears it. */
function stretchesOf({ id }: Lesson, steps: readonly number[]): Weighed[] {
  const stretches: Weighed[] = [];
  let open: Weighed = { lesson: id, from: 0, to: 0, weight: 0 };
  for (const [at, weight] of steps.entries()) {
    if (open.to > open.from && open.weight + weight > PART_BYTES) {
      stretches.push(open);
      open = { lesson: id, from: at, to: at, weight: 0 };
    }
    open = { ...open, to: at + 1, weight: open.weight + weight };
  }
  return open.to > open.from ? [...stretches, open] : stretches;
}

// How heavy rows and cards are was seen on the pages of the demo; a test holds the pages of a large shop to 150 kB.
const SPEC_BYTES = 750;
const ROW_BYTES = 560;
const CITED_BYTES = 200;
const VALUE_BYTES = 380;
const CARD_BYTES = 850;
const CHAPTER_BYTES = 130;
/** In UTF-8, at most. */
const bytes = (text: string) => text.length + 2 * (text.match(/[^ -~]/g)?.length ?? 0);

function stepWeights(shop: Shop, { title, machine, chapters }: Lesson): number[] {
  const rows = rowsOf(shop.machines.find(({ id }) => id === machine));
  return chapters.flatMap((chapter) =>
    chapter.steps.map((step) => {
      const cited = [...new Set(step.cites.map(({ spec }) => spec))];
      const values = cited.reduce((sum, id) => sum + CITED_BYTES + (rows.get(id)?.length ?? 0) * VALUE_BYTES, 0);
      return ROW_BYTES + 2 * bytes(step.title) + bytes(title) + bytes(chapter.title) + values;
    }),
  );
}

const ROWS = new WeakMap<Machine, ReturnType<typeof rowsById>>();

function rowsOf(machine: Machine | undefined): ReturnType<typeof rowsById> {
  if (!machine) return new Map();
  const found = ROWS.get(machine) ?? rowsById(machine);
  ROWS.set(machine, found);
  return found;
}

function cardWeight({ title, summary = '', chapters }: Lesson): number {
  const list = chapters.reduce((sum, chapter) => sum + CHAPTER_BYTES + 2 * bytes(chapter.title), 0);
  return CARD_BYTES + bytes(title) + bytes(summary) + list;
}

function shownLessons({ lessons }: Shop): readonly Lesson[] {
  return lessons.filter(({ draft }) => !draft);
}

function titleOf(machines: readonly Machine[], id: string): string {
  return machines.find((machine) => machine.id === id)?.title ?? id;
}

function total(weights: readonly number[]): number {
  return weights.reduce((sum, weight) => sum + weight, 0);
}
