import { must } from '../../time/index.ts';
import type { Demand } from './demands.ts';
import type { Plan, PlanBlock } from './plan.ts';

function without<T extends object, K extends keyof T>(value: T, key: K): Omit<T, K> {
  const { [key]: _, ...rest } = value;
  return rest;
}

/** Time that no class lasts, s: as good as no limit. */
export const UNLIMITED_SECONDS = 24 * 3600;

/** The plan as if one demand had never been made. Of a shared presenter or bay, the blocks get one each. */
export function withoutDemand(plan: Plan, demand: Demand): Plan {
  const change = (index: number, to: (block: PlanBlock) => PlanBlock): Plan => ({
    ...plan,
    blocks: plan.blocks.map((block, i) => (i === index ? to(block) : block)),
  });
  const idOf = (index: number) => must(plan.blocks[index], 'a block').id;
  switch (demand.kind) {
    case 'slot':
      return { ...plan, slotSeconds: UNLIMITED_SECONDS, bufferSeconds: 0 };
    case 'buffer':
      return { ...plan, bufferSeconds: 0 };
    case 'must':
      return change(demand.block, (block) => ({ ...block, must: false }));
    case 'time':
      return change(demand.block, (block) => without(block, 'window'));
    case 'after': {
      const later = change(demand.block, (b) => ({ ...b, after: b.after.filter((id) => id !== idOf(demand.other)) }));
      return {
        ...later,
        blocks: later.blocks.map((b, i) =>
          i === demand.other ? { ...b, before: b.before.filter((id) => id !== idOf(demand.block)) } : b,
        ),
      };
    }
    case 'needs':
      return change(demand.block, (b) => ({ ...b, needs: b.needs.filter((id) => id !== idOf(demand.other)) }));
    case 'together':
      return {
        ...plan,
        blocks: plan.blocks.map((b, i) => {
          if (i !== demand.block && i !== demand.other) return b;
          const partner = idOf(i === demand.block ? demand.other : demand.block);
          return { ...b, together: b.together.filter((id) => id !== partner) };
        }),
      };
    case 'shared':
      return {
        ...plan,
        blocks: plan.blocks.map((b, i) => (demand.blocks.includes(i) ? without(without(b, 'presenter'), 'bay') : b)),
      };
    case 'screen':
      return { ...plan, limits: without(plan.limits, 'screenSeconds') };
    case 'seated':
      return { ...plan, limits: without(plan.limits, 'seatedSeconds') };
    case 'hands-on':
      return { ...plan, limits: without(plan.limits, 'handsOnShare') };
  }
}
