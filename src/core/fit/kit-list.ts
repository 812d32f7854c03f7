import type { Kit, KitGroup, Lesson, Passage, Shop, ShopClass } from '../model/index.ts';
import type { ClassFit } from './fit-class.ts';
import type { LessonPart } from './plan/part-times.ts';
import { givenAs } from './plan/plan.ts';
import { headCount } from './plan/to-plan.ts';

/** One thing a class needs, counted. */
export interface KitItem {
  readonly group: KitGroup;
  readonly id: string;
  readonly title: string;
  readonly count: number;
  /** What the shop has; absent where it is not counted. */
  readonly have?: number;
  /** Of a torque wrench: its scale, as written in the kit. */
  readonly range?: string;
  /** Of a supply: how much each station needs, as written in the kit. */
  readonly amount?: string;
}

/** What to lay out for one block. */
export interface BlockKit {
  readonly block: string;
  readonly title: string;
  readonly items: readonly KitItem[];
}

export interface KitList {
  readonly blocks: readonly BlockKit[];
  /** The most that is needed at one time of what comes back, the sum of what is used up. */
  readonly total: readonly KitItem[];
}

/** What the groups of a kit have in common, as far as a list needs it. */
interface Entry {
  readonly title: string;
  readonly count?: number | undefined;
  readonly range?: object | undefined;
  readonly amount?: object | undefined;
}

const KEY = { tool: 'tools', part: 'parts', supply: 'supplies', protective: 'protective' } as const;
const ORDER: readonly KitGroup[] = ['tool', 'part', 'supply', 'protective'];

/**
 * What a fitted class needs. Blocks on screen need nothing but the screen; a live demonstration needs what its steps
 * use once; hands-on needs it at every station, parts for every group, protective equipment for everybody.
 */
export function kitList(fit: ClassFit, { lessons, kit }: Pick<Shop, 'lessons' | 'kit'>): KitList {
  const given = fit.plan.blocks
    .flatMap((block, index) => {
      const [at, way] = [fit.timetable.blocks[index], givenAs(fit.plan, fit.choice, index)];
      return at && way ? [{ block, index, at, way }] : [];
    })
    .toSorted((a, b) => a.at.start - b.at.start || a.index - b.index);
  const blocks = given.map(({ block, index, way }): BlockKit => {
    return {
      block: block.id,
      title: block.title,
      items: itemsInOrder(blockNeeds(fit.shopClass, index, way.id, lessons), kit),
    };
  });
  const most = new Map<string, number>();
  const sums = new Map<string, number>();
  for (const { items } of blocks)
    for (const { group, id, count } of items) {
      const key = `${group} ${id}`;
      most.set(key, Math.max(most.get(key) ?? 0, count));
      sums.set(key, (sums.get(key) ?? 0) + count);
    }
  const total = new Map(
    [...most].map(([key, count]) => [key, key.startsWith('part ') ? (sums.get(key) ?? count) : count]),
  );
  return { blocks, total: itemsInOrder(total, kit) };
}

/** What a block needs when it is given in one way: how many of each thing, by `group id`. */
export function blockNeeds(
  shopClass: ShopClass,
  index: number,
  treatmentId: string,
  lessons: readonly Lesson[],
): Map<string, number> {
  const written = shopClass.blocks[index];
  const treatment = written?.treatments.find(({ id }) => id === treatmentId);
  const needs = new Map<string, number>();
  if (!written || !treatment) return needs;
  const attendees = headCount(shopClass) ?? 1;
  const stations = treatment.stations?.count ?? 1;
  const groups = treatment.stations ? Math.ceil(attendees / treatment.stations.group) : 1;
  const add = (group: KitGroup, id: string, count: number, largest: boolean) => {
    const key = `${group} ${id}`;
    needs.set(key, largest ? Math.max(needs.get(key) ?? 0, count) : (needs.get(key) ?? 0) + count);
  };
  const hands = treatment.stations !== undefined || written.kind === 'hands-on';
  const part = written.about ?? (hands || written.kind === 'live' ? treatment.show : undefined);
  if (part && !(treatment.show && !hands && written.kind !== 'live'))
    for (const { uses } of passagesOf(part, lessons))
      for (const { group, id, count } of uses) {
        const each = group === 'part' ? groups : group === 'protective' ? (hands ? attendees : 1) : stations;
        // One tool serves step after step; a part that is fitted twice is needed twice.
        add(group, id, count * each, group !== 'part');
      }
  for (const use of written.kit ?? []) {
    const factor = use.per === 'attendee' ? attendees : use.per === 'station' ? stations : 1;
    for (const group of ORDER) {
      const id = use[group];
      if (id !== undefined) add(group, id, (use.count ?? 1) * factor, group !== 'part');
    }
  }
  return needs;
}

/**
 * What one person needs who works through a whole lesson: of what comes back the most that a step uses, of parts the sum.
 */
export function lessonKit(lesson: Lesson, kit: Kit): KitItem[] {
  const needs = new Map<string, number>();
  for (const { uses } of passagesOf({ lesson: lesson.id }, [lesson]))
    for (const { group, id, count } of uses) {
      const key = `${group} ${id}`;
      const before = needs.get(key) ?? 0;
      needs.set(key, group === 'part' ? before + count : Math.max(before, count));
    }
  return itemsInOrder(needs, kit);
}

/** Chapters and steps of a part of a lesson. */
export function passagesOf(part: LessonPart, lessons: readonly Lesson[]): Passage[] {
  const lesson = lessons.find(({ id }) => id === part.lesson);
  const chapters = lesson?.chapters.filter(({ id }) => part.chapter === undefined || id === part.chapter) ?? [];
  if (part.from === undefined && part.to === undefined)
    return chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
  const steps = chapters.flatMap(({ steps }) => steps);
  const first = part.from === undefined ? 0 : steps.findIndex(({ id }) => id === part.from);
  const last = part.to === undefined ? steps.length - 1 : steps.findIndex(({ id }) => id === part.to);
  return first === -1 || last === -1 ? [] : steps.slice(first, last + 1);
}

function itemsInOrder(needs: ReadonlyMap<string, number>, kit: Kit): KitItem[] {
  const items = [...needs].map(([key, count]): KitItem => {
    const [group, id = ''] = key.split(' ') as [KitGroup, string];
    const entry: Entry | undefined = kit[KEY[group]]?.[id];
    const range = amountText(entry?.range);
    const amount = amountText(entry?.amount);
    return {
      group,
      id,
      title: entry?.title ?? id,
      count,
      ...(entry?.count !== undefined && { have: entry.count }),
      ...(range !== undefined && { range }),
      ...(amount !== undefined && { amount }),
    };
  });
  const low = ({ id }: KitItem) => kit.tools?.[id]?.range?.min ?? Number.POSITIVE_INFINITY;
  return items.toSorted(
    (a, b) =>
      ORDER.indexOf(a.group) - ORDER.indexOf(b.group) ||
      // Torque wrenches first, by their range.
      (low(a) === low(b) ? 0 : low(a) - low(b)) ||
      (a.title < b.title ? -1 : 1),
  );
}

function amountText(amount: object | undefined): string | undefined {
  if (!amount) return undefined;
  const { nominal, min, max, unit }: { nominal?: number; min?: number; max?: number; unit?: string } = amount;
  return nominal !== undefined ? `${nominal} ${unit}` : `${min ?? ''} to ${max ?? ''} ${unit}`;
}
