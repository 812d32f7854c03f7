import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/{core,node,browser,reference,samples}/**/*.test.ts', 'tests/*.test.ts'],
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: { name: 'footage', include: ['tests/media/**/*.test.ts'], testTimeout: 300_000, hookTimeout: 300_000 },
      },
      { extends: true, test: { name: 'bench', include: ['tests/bench/**/*.bench.ts'], testTimeout: 600_000 } },
    ],
  },
});
