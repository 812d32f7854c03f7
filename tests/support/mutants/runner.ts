import { appendFileSync } from 'node:fs';
import { inject, type RunnerTestCase, TestRunner } from 'vitest';

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

/** A line of the results: what a mutant did in a test, that it was read before any test ran, or that time was up. */
export interface Seen {
  readonly id: string;
  readonly what: 'noticed' | 'passed' | 'static' | 'not clean' | 'time is up';
  readonly test?: string;
}

/** What instrumented code reads and writes, by the names that the instrumenter gives it. */
interface Namespace {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number;
  hitLimit?: number;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

/** A mutant that is passed by so many times as often as in the test as it is goes round for ever. */
const OFTEN = 20;
const AT_LEAST = 2000;
/** A test that takes longer by itself is not repeated for each mutant, ms of the processor. */
const LONG = 400;

const shared = globalThis as { __stryker__?: Namespace; noticedMutants?: Set<string>; staticMutants?: Set<string> };
shared.__stryker__ ??= {};
shared.__stryker__.mutantCoverage ??= { static: {}, perTest: {} };
shared.noticedMutants ??= new Set();
shared.staticMutants ??= new Set();
const { __stryker__: space, noticedMutants: noticed, staticMutants: early } = shared;
const coverage = space.mutantCoverage as NonNullable<Namespace['mutantCoverage']>;

export default class MutantRunner extends TestRunner {
  private readonly awake = inject('awake');
  private readonly mutants = new Set(inject('mutants'));
  private readonly until = inject('until');

  constructor(...options: ConstructorParameters<typeof TestRunner>) {
    super(...options);
    space.activeMutant = this.awake || undefined;
    space.hitCount = 0;
    space.hitLimit = AT_LEAST * 1000;
  }

  async runTask(test: RunnerTestCase): Promise<void> {
    const run = TestRunner.getTestFn(test);
    if (this.awake) return run();
    if (Date.now() > this.until) return tell({ id: '', what: 'time is up' });
    for (const id of Object.keys(coverage.static))
      if (this.mutants.has(id) && !early.has(id)) {
        early.add(id);
        tell({ id, what: 'static' });
      }
    space.activeMutant = undefined;
    space.currentTestId = test.id;
    const { user } = process.cpuUsage();
    try {
      await run();
    } finally {
      space.currentTestId = undefined;
    }
    const long = process.cpuUsage().user - user > LONG * 1000;
    const hits = coverage.perTest[test.id] ?? {};
    delete coverage.perTest[test.id];
    for (const [id, count] of Object.entries(hits)) {
      if (!this.mutants.has(id) || noticed.has(id)) continue;
      if (long) {
        tell({ id, what: 'passed' });
        continue;
      }
      if (Date.now() > this.until) return tell({ id, what: 'time is up' });
      if (!(await this.passes(run, test, id, count))) {
        noticed.add(id);
        // What a mutant leaves behind would be taken for what the next one does.
        const clean = await this.passes(run, test, undefined, count);
        tell({ id, what: clean ? 'noticed' : 'not clean', test: `${test.file.name} > ${test.name}` });
      } else tell({ id, what: 'passed' });
    }
  }

  private async passes(run: () => unknown, test: RunnerTestCase, id: string | undefined, hits: number) {
    space.currentTestId = test.id;
    space.activeMutant = id;
    space.hitCount = 0;
    space.hitLimit = AT_LEAST + OFTEN * hits;
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

function tell(line: Seen): void {
  appendFileSync(inject('results'), `${JSON.stringify(line)}\n`);
}
