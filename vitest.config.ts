import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const MOCKED = 'tests/**/*.mocked.test.ts';

export default defineConfig({
  test: {
    maxWorkers: availableParallelism(),
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: [
            'tests/{core,node,browser,reference,samples,faults/quick}/**/*.test.ts',
            'tests/*.test.ts',
            'tests/faults/*.test.ts',
          ],
          exclude: [MOCKED],
          // A worker reads the program once, not once a file: a third of the time.
          isolate: false,
          // Only what hangs is ended: a machine whose cores are busy takes many times as long.
          testTimeout: 180_000,
          hookTimeout: 180_000,
        },
      },
      // Where a module is replaced by another, none may have been read before.
      { extends: true, test: { name: 'unit-mocked', include: [MOCKED] } },
      {
        extends: true,
        test: {
          name: 'footage',
          include: ['tests/media/**/*.test.ts'],
          exclude: ['tests/media/crash.test.ts'],
          testTimeout: 800_000,
          hookTimeout: 800_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'firefox',
          include: ['tests/firefox/**/*.test.ts'],
          testTimeout: 1_800_000,
          hookTimeout: 1_800_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'faults',
          include: ['tests/faults/long/*.test.ts', 'tests/media/crash.test.ts'],
          testTimeout: 3_600_000,
          hookTimeout: 800_000,
        },
      },
      { extends: true, test: { name: 'bench', include: ['tests/bench/**/*.bench.ts'], testTimeout: 600_000 } },
    ],
  },
});
