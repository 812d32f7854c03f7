import { listWords } from '../../read/index.ts';
import { must, twoDigits } from '../../time/index.ts';
import type { Demand } from './demands.ts';
import type { Plan } from './plan.ts';

/** A length of time for people: whole minutes, or seconds below one. */
export function lengthText(seconds: number): string {
  const size = Math.abs(seconds);
  if (size < 59.5) return `${Math.round(size)} s`;
  return `${Math.round(size / 60)} min`;
}

/** A length as `h:mm`, whole minutes. */
export function hoursText(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${twoDigits(minutes % 60)}`;
}

/** A time of day, `hh:mm`, of a moment counted from the start of the class; a broken minute is rounded down. */
export function clockText(plan: Plan, moment: number): string {
  const minutes = Math.floor((plan.startsAt + moment + 1e-6) / 60) % (24 * 60);
  return `${twoDigits(Math.floor(minutes / 60))}:${twoDigits(minutes % 60)}`;
}

export function titleOf(plan: Plan, block: number): string {
  return `"${must(plan.blocks[block], 'a block').title}"`;
}

/** Shortest time a block can take, s. */
export function shortest(plan: Plan, block: number): number {
  return Math.min(...must(plan.blocks[block], 'a block').treatments.map(({ seconds }) => seconds));
}

/** A demand in words; stands alone, and in a list of demands. */
export function demandText(plan: Plan, demand: Demand): string {
  const { limits } = plan;
  switch (demand.kind) {
    case 'slot':
      return `the class ends by ${clockText(plan, plan.slotSeconds)}`;
    case 'buffer':
      return `${lengthText(plan.bufferSeconds)} stay free at the end`;
    case 'must': {
      const least = shortest(plan, demand.block);
      const time = Number.isFinite(least) ? `at least ${lengthText(least)}` : 'its time is not known';
      return `${titleOf(plan, demand.block)} has to be given (${time})`;
    }
    case 'time': {
      const window = plan.blocks[demand.block]?.window ?? { earliest: 0, latest: 0 };
      const from = clockText(plan, window.earliest);
      const when =
        window.earliest === window.latest ? `at ${from}` : `between ${from} and ${clockText(plan, window.latest)}`;
      return `${titleOf(plan, demand.block)} starts ${when}`;
    }
    case 'after':
      return `${titleOf(plan, demand.block)} comes after ${titleOf(plan, demand.other)}`;
    case 'needs':
      return `${titleOf(plan, demand.block)} is given only with ${titleOf(plan, demand.other)}`;
    case 'together':
      return `${titleOf(plan, demand.block)} and ${titleOf(plan, demand.other)} are given together or not at all`;
    case 'shared':
      return `${listWords(demand.blocks.map((block) => titleOf(plan, block)))} share ${demand.what}, so they follow one another`;
    case 'screen':
      return `no longer than ${lengthText(must(limits.screenSeconds, 'the limit on screen'))} on screen without a break`;
    case 'seated':
      return `no longer than ${lengthText(must(limits.seatedSeconds, 'the limit seated'))} seated without a break`;
    case 'hands-on':
      return `at least ${Math.round(must(limits.handsOnShare, 'the share of hands-on') * 100)} % of the class is hands-on`;
  }
}
