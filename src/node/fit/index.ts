export { loadSolver } from './load-solver.ts';
