import { appendFileSync } from 'node:fs';
import { inject, type RunnerTestCase, type RunnerTestSuite, TestRunner } from 'vitest';

// Runs every test once as it is, and then once with each mutant that it came by, without reading a module again: so a
// mutant costs as long as the test, and not a start of the tests.

declare module 'vitest' {
  interface ProvidedContext {
    /** Ids of the mutants to try. */
    mutants: readonly string[];
    /** The one mutant that is awake from before the first import; nothing: each in its turn. */
    awake: string;
    /** Where each result goes, a line of JSON each. */
    results: string;
    /** Unix time after which nothing is run any more, ms. */
    until: number;
  }
}

/**
 * A line of the results: what a mutant did in a test, that it was read before any test ran, that it is being tried and
 * how long at most, that a test file is through, or that time was up.
 */
export type Seen = { readonly pid: number } & (
  | { readonly id: string; readonly what: 'noticed' | 'not clean'; readonly test: string }
  | { readonly id: string; readonly what: 'passed' | 'static' }
  | { readonly id: string; readonly what: 'trying'; readonly withinMs: number }
  | { readonly what: 'through'; readonly file: string }
  | { readonly what: 'time is up' }
);
type Line = Seen extends infer Each ? (Each extends Seen ? Omit<Each, 'pid'> : never) : never;

/** What instrumented code reads and writes, by the names that the instrumenter gives it. */
interface Namespace {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number;
  hitLimit?: number;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

/** A mutant that takes so many times as long as the test as it is, and a second, goes round for ever. */
const LONGER = 10;
/** A test that takes longer by itself is not repeated for each mutant, ms of the processor. */
const LONG = 400;
/** A mutant that tests have passed for so long in all counts as alive and is tried no more, ms of the processor. */
const PATIENCE = 15_000;
/** All tests of a mutant that is awake from the start, ms of the processor. */
const AWAKE = 60_000;
/** Nothing told for so long while a mutant is tried, and the process is ended from outside, ms of the clock. */
const SILENCE = 60_000;
/** The same while one is awake from the start: tests are not told one by one there. */
const SILENCE_AWAKE = 300_000;

const shared = globalThis as {
  __stryker__?: Namespace;
  noticedMutants?: Set<string>;
  staticMutants?: Set<string>;
  triedFor?: Map<string, number>;
};
shared.__stryker__ ??= {};
shared.__stryker__.mutantCoverage ??= { static: {}, perTest: {} };
shared.noticedMutants ??= new Set();
shared.staticMutants ??= new Set();
shared.triedFor ??= new Map();
const { __stryker__: space, noticedMutants: noticed, staticMutants: early, triedFor } = shared;
const coverage = space.mutantCoverage as NonNullable<Namespace['mutantCoverage']>;

/** When a mutant is ended, ms of the processor. */
let endsAt = Number.POSITIVE_INFINITY;
let hits = 0;
// Instrumented code counts each time it comes by the mutant that is awake, and ends itself past the limit: the only
// place where a loop that never ends can be looked into.
Object.defineProperty(space, 'hitCount', {
  configurable: true,
  get: () => hits,
  set: (count: number) => {
    hits = count;
    if (count % 32 === 0) space.hitLimit = cpuMs() > endsAt ? -1 : Number.POSITIVE_INFINITY;
  },
});

export default class MutantRunner extends TestRunner {
  private readonly awake = inject('awake');
  private readonly mutants = new Set(inject('mutants'));
  private readonly until = inject('until');

  constructor(...options: ConstructorParameters<typeof TestRunner>) {
    super(...options);
    space.activeMutant = this.awake || undefined;
    space.hitLimit = Number.POSITIVE_INFINITY;
    endsAt = cpuMs() + AWAKE;
    if (this.awake) tell({ id: this.awake, what: 'trying', withinMs: SILENCE_AWAKE });
  }

  override async onAfterRunSuite(suite: RunnerTestSuite): Promise<void> {
    await super.onAfterRunSuite(suite);
    if ('filepath' in suite && !this.awake) tell({ what: 'through', file: suite.file.filepath });
  }

  async runTask(test: RunnerTestCase): Promise<void> {
    const run = TestRunner.getTestFn(test);
    if (this.awake) return run();
    if (Date.now() > this.until) return tell({ what: 'time is up' });
    for (const id of Object.keys(coverage.static))
      if (this.mutants.has(id) && !early.has(id)) {
        early.add(id);
        tell({ id, what: 'static' });
      }
    space.activeMutant = undefined;
    space.currentTestId = test.id;
    const before = cpuMs();
    try {
      await run();
    } finally {
      space.currentTestId = undefined;
    }
    const took = cpuMs() - before;
    const passed = coverage.perTest[test.id] ?? {};
    delete coverage.perTest[test.id];
    for (const id of Object.keys(passed)) {
      if (!this.mutants.has(id) || noticed.has(id)) continue;
      if (took > LONG || (triedFor.get(id) ?? 0) > PATIENCE) {
        tell({ id, what: 'passed' });
        continue;
      }
      if (Date.now() > this.until) return tell({ what: 'time is up' });
      tell({ id, what: 'trying', withinMs: SILENCE });
      const from = cpuMs();
      if (!(await this.passes(run, test, id, took))) {
        // What a mutant leaves behind would be taken for what the next one does.
        const clean = await this.passes(run, test, undefined, took);
        if (clean) noticed.add(id);
        tell({ id, what: clean ? 'noticed' : 'not clean', test: `${test.file.name} > ${test.name}` });
      } else tell({ id, what: 'passed' });
      triedFor.set(id, (triedFor.get(id) ?? 0) + cpuMs() - from);
    }
  }

  private async passes(run: () => unknown, test: RunnerTestCase, id: string | undefined, took: number) {
    space.currentTestId = test.id;
    space.activeMutant = id;
    space.hitCount = 1;
    space.hitLimit = Number.POSITIVE_INFINITY;
    endsAt = cpuMs() + 1000 + LONGER * took;
    try {
      await run();
      return true;
    } catch {
      return false;
    } finally {
      space.activeMutant = undefined;
      space.currentTestId = undefined;
      delete coverage.perTest[test.id];
    }
  }
}

function cpuMs(): number {
  return process.cpuUsage().user / 1000;
}

function tell(line: Line): void {
  appendFileSync(inject('results'), `${JSON.stringify({ ...line, pid: process.pid })}\n`);
}
