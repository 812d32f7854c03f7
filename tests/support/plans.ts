import loadHighs from 'highs';
import { certain, mean } from '../../src/core/fit/plan/estimate.ts';
import type { Plan, PlanBlock, PlanTreatment } from '../../src/core/fit/plan/plan.ts';
import { highsSolver } from '../../src/core/fit/solve/highs.ts';
import type { Solver } from '../../src/core/fit/solve/linear.ts';

let loaded: Promise<Solver> | undefined;

/** HiGHS, loaded once a test file. */
export function testSolver(): Promise<Solver> {
  loaded ??= loadHighs().then(highsSolver);
  return loaded;
}

/** A treatment in whole seconds. */
export function way(seconds: number, worth: number, more: Partial<PlanTreatment> = {}): PlanTreatment {
  const estimate = more.estimate ?? certain(seconds);
  return {
    id: 'whole',
    title: 'Whole',
    worth,
    seconds: more.estimate ? Math.round(mean(more.estimate)) : seconds,
    screenSeconds: 0,
    seated: false,
    shown: [],
    rotations: 0,
    ...more,
    estimate,
  };
}

/** A block with its ways; may be left out unless told otherwise. */
export function block(id: string, treatments: readonly PlanTreatment[], more: Partial<PlanBlock> = {}): PlanBlock {
  return {
    id,
    title: id,
    kind: 'talk',
    must: false,
    after: [],
    before: [],
    needs: [],
    together: [],
    anywhere: false,
    ...more,
    treatments: treatments.map((t, k) => (t.id === 'whole' && k > 0 ? { ...t, id: `way-${k}` } : t)),
  };
}

export function plan(slotSeconds: number, blocks: readonly PlanBlock[], more: Partial<Plan> = {}): Plan {
  return {
    id: 'test',
    startsAt: 10 * 3600,
    slotSeconds,
    bufferSeconds: 0,
    limits: { breakSeconds: 300 },
    ...more,
    blocks,
  };
}
