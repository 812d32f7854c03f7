export { agrees, type Difference, difference, isComparable } from './agree.ts';
export { figuresIn } from './figures.ts';
export { findQuantitiesByLine, type HeardInLine, unsearchedByLine } from './find-by-line.ts';
export { findQuantities, type Hear } from './find-quantities.ts';
export { findTyped } from './find-typed.ts';
export type { HeardQuantity } from './heard-quantity.ts';
export { measuresBySign } from './measures-by-sign.ts';
export { isSpanish, measuresInSpanish } from './spanish.ts';
export { type Unsearched, unsearched } from './unsearched.ts';
