import { defineConfig } from 'vitest/config';

// Without projects: the mutation tester runs one set of tests, those of the pure core.
export default defineConfig({
  test: {
    include: [process.env.LIFTSIDE_MUTANT_TESTS ?? 'tests/{core,reference}/**/*.test.ts'],
    testTimeout: 180_000,
    hookTimeout: 180_000,
  },
});
