export { sideBefore } from './before.ts';
export { otherSide, type Side } from './side.ts';
export { sideOf } from './side-of.ts';
