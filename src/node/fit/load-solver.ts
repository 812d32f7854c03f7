import loadHighs from 'highs';
import { highsSolver, type Solver } from '../../core/fit/index.ts';

let loaded: Promise<Solver> | undefined;

/** The exact solver; its code is loaded once a process. */
export function loadSolver(): Promise<Solver> {
  loaded ??= loadHighs().then(highsSolver);
  return loaded;
}
