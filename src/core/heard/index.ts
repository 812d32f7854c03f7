export { agrees, type Difference, difference, isComparable } from './agree.ts';
export { findQuantitiesByLine, type HeardInLine } from './find-by-line.ts';
export { findQuantities, type HeardQuantity } from './find-quantities.ts';
