import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Quick tests first: the run of a mutant ends with the first test that notices it. */
class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).reverse();
  }
}

// Without projects: the mutation tester runs one set of tests, those that call the pure core. Those of the command line
// and of files stay out: with a check of paths changed they would write where nobody wants it.
export default defineConfig({
  test: {
    include: [process.env.LIFTSIDE_MUTANT_TESTS ?? 'tests/{core,reference,samples}/**/*.test.ts'],
    exclude: [
      // It judges reference data, not code.
      'tests/reference/sources.test.ts',
      // Half of all the time, for what others notice sooner.
      'tests/core/fit/solve/stations-plans.test.ts',
      'tests/core/interchange/hostile.test.ts',
    ],
    // A mutant without end is ended with its process.
    pool: 'forks',
    // One file after the other in one worker: what they share is read once for each mutant.
    isolate: false,
    sequence: { sequencer: QuickFirst },
    testTimeout: 180_000,
    hookTimeout: 180_000,
    setupFiles: ['tests/support/one-seed.ts'],
  },
});
