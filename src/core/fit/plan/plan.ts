import type { ShopClass } from '../../model/index.ts';
import type { Estimate } from './estimate.ts';

export type BlockKind = ShopClass['blocks'][number]['kind'];

/** A chapter as a treatment shows it. */
export interface ShownChapter {
  readonly lesson: string;
  readonly chapter: string;
  readonly title: string;
  /** Programme time of what is shown of it, s. */
  readonly programmeSeconds: number;
  /** Playback speed; class time is programme time divided by it. */
  readonly speed: number;
}

/** One way to give a block, with its time worked out. */
export interface PlanTreatment {
  readonly id: string;
  readonly title: string;
  readonly worth: number;
  /** What the plan reckons with: the mean of the estimate, whole seconds. */
  readonly seconds: number;
  readonly estimate: Estimate;
  /** Of it, time on screen without pauses, s. */
  readonly screenSeconds: number;
  readonly seated: boolean;
  readonly shown: readonly ShownChapter[];
  /** How often the groups change; 0 where it is not hands-on at stations. */
  readonly rotations: number;
}

export interface PlanBlock {
  readonly id: string;
  readonly title: string;
  readonly kind: BlockKind;
  readonly must: boolean;
  readonly after: readonly string[];
  readonly before: readonly string[];
  readonly needs: readonly string[];
  readonly together: readonly string[];
  /** Earliest and latest start, s from the start of the class; both the same at a fixed time. */
  readonly window?: { readonly earliest: number; readonly latest: number };
  readonly presenter?: string;
  readonly bay?: string;
  readonly beside?: string;
  /** The planner picks its place among the others. */
  readonly anywhere: boolean;
  /** Those whose time is known, in the order written. */
  readonly treatments: readonly PlanTreatment[];
}

export interface Limits {
  readonly screenSeconds?: number;
  readonly seatedSeconds?: number;
  readonly handsOnShare?: number;
  /** A block without sitting, or without the screen, ends the run when it lasts this long. */
  readonly breakSeconds: number;
  /** Of a plan that begins in the middle of a class: time on screen, and seated, since the last break, s. */
  readonly screenBefore?: number;
  readonly seatedBefore?: number;
}

/** A class as the planner sees it: everything in whole seconds from its start. */
export interface Plan {
  readonly id: string;
  /** Seconds from midnight. */
  readonly startsAt: number;
  readonly slotSeconds: number;
  readonly bufferSeconds: number;
  readonly limits: Limits;
  readonly blocks: readonly PlanBlock[];
}

/** Which treatment of each block is given, and where among the others it stands; nothing: left out. */
export type Choice = readonly (Given | undefined)[];

export interface Given {
  readonly treatment: number;
  /** Index of the group it runs in. */
  readonly group: number;
}

/** How a choice gives a block; nothing where it leaves it out. */
export function givenAs({ blocks }: Pick<Plan, 'blocks'>, choice: Choice, block: number): PlanTreatment | undefined {
  const given = choice[block];
  return given && blocks[block]?.treatments[given.treatment];
}

/** The same, where it runs in that group. */
export function givenIn(plan: Plan, choice: Choice, block: number, group: number): PlanTreatment | undefined {
  return choice[block]?.group === group ? givenAs(plan, choice, block) : undefined;
}
