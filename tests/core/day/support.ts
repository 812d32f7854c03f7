import type { Clip, DayAct, DayEvent, DaySheet } from '../../../src/core/day/index.ts';
import { layOut, type PlannedClass, toPlan } from '../../../src/core/fit/index.ts';

type Block = PlannedClass['blocks'][number];

/** A block in minutes; each way `id: worth minutes`, the first is the one that is given. */
export function talk(
  id: string,
  ways: readonly { id: string; worth: number; minutes: number | [number, number, number] }[],
  more: Partial<Block> = {},
): Block {
  return { id, title: id.toUpperCase(), kind: 'talk', treatments: [...ways], ...more };
}

/** A stretch of film of some seconds, 1.1, 1.2 and so on. */
export function clip(place: number, start: number, end: number, talkMinutes?: number): Clip {
  return {
    lesson: 'chain',
    id: `step-${place}`,
    number: `1.${place}`,
    title: `Step ${place}`,
    chapter: 'Look',
    start,
    end,
    signals: [],
    values: [],
    keyPoints: [],
    ...(talkMinutes === undefined ? {} : { talk: { minutes: talkMinutes, text: 'Who has seen this?' } }),
  };
}

/** A sheet of a class at ten in which every block is given in its first way; those left out are named. */
export function sheetOf(
  blocks: readonly Block[],
  more: Partial<PlannedClass> = {},
  { left = [], clips = {} }: { left?: readonly string[]; clips?: Readonly<Record<string, readonly Clip[]>> } = {},
): DaySheet {
  const shopClass = {
    id: 'test',
    title: 'Test',
    date: '2027-03-06',
    starts: '10:00',
    slot: '1:00',
    ...more,
    blocks: [...blocks],
  };
  const parts = blocks.flatMap((block) =>
    block.treatments.flatMap(({ show }) => {
      const own = clips[block.id] ?? [];
      const seconds = own.reduce((sum, each) => sum + each.end - each.start, 0);
      const pauseSeconds = own.reduce((sum, each) => sum + (each.talk?.minutes ?? 0) * 60, 0);
      const length = { lesson: { id: 'chain' }, chapters: [], programmeSeconds: seconds, pauseSeconds };
      return show ? [{ part: show, length }] : [];
    }),
  );
  const { plan } = toPlan(shopClass, (part) => parts.find((each) => each.part === part)?.length);
  const layout = layOut(plan);
  return {
    shopClass,
    startsAt: Date.UTC(2027, 2, 6, 9),
    parts,
    choice: plan.blocks.map(({ id, treatments }, index) =>
      left.includes(id) || treatments.length === 0 ? undefined : { treatment: 0, group: layout.home[index] ?? 0 },
    ),
    blocks: blocks.map(({ id, treatments }) => ({
      id,
      who: '',
      bay: '',
      note: '',
      meanwhile: '',
      kit: {},
      clips: Object.fromEntries(treatments.map((way) => [way.id, way.show ? (clips[id] ?? []) : []])),
    })),
    steps: Object.values(clips).flat(),
    films: {},
    kit: [],
  };
}

/** An act at a minute of the class: `[0, {kind: 'begin'}]`. */
export type Row = readonly [minutes: number, act: DayAct];

export function events(...rows: readonly Row[]): DayEvent[] {
  return rows.map(([minutes, act], index) => ({ ...act, id: `e${index}`, at: minutes * 60 }) as DayEvent);
}

export const BEGIN = { kind: 'begin' } as const;
export const NEXT = { kind: 'next' } as const;
