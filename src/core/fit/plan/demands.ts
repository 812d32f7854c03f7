import { must } from '../../time/index.ts';
import type { Layout } from './layout.ts';
import { sharedNeed, timetable } from './layout.ts';
import { type Choice, givenAs, givenIn, type Plan, type PlanTreatment } from './plan.ts';

/** One thing the class asks for that could be asked differently. Blocks by index. */
export type Demand =
  | { readonly kind: 'slot' | 'buffer' | 'screen' | 'seated' | 'hands-on' }
  | { readonly kind: 'must' | 'time'; readonly block: number }
  /** `block` comes after `other`, where both are given. */
  | { readonly kind: 'after'; readonly block: number; readonly other: number }
  | { readonly kind: 'needs' | 'together'; readonly block: number; readonly other: number }
  /** Blocks that would run at the same time, but share a presenter or bay. */
  | { readonly kind: 'shared'; readonly blocks: readonly number[]; readonly what: string };

/** Everything a plan asks for, in a fixed order. Ids that name no block are left to the checker. */
export function demandsOf(plan: Plan, layout: Layout): readonly Demand[] {
  const index = new Map(plan.blocks.map(({ id }, i) => [id, i]));
  const found: Demand[] = [{ kind: 'slot' }];
  const indexesOf = (ids: readonly string[]) => ids.flatMap((id) => index.get(id) ?? []);
  if (plan.bufferSeconds > 0) found.push({ kind: 'buffer' });
  plan.blocks.forEach((block, i) => {
    if (block.must) found.push({ kind: 'must', block: i });
    if (block.window) found.push({ kind: 'time', block: i });
    for (const other of indexesOf(block.after)) found.push({ kind: 'after', block: i, other });
    for (const other of indexesOf(block.before)) found.push({ kind: 'after', block: other, other: i });
    for (const other of indexesOf(block.needs)) found.push({ kind: 'needs', block: i, other });
    for (const other of indexesOf(block.together)) {
      const told = found.some((d) => d.kind === 'together' && d.block === other && d.other === i);
      if (!told) found.push({ kind: 'together', block: i, other });
    }
  });
  for (const { lanes } of layout.groups)
    for (const blocks of lanes) {
      if (blocks.length < 2) continue;
      const what = blocks.flatMap((a) => blocks.flatMap((b) => (a < b ? (sharedNeed(plan, a, b) ?? []) : [])))[0] ?? '';
      found.push({ kind: 'shared', blocks, what });
    }
  if (plan.limits.screenSeconds !== undefined) found.push({ kind: 'screen' });
  if (plan.limits.seatedSeconds !== undefined) found.push({ kind: 'seated' });
  if (plan.limits.handsOnShare !== undefined) found.push({ kind: 'hands-on' });
  return found;
}

/** How a treatment counts towards a limit: seconds it adds to the run, or that it ends the run. */
export function runOf(
  plan: Plan,
  block: number,
  treatment: PlanTreatment,
  limit: 'screen' | 'seated',
): { readonly adds: number; readonly ends: boolean } {
  const kind = plan.blocks[block]?.kind;
  const adds = limit === 'screen' ? treatment.screenSeconds : treatment.seated ? treatment.seconds : 0;
  const pause = kind === 'break' || kind === 'food';
  const free = adds === 0 && !(limit === 'seated' && treatment.seated);
  return { adds: pause ? 0 : adds, ends: pause || (free && treatment.seconds >= plan.limits.breakSeconds) };
}

/** The run on screen, or seated, that a plan begins with, s; never above its limit, which it cannot mend any more. */
export function runBefore({ limits }: Plan, limit: 'screen' | 'seated'): number {
  const [before, most] =
    limit === 'screen' ? [limits.screenBefore, limits.screenSeconds] : [limits.seatedBefore, limits.seatedSeconds];
  return Math.min(before ?? 0, most ?? 0);
}

/** The longest run on screen, or seated, of a choice, s: of whoever has it worst where blocks run at the same time. */
export function longestRun(plan: Plan, layout: Layout, choice: Choice, limit: 'screen' | 'seated'): number {
  let carried = runBefore(plan, limit);
  let longest = 0;
  layout.groups.forEach(({ lanes }, group) => {
    const ends = lanes.flatMap((lane, laneIndex) => {
      let run = carried;
      let any = false;
      for (const block of lane) {
        const treatment = givenIn(plan, choice, block, group);
        if (!treatment) continue;
        any = true;
        const { adds, ends: over } = runOf(plan, block, treatment, limit);
        run = over ? 0 : run + adds;
        longest = Math.max(longest, run);
      }
      return any || laneIndex === 0 ? [run] : [];
    });
    carried = Math.max(...ends);
  });
  return longest;
}

/** Share of the class that is hands-on, counted where the main lane is; 0 of an empty class. */
export function handsOnShare(plan: Plan, layout: Layout, choice: Choice): number {
  const { end } = timetable(plan, layout, choice);
  return end === 0 ? 0 : handsOnSeconds(plan, layout, choice) / end;
}

function handsOnSeconds(plan: Plan, layout: Layout, choice: Choice): number {
  return plan.blocks.reduce((sum, { kind }, block) => {
    const pick = choice[block];
    if (kind !== 'hands-on' || !pick || !layout.groups[pick.group]?.lanes[0]?.includes(block)) return sum;
    return sum + must(givenAs(plan, choice, block), 'how a block is given').seconds;
  }, 0);
}

/**
 * Whether a choice keeps a demand, told from its timetable alone: the second opinion on what the solver says.
 * `after` of blocks that stand in the same lane is their order in it.
 */
export function keeps(plan: Plan, layout: Layout, choice: Choice, demand: Demand): boolean {
  const { blocks, end } = timetable(plan, layout, choice);
  const { limits } = plan;
  switch (demand.kind) {
    case 'slot':
      return end <= plan.slotSeconds;
    case 'buffer':
      return end + plan.bufferSeconds <= plan.slotSeconds;
    case 'must':
      return choice[demand.block] !== undefined;
    case 'time': {
      const start = blocks[demand.block]?.start;
      const window = plan.blocks[demand.block]?.window;
      return start === undefined || !window || (window.earliest <= start && start <= window.latest);
    }
    case 'after': {
      const one = choice[demand.block];
      const other = choice[demand.other];
      if (!one || !other) return true;
      return one.group === other.group
        ? inOrder(layout, one.group, demand.other, demand.block)
        : other.group < one.group;
    }
    case 'needs':
      return choice[demand.block] === undefined || choice[demand.other] !== undefined;
    case 'together':
      return (choice[demand.block] === undefined) === (choice[demand.other] === undefined);
    case 'shared':
      return true;
    case 'screen':
      return longestRun(plan, layout, choice, 'screen') <= must(limits.screenSeconds, 'the limit on screen');
    case 'seated':
      return longestRun(plan, layout, choice, 'seated') <= must(limits.seatedSeconds, 'the limit seated');
    case 'hands-on':
      return handsOnSeconds(plan, layout, choice) >= must(limits.handsOnShare, 'the share of hands-on') * end - 1e-6;
  }
}

/** True where both stand in one lane and the first comes before the second. */
export function inOrder(layout: Layout, group: number, first: number, second: number): boolean {
  const lane = layout.groups[group]?.lanes.find((blocks) => blocks.includes(first) && blocks.includes(second));
  return lane !== undefined && lane.indexOf(first) < lane.indexOf(second);
}
