export { type ClassFit, fitClass } from './fit-class.ts';
export { fitJson } from './fit-json.ts';
export { highsSolver } from './highs.ts';
export type { Solver } from './linear.ts';
export { type LessonPart, type PartLookup, type PartTimes, partLookup } from './part-times.ts';
export { printFit } from './print-fit.ts';
export { toPlan } from './to-plan.ts';
export { type TrimTarget, type TrimTargets, trimTargets } from './trim-targets.ts';
