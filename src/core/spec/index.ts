export { amountIn, type Converted, convert, convertAmount, lastFigure } from './convert.ts';
export { readDateCode, type WeekMade } from './date-code.ts';
export { type Exact, exact, minus, plus, times, toNumber } from './exact.ts';
export {
  type Loading,
  loading,
  loadingInWords,
  nutFactor,
  parseThread,
  preload,
  proofStress,
  type ThreadCondition,
  torqueFor,
} from './fastener.ts';
export { findUnit, kindInWords, unitKey, unitsWritten } from './find-unit.ts';
export { type Due, intervalDue } from './interval-due.ts';
export { type Amount, KINDS, type Kind, type Quantity, SIMPLE_KINDS, type SimpleKind } from './kinds.ts';
export { type Part, partsOf } from './parts.ts';
export {
  type AmountRead,
  type AmountText,
  type QuantityFault,
  type QuantityProblem,
  type QuantityRead,
  type QuantityText,
  readAmount,
  readQuantity,
} from './read-quantity.ts';
export { judgeReading, type Verdict } from './reading.ts';
export {
  type Shown,
  showQuantity,
  showTorqueTimes,
  stageKind,
  unitFor,
  writtenAmount,
  writtenQuantity,
} from './show-quantity.ts';
export { likelySlip, type UnitSlip } from './unit-slip.ts';
export { SYSTEMS, type System, UNITS, type Unit, unitOf, unitsOf } from './units.ts';
export { USABLE_FROM, usableRange, valueIn, wrenchSetting } from './wrench.ts';
export {
  ALL_YEARS,
  type Applicable,
  applicabilityInWords,
  applies,
  type MachineAt,
  parseYears,
  printYears,
  specsFor,
  type Years,
} from './years.ts';
