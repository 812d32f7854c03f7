export { type ClassFit, fitClass } from './fit-class.ts';
export { fitJson } from './fit-json.ts';
export { blockNeeds, type KitItem, kitList, passagesOf } from './kit-list.ts';
export {
  disagrees,
  everythingTook,
  minutesOf,
  offeredMinutes,
  offersFor,
  withOffers,
} from './plan/learn.ts';
export { estimateOf, leastTime } from './plan/least-time.ts';
export { partLookup } from './plan/part-times.ts';
export { headCount, secondsOfDay, toPlan } from './plan/to-plan.ts';
export { type Tried, type WhatIf, whatIf } from './plan/what-if.ts';
export { demandText, lengthText } from './plan/words.ts';
export { printFit, printOffers } from './print-fit.ts';
export { runSheet } from './run-sheet.ts';
export { highsSolver } from './solve/highs.ts';
export type { Solver } from './solve/linear.ts';

export { type TrimTargets, trimTargets } from './solve/trim-targets.ts';
export { type Timeline, timelineOf } from './timeline.ts';
