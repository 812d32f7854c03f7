import type { Actual, Shop, ShopClass } from '../../model/index.ts';
import { type Estimate, fromMinutes, mean, variance } from './estimate.ts';
import { rotationsOf } from './stations.ts';
import { secondsOfDay } from './to-plan.ts';

/** What a block took in one class, and what had been expected of it there. */
export interface Took {
  readonly actual: Actual;
  readonly shopClass: ShopClass;
  readonly block: string;
  readonly treatment: string;
  /** Of the whole block; at stations of one rotation. s */
  readonly seconds: number;
  /** Index in the actual's list. */
  readonly index: number;
}

/** An estimate as written, beside what earlier classes took and what follows from both. */
export interface Offer {
  readonly block: string;
  readonly treatment: string;
  readonly written: Estimate;
  /** What earlier classes took, s, oldest first. */
  readonly took: readonly number[];
  readonly offered: Estimate;
}

/**
 * How many classes the written estimate counts for beside real ones.
 * A judgement, no source: one odd class moves an estimate by a fifth of the difference.
 */
const ESTIMATE_WEIGHT = 4;

/** Everything that is known to have been measured, oldest first. */
export function everythingTook({ actuals, classes }: Pick<Shop, 'actuals' | 'classes'>): readonly Took[] {
  return actuals
    .toSorted((a, b) => (a.date < b.date ? -1 : 1))
    .flatMap((actual) => {
      const shopClass = classes.find(({ id }) => id === actual.id);
      return shopClass ? actual.blocks.flatMap((_, index) => took(actual, shopClass, index) ?? []) : [];
    });
}

function took(actual: Actual, shopClass: ShopClass, index: number): Took | undefined {
  const written = actual.blocks[index];
  const block = shopClass.blocks.find(({ id }) => id === written?.id);
  const treatment = block?.treatments.find(({ id }) => id === written?.treatment) ?? block?.treatments[0];
  if (!written || !block || !treatment || (written.treatment === undefined && block.treatments.length > 1))
    return undefined;
  const minutes = minutesOf(written);
  if (minutes === undefined) return undefined;
  const whole = minutes * 60;
  const { stations } = treatment;
  const rotations = stations ? rotationsOf(stations, actual.attendees ?? shopClass.attendees ?? shopClass.capacity) : 1;
  const changes = (rotations - 1) * (stations?.change ?? 0) * 60;
  return {
    actual,
    shopClass,
    block: block.id,
    treatment: treatment.id,
    seconds: Math.max(0, whole - changes) / rotations,
    index,
  };
}

/** Longer than this no block lasts: times written so run backwards. A judgement, no source. */
const LONGEST_BLOCK_MINUTES = 12 * 60;

/** Minutes that a block took; past midnight counts on. Nothing where its times run backwards. */
export function minutesOf({ minutes, starts, ends }: Actual['blocks'][number]): number | undefined {
  if (minutes !== undefined) return minutes;
  const day = 24 * 60;
  const took = ((secondsOfDay(ends ?? '00:00') - secondsOfDay(starts ?? '00:00')) / 60 + day) % day;
  return took > LONGEST_BLOCK_MINUTES ? undefined : took;
}

/**
 * What earlier classes say about the estimates of a class: for every treatment with written minutes that was given
 * before its day under the same ids, the written mean and the real times weighed together.
 * What is on screen is measured, not estimated, and gets no offer.
 */
export function offersFor(shopClass: ShopClass, shop: Pick<Shop, 'actuals' | 'classes'>): readonly Offer[] {
  const known = everythingTook(shop).filter(({ actual }) => actual.date < shopClass.date);
  return shopClass.blocks.flatMap((block) =>
    block.treatments.flatMap((treatment): Offer[] => {
      const minutes = treatment.minutes ?? treatment.stations?.minutes;
      const times = known
        .filter((t) => t.block === block.id && t.treatment === treatment.id)
        .map(({ seconds }) => seconds);
      if (minutes === undefined || times.length === 0) return [];
      const written = fromMinutes(minutes);
      return [
        { block: block.id, treatment: treatment.id, written, took: times, offered: shrinkEstimate(written, times) },
      ];
    }),
  );
}

/**
 * The estimate moved toward what classes took. The mean is that of the estimate counted as so many classes and of the
 * real ones; least and most close in the same way, but never past a time seen.
 */
export function shrinkEstimate(written: Estimate, times: readonly number[]): Estimate {
  const count = times.length;
  const weigh = (was: number, seen: number) => (ESTIMATE_WEIGHT * was + count * seen) / (ESTIMATE_WEIGHT + count);
  const centre = weigh(mean(written), times.reduce((sum, seconds) => sum + seconds, 0) / count);
  const [lowest, highest] = [Math.min(...times), Math.max(...times)];
  const least = Math.min(lowest, weigh(written.least, lowest));
  const most = Math.max(highest, weigh(written.most, highest));
  // The likely value that gives this mean: (a + 4m + b) / 6, solved for m.
  const likely = Math.min(most, Math.max(least, (6 * centre - least - most) / 4));
  return { least, likely, most };
}

/** Whether real times contradict an estimate: their mean lies farther off than its spread and five minutes allow. */
export function disagrees(written: Estimate, times: readonly number[]): boolean {
  const centre = times.reduce((sum, seconds) => sum + seconds, 0) / times.length;
  const spread = Math.sqrt(variance(written) / times.length);
  // Without a spread of its own an estimate is taken as good to a tenth, and never as better than a minute.
  const allowed = Math.max(60, mean(written) / 10, 2 * spread);
  return Math.abs(centre - mean(written)) > allowed;
}

/** The class with the offered estimates in place of the written ones, to try what they would change. */
export function withOffers(shopClass: ShopClass, offers: readonly Offer[]): ShopClass {
  return {
    ...shopClass,
    blocks: shopClass.blocks.map((block) => ({
      ...block,
      treatments: block.treatments.map((treatment) => {
        const offer = offers.find((one) => one.block === block.id && one.treatment === treatment.id);
        if (!offer) return treatment;
        const minutes = offeredMinutes(offer);
        return treatment.minutes === undefined && treatment.stations
          ? { ...treatment, stations: { ...treatment.stations, minutes } }
          : { ...treatment, minutes };
      }),
    })),
  };
}

/** An offered estimate as it would be written: least, likely, most in minutes, to half a minute. */
export function offeredMinutes({ offered }: Offer): [number, number, number] {
  const half = (seconds: number) => Math.round(seconds / 30) / 2;
  return [half(offered.least), half(offered.likely), half(offered.most)];
}
