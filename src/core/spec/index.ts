export { amountIn, type Converted, convert, convertAmount, lastFigure } from './convert.ts';
export { findUnit, kindInWords, unitKey, unitsWritten } from './find-unit.ts';
export { type Heard, hear } from './heard/hear.ts';
export { type HeardInLine, hearLines } from './heard/hear-lines.ts';
export { type Amount, KINDS, type Kind, type Quantity, SIMPLE_KINDS, type SimpleKind } from './kinds.ts';
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
export { type Shown, showQuantity, stageKind, unitFor, writtenAmount, writtenQuantity } from './show-quantity.ts';
export { SYSTEMS, type System, UNITS, type Unit, unitOf, unitsOf } from './units.ts';
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
