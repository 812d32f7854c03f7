/** @type {import('@stryker-mutator/api/core').PartialStrykerOptions} */
export default {
  packageManager: 'npm',
  plugins: ['@stryker-mutator/vitest-runner'],
  testRunner: 'vitest',
  vitest: {
    configFile: 'vitest.mutants.config.ts',
    related: true,
  },
  mutate: [
    'src/core/time/timecode.ts',
    'src/core/time/edit-list.ts',
    'src/core/spec/convert.ts',
    'src/core/spec/fastener.ts',
    'src/core/fit/risk/risk.ts',
    'src/core/check/rules/torque-*.ts',
    'src/core/check/rules/wrench*.ts',
    'src/core/check/rules/spoken-value-wrong.ts',
    'src/core/check/rules/value-wrong.ts',
  ],
  concurrency: 1,
  coverageAnalysis: 'perTest',
  reporters: ['clear-text', 'progress-append-only', 'json'],
  jsonReporter: {
    fileName: 'reports/mutation/mutation.json',
  },
  clearTextReporter: {
    allowColor: false,
    logTests: false,
    reportTests: false,
  },
  tempDirName: '.stryker-tmp',
  ignorePatterns: ['dist', '.astro', 'reports', '.liftside', 'content/media/*.mp4', 'test-results'],
  // min; a machine whose cores are busy takes many times as long
  dryRunTimeoutMinutes: 60,
  timeoutMS: 60000,
};
