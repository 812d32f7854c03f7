export { amountIn, convert, convertAmount, lastFigure } from './convert.ts';
export { readDateCode } from './date-code.ts';
export { readDesignation } from './designation.ts';
export { exact, minus, plus, times, toNumber } from './exact.ts';
export {
  loading,
  loadingInWords,
  nutFactor,
  parseThread,
  preload,
  proofStress,
  torqueFor,
} from './fastener.ts';
export { aKind, findUnit, kindInWords, unitKey, unitsWritten } from './find-unit.ts';
export { intervalDue } from './interval-due.ts';
export { type Amount, type Kind, type Quantity, SIMPLE_KINDS, type SimpleKind, unitsCompare } from './kinds.ts';
export { type Part, partsOf } from './parts.ts';
export { pitchesListedInstead } from './pitches.ts';
export {
  type QuantityFault,
  type QuantityProblem,
  type QuantityText,
  readAmount,
  readQuantity,
} from './read-quantity.ts';
export { judgeReading, readingScale, type Verdict } from './reading.ts';
export {
  type Shown,
  showQuantity,
  showTorqueTimes,
  stageKind,
  writtenAmount,
  writtenQuantity,
} from './show-quantity.ts';
export { likelySlip, type UnitSlip } from './unit-slip.ts';
export { type System, UNITS, type Unit, unitOf, unitsOf } from './units.ts';
export { spanInWords, USUAL, type Usual } from './usual.ts';
export { usableRange, valueIn, wrenchSetting } from './wrench.ts';
export {
  applicabilityInWords,
  applies,
  parseYears,
  printYears,
  specsFor,
} from './years.ts';
