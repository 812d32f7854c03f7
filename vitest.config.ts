import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
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
          // Only what hangs is ended: a machine whose cores are busy takes many times as long.
          testTimeout: 180_000,
          hookTimeout: 180_000,
        },
      },
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
