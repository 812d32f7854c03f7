export { type ClassFit, fitClass } from './fit-class.ts';
export { fitJson } from './fit-json.ts';
export { blockNeeds, type KitItem, kitList, lessonKit, passagesOf } from './kit-list.ts';
export { changesSince, nextClass } from './next-class.ts';
export { demandsOf, keeps, runOf } from './plan/demands.ts';
export { certain, type Estimate, fromMinutes } from './plan/estimate.ts';
export { type Layout, layOut, timetable } from './plan/layout.ts';
export {
  disagrees,
  everythingTook,
  minutesOf,
  offeredMinutes,
  offersFor,
  withOffers,
} from './plan/learn.ts';
export { estimateOf, leastTime } from './plan/least-time.ts';
export { type LessonPart, type PartLength, type PartLookup, partLookup } from './plan/part-times.ts';
export { type Choice, givenAs, type Plan, type PlanBlock, type PlanTreatment } from './plan/plan.ts';
export { headCount, type PlannedClass, secondsOfDay, toPlan } from './plan/to-plan.ts';
export { type Tried, textWithChanges, type WhatIf, whatIf } from './plan/what-if.ts';
export { clockText, demandText, lengthText } from './plan/words.ts';
export { type FitInWords, fitInWords, printFit, printOffers } from './print-fit.ts';
export { quantilesOf } from './risk/beta.ts';
export { leftOf, meanLeft } from './risk/left-of.ts';
export { networkOf } from './risk/network.ts';
export { quantile } from './risk/quantile.ts';
export { simulate } from './risk/simulate.ts';
export { runSheet } from './run-sheet.ts';
export { highsSolver } from './solve/highs.ts';
export type { Goal, Solver } from './solve/linear.ts';
export { EXACT, type SlotModel } from './solve/slot-model.ts';

export { solve, worthOf } from './solve/solve.ts';
export { type TrimTargets, trimTargets } from './solve/trim-targets.ts';
export { shortestPlan } from './solve/ways-out.ts';
export { type Timeline, timelineOf } from './timeline.ts';
export { nameInBlock } from './timeline-names.ts';
