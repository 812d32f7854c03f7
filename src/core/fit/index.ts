export { highsSolver } from './highs.ts';
export { solve } from './solve.ts';
