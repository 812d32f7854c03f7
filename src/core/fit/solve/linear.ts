/** A sum of variables times factors. */
export type Terms = readonly (readonly [variable: number, factor: number])[];

export interface Variable {
  readonly min: number;
  readonly max: number;
  readonly whole: boolean;
}

/** min ≤ terms ≤ max. */
export interface Row {
  readonly terms: Terms;
  readonly min: number;
  readonly max: number;
}

/** A mixed-integer linear programme without its goal. */
export interface LinearModel {
  readonly variables: readonly Variable[];
  readonly rows: readonly Row[];
}

/** What to make large or small. Goals are taken in order: each is settled before the next one counts. */
export interface Goal {
  readonly direction: 'most' | 'least';
  readonly terms: Terms;
  /** How near to the bound is near enough; below 1 is exact for a goal in whole numbers. */
  readonly within: number;
  /** Branches to look at before the best found so far is taken; unlimited when left out. */
  readonly branches?: number;
}

export interface Reached {
  /** Value of the goal in the plan found. */
  readonly value: number;
  /** No plan can be better than this. */
  readonly bound: number;
  /** Distance of the two, as a share of the value. */
  readonly gap: number;
}

export type Outcome =
  | { readonly state: 'optimal'; readonly values: readonly number[]; readonly reached: readonly Reached[] }
  | { readonly state: 'infeasible' }
  /** The time limit came first. */
  | { readonly state: 'gave-up' };

/** Solves to proven optimality. Deterministic: the same model gives the same answer. */
export interface Solver {
  readonly name: string;
  solve(model: LinearModel, goals: readonly Goal[]): Outcome;
}

/** A model as it grows. */
export class ModelBuilder {
  readonly variables: Variable[] = [];
  readonly rows: Row[] = [];

  choice(): number {
    return this.variables.push({ min: 0, max: 1, whole: true }) - 1;
  }

  amount(max: number, min = 0): number {
    return this.variables.push({ min, max, whole: false }) - 1;
  }

  atMost(terms: Terms, max: number): void {
    this.rows.push({ terms: collectTerms(terms), min: Number.NEGATIVE_INFINITY, max });
  }

  atLeast(terms: Terms, min: number): void {
    this.rows.push({ terms: collectTerms(terms), min, max: Number.POSITIVE_INFINITY });
  }
}

/** Each variable once; factors of the same one added up, zeros left out. */
function collectTerms(terms: Terms): Terms {
  const sums = new Map<number, number>();
  for (const [variable, factor] of terms) sums.set(variable, (sums.get(variable) ?? 0) + factor);
  return [...sums].filter(([, factor]) => factor !== 0);
}
