import type { Highs } from 'highs';
import { must } from '../../time/index.ts';
import type { Goal, LinearModel, Outcome, Reached, Solver } from './linear.ts';

/** Seconds after which the solver gives up. */
const TIME_LIMIT = 20;
const UNLIMITED = 2 ** 31 - 1;

const OPTIONS = {
  output_flag: false,
  random_seed: 0,
  // HiGHS stops at 1e-4 by itself, which is no proof of an optimum.
  mip_rel_gap: 0,
  // Presolve of 1.15.1 calls some plans impossible that are not, such as a tight fixed time behind a shared bay.
  presolve: 'off',
  // This heuristic costs 15 ms a model, ten times what a usual class takes as a whole.
  mip_heuristic_run_feasibility_jump: false,
};

/**
 * HiGHS as solver. Loading it is the shell's work: `highsSolver(await loadHighs())`.
 */
export function highsSolver(highs: Highs): Solver {
  return { name: 'HiGHS', solve: (model, goals) => solveWith(highs, model, goals) };
}

function solveWith(highs: Highs, model: LinearModel, goals: readonly Goal[]): Outcome {
  const { variables, rows } = model;
  const starts = [0];
  const indices: number[] = [];
  const factors: number[] = [];
  for (const { terms } of rows) {
    for (const [variable, factor] of terms) {
      indices.push(variable);
      factors.push(factor);
    }
    starts.push(indices.length);
  }
  const data = {
    numCols: variables.length,
    numRows: rows.length,
    sense: highs.constants.objectiveSense.minimize,
    colCost: variables.map(() => 0),
    colLower: variables.map(({ min }) => min),
    colUpper: variables.map(({ max }) => max),
    rowLower: rows.map(({ min }) => min),
    rowUpper: rows.map(({ max }) => max),
    matrix: {
      format: 'csr' as const,
      numRows: rows.length,
      numCols: variables.length,
      starts,
      indices,
      values: factors,
    },
    integrality: variables.map(({ whole }) => (whole ? 1 : 0) as 0 | 1),
  };
  return highs.withModel(data, (m): Outcome => {
    m.options.set({ ...OPTIONS, time_limit: TIME_LIMIT });
    const reached: Reached[] = [];
    let values: number[] = variables.map(() => 0);
    for (const [step, goal] of (goals.length > 0
      ? goals
      : [{ direction: 'least', terms: [], within: 0 } as Goal]
    ).entries()) {
      const sign = goal.direction === 'most' ? -1 : 1;
      const cost = variables.map(() => 0);
      for (const [variable, factor] of goal.terms) cost[variable] = (cost[variable] ?? 0) + sign * factor;
      cost.forEach((c, column) => {
        m.changeColCost(column, c);
      });
      m.options.set({ mip_abs_gap: goal.within, mip_max_nodes: goal.branches ?? UNLIMITED });
      if (step > 0) m.setSolution({ colValue: values });
      m.run();
      const status = m.getModelStatus();
      const { optimal, infeasible, solutionLimit, iterationLimit } = highs.constants.modelStatus;
      if (status === infeasible) return { state: 'infeasible' };
      const enough = goal.branches !== undefined && (status === solutionLimit || status === iterationLimit);
      if (status !== optimal && !enough) return { state: 'gave-up' };
      values = [...m.getSolution().colValue].map((v, column) => (variables[column]?.whole ? Math.round(v) : v));
      const got = goal.terms.reduce(
        (sum, [variable, factor]) => sum + factor * must(values[variable], 'the value of a variable'),
        0,
      );
      const whole = variables.some((variable) => variable.whole);
      const bound = whole ? sign * Number(m.info.get('mip_dual_bound')) : got;
      reached.push({ value: got, bound, gap: whole ? Number(m.info.get('mip_gap')) : 0 });
      // The goal stays reached while the next ones are looked at; 1e-6 is the solver's own tolerance.
      const entries = {
        indices: goal.terms.map(([variable]) => variable),
        values: goal.terms.map(([, factor]) => factor),
      };
      if (goal.terms.length > 0)
        m.addRow(
          goal.direction === 'most' ? got - 1e-6 : Number.NEGATIVE_INFINITY,
          goal.direction === 'least' ? got + 1e-6 : Number.POSITIVE_INFINITY,
          entries,
        );
    }
    return { state: 'optimal', values, reached };
  });
}
