import type { Estimate } from '../plan/estimate.ts';
import type { Layout } from '../plan/layout.ts';
import type { Choice, Plan } from '../plan/plan.ts';

/** One uncertain piece of work. */
export interface Activity {
  readonly estimate: Estimate;
  /** Indexes of those that have to end before it starts; all smaller than its own. */
  readonly after: readonly number[];
  /** Does not start before this moment, s. */
  readonly notBefore: number;
  /** Activities of the same person are slow or quick together. */
  readonly person?: string;
}

/** Work in an order in which every piece follows those it waits for; it ends when the last piece does. */
export type Network = readonly Activity[];

/** The given blocks of a plan as a network, and which block each activity is. */
export function networkOf(plan: Plan, layout: Layout, choice: Choice): { network: Network; blocks: readonly number[] } {
  const network: Activity[] = [];
  const blocks: number[] = [];
  let last: readonly number[] = [];
  layout.groups.forEach(({ lanes }, group) => {
    const ends: number[] = [];
    let offset = 0;
    // A group starts as one: a fixed time in any lane holds all of them back.
    const holds = lanes.flatMap((lane) => {
      offset = 0;
      return lane.flatMap((index) => {
        const pick = choice[index];
        const treatment = pick?.group === group ? plan.blocks[index]?.treatments[pick.treatment] : undefined;
        if (!treatment) return [];
        const held = (plan.blocks[index]?.window?.earliest ?? 0) - offset;
        offset += treatment.seconds;
        return [held];
      });
    });
    const notBefore = Math.max(0, ...holds);
    for (const lane of lanes) {
      let before = last;
      for (const index of lane) {
        const block = plan.blocks[index];
        const pick = choice[index];
        const treatment = pick?.group === group ? block?.treatments[pick.treatment] : undefined;
        if (!block || !treatment) continue;
        network.push({
          estimate: treatment.estimate,
          after: before,
          notBefore: before === last ? notBefore : 0,
          ...(block.presenter !== undefined && { person: block.presenter }),
        });
        blocks.push(index);
        before = [network.length - 1];
      }
      if (before !== last) ends.push(...before);
    }
    if (ends.length > 0) last = ends;
  });
  return { network, blocks };
}
