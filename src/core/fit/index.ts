export { type ClassFit, fitClass } from './fit-class.ts';
export { fitJson } from './fit-json.ts';
export { blockNeeds, type KitItem, type KitList, kitList, passagesOf } from './kit-list.ts';
export {
  disagrees,
  everythingTook,
  minutesOf,
  type Offer,
  offeredMinutes,
  offersFor,
  withOffers,
} from './plan/learn.ts';
export { estimateOf, leastTime } from './plan/least-time.ts';
export { type LessonPart, type PartLookup, type PartTimes, partLookup } from './plan/part-times.ts';
export { headCount, secondsOfDay, toPlan } from './plan/to-plan.ts';
export { type ClassChange, type Tried, type WhatIf, whatIf } from './plan/what-if.ts';
export { clockText, demandText, lengthText } from './plan/words.ts';
export { printFit, printOffers } from './print-fit.ts';
export { type RunSheetRow, runSheet } from './run-sheet.ts';
export { highsSolver } from './solve/highs.ts';
export type { Solver } from './solve/linear.ts';
export type { TurnsOfBlock } from './solve/regroup.ts';
export { type TrimTarget, type TrimTargets, trimTargets } from './solve/trim-targets.ts';
export { type Timeline, timelineOf, timelineText } from './timeline.ts';
