import { highsSolver, type Solver } from '../../core/fit/index.ts';

let loaded: Promise<Solver> | undefined;

/** The exact solver, a program compiled for the web; it is loaded once a process, and only by those who ask. */
export function loadSolver(): Promise<Solver> {
  loaded ??= import('highs').then(({ default: loadHighs }) => loadHighs()).then(highsSolver);
  return loaded;
}
