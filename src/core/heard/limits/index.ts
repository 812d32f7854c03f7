export type { Amount } from './amount.ts';
export type { Side } from './side.ts';
export { sideOf } from './side-of.ts';
export { sideTyped } from './side-typed.ts';
