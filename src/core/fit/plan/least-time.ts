import type { ShopClass } from '../../model/index.ts';
import { must } from '../../time/index.ts';
import { type Estimate, fromMinutes, mean } from './estimate.ts';
import { layOut, leaderOf, timetable } from './layout.ts';
import type { PartLookup } from './part-times.ts';
import { toPlan } from './to-plan.ts';
import { hoursText, lengthText } from './words.ts';

/**
 * The least a class can take: its must-haves, each in its shortest way, with the buffer. No plan is shorter, so a slot
 * below it is overrun whatever is left out; a slot above it may still be too small for other demands.
 */
export function leastTime(
  shopClass: ShopClass,
  parts: PartLookup,
): { seconds: number; text: { slotSeconds: number; takes: string; slot: string; buffer: string } } {
  const { plan } = toPlan(shopClass, parts);
  const layout = layOut(plan);
  const musts = new Set(plan.blocks.flatMap(({ must }, i) => (must ? [i, leaderOf(plan, i)] : [])));
  const choice = plan.blocks.map(({ treatments }, i) => {
    if (!musts.has(i) || treatments.length === 0) return undefined;
    const treatment = treatments.reduce(
      (best, t, k) => (t.seconds < must(treatments[best], 'the best so far').seconds ? k : best),
      0,
    );
    return { treatment, group: must(layout.home[i], 'the home of a block') };
  });
  const { end } = timetable({ ...plan, blocks: plan.blocks.map(({ window: _, ...block }) => block) }, layout, choice);
  return {
    seconds: end + plan.bufferSeconds,
    text: {
      slotSeconds: plan.slotSeconds,
      takes: hoursText(end),
      slot: hoursText(plan.slotSeconds),
      buffer: plan.bufferSeconds > 0 ? ` and ${lengthText(plan.bufferSeconds)} are to stay free` : '',
    },
  };
}

/** The written estimate of a treatment, of one rotation at stations, and where it stands; nothing for what is on screen. */
export function estimateOf(
  shopClass: ShopClass,
  block: string,
  treatment: string,
): { estimate: Estimate; mean: number; stations: boolean; path: (string | number)[] } | undefined {
  const b = shopClass.blocks.findIndex(({ id }) => id === block);
  const t = shopClass.blocks[b]?.treatments.findIndex(({ id }) => id === treatment) ?? -1;
  const written = shopClass.blocks[b]?.treatments[t];
  const minutes = written?.minutes ?? written?.stations?.minutes;
  if (!written || minutes === undefined) return undefined;
  const stations = written.minutes === undefined;
  const estimate = fromMinutes(minutes);
  const path = ['blocks', b, 'treatments', t, ...(stations ? ['stations'] : []), 'minutes'];
  return { estimate, mean: mean(estimate), stations, path };
}
