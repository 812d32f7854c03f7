import { type Choice, type Layout, layOut, type Plan, toPlan } from '../fit/index.ts';
import type { Clip, DaySheet } from './day-sheet.ts';

/** The plan of a day's sheet, reckoned for those who are there. */
export interface Course {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly choice: Choice;
  /** Blocks by index in the order in which they are given, those left out at the place where they would be. */
  readonly order: readonly number[];
}

const known = new WeakMap<DaySheet, Map<number | undefined, Course>>();

/**
 * The course a class would take by its plan.
 *
 * @param attendance how many came, once they were counted
 */
export function courseOf(sheet: DaySheet, attendance?: number): Course {
  const courses = known.get(sheet) ?? new Map<number | undefined, Course>();
  known.set(sheet, courses);
  const before = courses.get(attendance);
  if (before) return before;
  const { shopClass, parts, choice } = sheet;
  const lengths = new Map(parts.map(({ part, length }) => [JSON.stringify(part), length]));
  const people = attendance === undefined || attendance === 0 ? shopClass : { ...shopClass, attendees: attendance };
  const { plan } = toPlan(people, (part) => lengths.get(JSON.stringify(part)));
  const layout = layOut(plan);
  const placeOf = (block: number) => {
    const group = choice[block]?.group ?? layout.home[block] ?? 0;
    const lanes = layout.groups[group]?.lanes ?? [];
    const lane = lanes.findIndex((blocks) => blocks.includes(block));
    return [group, lane, lanes[lane]?.indexOf(block) ?? 0] as const;
  };
  const order = plan.blocks
    .map((_, block) => ({ block, place: placeOf(block) }))
    .toSorted((a, b) => a.place[0] - b.place[0] || a.place[1] - b.place[1] || a.place[2] - b.place[2])
    .map(({ block }) => block);
  const course = { plan, layout, choice, order };
  courses.set(attendance, course);
  return course;
}

/** What a block shows when it is given in one way. */
export function clipsOf(sheet: DaySheet, block: string | undefined, treatment: string | undefined): readonly Clip[] {
  if (block === undefined || treatment === undefined) return [];
  return sheet.blocks.find(({ id }) => id === block)?.clips[treatment] ?? [];
}

/** What the block that is on shows. */
export function clipsNow(
  sheet: DaySheet,
  { now, given }: { readonly now?: string; readonly given: Readonly<Record<string, string>> },
): readonly Clip[] {
  return clipsOf(sheet, now, now === undefined ? undefined : given[now]);
}

/** How many times as fast as it was filmed the plan shows a block. */
export function speedOf(sheet: DaySheet, block: string, treatment: string | undefined): number {
  const written = sheet.shopClass.blocks.find(({ id }) => id === block);
  return written?.treatments.find(({ id }) => id === treatment)?.show?.speed ?? 1;
}
