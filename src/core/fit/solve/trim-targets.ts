import { must } from '../../time/index.ts';
import { layOut, timetable } from '../plan/layout.ts';
import { type Choice, givenAs, type Plan } from '../plan/plan.ts';

/** How much the edit of one chapter has to lose for the class to fit with nothing dropped. */
export interface TrimTarget {
  readonly block: string;
  readonly treatment: string;
  readonly lesson: string;
  readonly chapter: string;
  readonly title: string;
  /** Programme time of what the class shows of it, s. */
  readonly programmeSeconds: number;
  /** Programme time to lose when every chapter gives its share, s; 0: nothing. */
  readonly shareSeconds: number;
  /** Programme time to lose when this chapter alone gives everything, s; nothing: not even all of it would do. */
  readonly aloneSeconds?: number;
}

export interface TrimTargets {
  /** Class time to win in all, s; 0 when the class fits as it is. */
  readonly overSeconds: number;
  readonly targets: readonly TrimTarget[];
  /** True when trimming can do it; false when even without the chapters it would not fit. */
  readonly enough: boolean;
}

/** A chapter on screen and what its edit has lost so far, s of programme. */
interface Trim {
  readonly block: number;
  readonly shown: number;
  readonly seconds: number;
  readonly speed: number;
}

/** Times are worked in seconds; a tenth is far below what an edit list can be held to in a class. */
const FINE = 0.1;

/**
 * Trim targets of a class: every block given in its fullest way, and every chapter on screen shortened in proportion
 * to its length until each fixed time and the end are met.
 */
export function trimTargets(plan: Plan): TrimTargets {
  const layout = layOut(plan);
  const choice: Choice = plan.blocks.map(({ treatments }, index) => {
    if (treatments.length === 0) return undefined;
    const treatment = treatments.reduce(
      (best, t, i) => (t.worth > must(treatments[best], 'the best so far').worth ? i : best),
      0,
    );
    return { treatment, group: must(layout.home[index], 'the home of a block') };
  });
  const trims = plan.blocks.flatMap((_, block): Trim[] =>
    shownBy(plan, choice, block).map(({ programmeSeconds, speed }, shown) => ({
      block,
      shown,
      seconds: programmeSeconds,
      speed,
    })),
  );
  const over = (lost: readonly number[]) => lateness(plan, choice, trims, lost);
  const none = trims.map(() => 0);
  const start = over(none);

  let lost: readonly number[] = none;
  for (let round = 0; round < 60 && over(lost) > FINE / 2; round++) {
    const before = over(lost);
    // Only a chapter whose loss is felt at the first missed time takes part.
    const felt = trims.map((trim, i) => {
      const left = trim.seconds - must(lost[i], 'the loss of a trim');
      return left > FINE && before - over(add(lost, i, Math.min(left, 1))) > 1e-6 ? left : 0;
    });
    const room = felt.reduce((sum, left, i) => sum + left / (trims[i]?.speed ?? 1), 0);
    if (room === 0) break;
    const share = Math.min(1, before / room);
    lost = lost.map((seconds, i) => seconds + must(felt[i], 'the pressure on a trim') * share);
  }
  return {
    overSeconds: start,
    enough: over(lost) <= FINE,
    targets: trims.map((trim, i) => {
      const block = must(plan.blocks[trim.block], 'a block');
      const shown = must(shownBy(plan, choice, trim.block)[trim.shown], 'a chapter that is shown');
      const alone = start <= FINE ? 0 : aloneSeconds(trim, (seconds) => over(add(none, i, seconds)));
      return {
        block: block.id,
        treatment: must(givenAs(plan, choice, trim.block), 'a block as it is given').id,
        lesson: shown.lesson,
        chapter: shown.chapter,
        title: shown.title,
        programmeSeconds: trim.seconds,
        shareSeconds: Math.max(0, Math.ceil(must(lost[i], 'the loss of a trim') * 10 - 1e-6)) / 10,
        ...(alone !== undefined && { aloneSeconds: alone }),
      };
    }),
  };
}

function shownBy(plan: Plan, choice: Choice, block: number) {
  return givenAs(plan, choice, block)?.shown ?? [];
}

function add(lost: readonly number[], index: number, more: number): number[] {
  return lost.map((seconds, i) => (i === index ? seconds + more : seconds));
}

/** By how much the first missed time is missed, s: the fixed times in order, then the end with its buffer. */
function lateness(plan: Plan, choice: Choice, trims: readonly Trim[], lost: readonly number[]): number {
  const shorter: Plan = {
    ...plan,
    blocks: plan.blocks.map((block, index) => {
      const won = trims.reduce(
        (sum, t, i) => (t.block === index ? sum + must(lost[i], 'the loss of a trim') / t.speed : sum),
        0,
      );
      const pick = choice[index];
      if (won === 0 || !pick) return block;
      return {
        ...block,
        treatments: block.treatments.map((t, i) => (i === pick.treatment ? { ...t, seconds: t.seconds - won } : t)),
      };
    }),
  };
  const { blocks, end } = timetable(shorter, layOut(plan), choice);
  const missed = plan.blocks.flatMap(({ window }, i) => {
    const start = blocks[i]?.start;
    return window && start !== undefined ? [{ at: window.latest, over: start - window.latest }] : [];
  });
  const all = [
    ...missed.toSorted((a, b) => a.at - b.at),
    { at: plan.slotSeconds, over: end + plan.bufferSeconds - plan.slotSeconds },
  ];
  return all.find(({ over }) => over > FINE / 2)?.over ?? 0;
}

/** The least loss of one chapter with which nothing is missed, by bisection to a tenth of a second. */
function aloneSeconds(trim: Trim, over: (seconds: number) => number): number | undefined {
  if (over(trim.seconds) > FINE / 2) return undefined;
  let [low, high] = [0, Math.ceil(trim.seconds * 10)];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (over(Math.min(trim.seconds, middle / 10)) > FINE / 2) low = middle;
    else high = middle;
  }
  return high / 10;
}
