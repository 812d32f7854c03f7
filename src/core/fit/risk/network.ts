import type { Estimate } from '../plan/estimate.ts';
import type { Layout } from '../plan/layout.ts';
import { type Choice, givenIn, type Plan, type PlanBlock, type PlanTreatment } from '../plan/plan.ts';

/** One uncertain piece of work. */
export interface Activity {
  readonly estimate: Estimate;
  /** Indexes of those that have to end before it starts; all smaller than its own. */
  readonly after: readonly number[];
  /** Does not start before this moment, s. */
  readonly notBefore: number;
  /** It has been going on for so long already, s: what counts is what is left of it. */
  readonly elapsed?: number;
  /** Activities of the same person are slow or quick together. */
  readonly person?: string | undefined;
}

/** Work in an order in which every piece follows those it waits for; it ends when the last piece does. */
export type Network = readonly Activity[];

/** The given blocks of a plan as a network, and which block each activity is. */
export function networkOf(plan: Plan, layout: Layout, choice: Choice): { network: Network; blocks: readonly number[] } {
  const network: Activity[] = [];
  const blocks: number[] = [];
  let last: readonly number[] = [];
  for (const [group, { lanes }] of layout.groups.entries()) {
    const given = lanes
      .map((lane) => lane.flatMap((index) => givenBlock(plan, choice, index, group)))
      .filter((lane) => lane.length > 0);
    // A group starts as one: a fixed time in any lane holds all of them back.
    const notBefore = Math.max(0, ...given.flatMap(holds));
    const ends = given.map((lane) => {
      lane.forEach(({ index, block, treatment }, place) => {
        network.push({
          estimate: treatment.estimate,
          after: place === 0 ? last : [network.length - 1],
          notBefore: place === 0 ? notBefore : 0,
          person: block.presenter,
        });
        blocks.push(index);
      });
      return network.length - 1;
    });
    if (ends.length > 0) last = ends;
  }
  return { network, blocks };
}

interface GivenBlock {
  readonly index: number;
  readonly block: PlanBlock;
  readonly treatment: PlanTreatment;
}

/** A block with the treatment it is given in a group; nothing where it is not. */
function givenBlock(plan: Plan, choice: Choice, index: number, group: number): GivenBlock[] {
  const block = plan.blocks[index];
  const treatment = givenIn(plan, choice, index, group);
  return block && treatment ? [{ index, block, treatment }] : [];
}

/** For each block of a lane, before when the lane must not start, s. */
function holds(lane: readonly GivenBlock[]): number[] {
  let offset = 0;
  return lane.map(({ block, treatment }) => {
    const held = (block.window?.earliest ?? 0) - offset;
    offset += treatment.seconds;
    return held;
  });
}
