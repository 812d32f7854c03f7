import { defineConfig, devices } from '@playwright/test';
import { findChromium, onPath } from './src/node/programs/index.ts';
import { WINDOWLESS } from './tests/support/second-readers.ts';

const executablePath = (await onPath([WINDOWLESS], process.env)) ?? (await findChromium(process.env));
const args = ['--no-sandbox', '--disable-gpu', '--disable-background-networking'];
/** What plays and is timed. */
const FILM = /(player|newcomer|player-\w+|keyboard|cutting-room|cutting-room-\w+)\.spec\.ts/;
const own = { ...devices['Desktop Chrome'], viewport: { width: 1280, height: 800 } };

export default defineConfig({
  testDir: 'tests/e2e',
  globalSetup: './tests/support/serve-demo.ts',
  outputDir: 'test-results',
  // Only what hangs is ended: a machine whose cores are busy takes many times as long.
  timeout: 600_000,
  expect: { timeout: 90_000 },
  workers: 2,
  // A test that passes only when tried again is named as unsteady in the summary: to be mended, but no reason to stop.
  retries: 1,
  // Those marked so are run by name: LIFTSIDE_LONG=1, as npm run e2e does.
  ...(process.env.LIFTSIDE_LONG ? {} : { grepInvert: /@long/ }),
  use: {
    baseURL: process.env.LIFTSIDE_TEST_ADDRESS,
    trace: 'retain-on-failure',
    launchOptions: {
      args: [...args, '--autoplay-policy=no-user-gesture-required'],
      ...(executablePath ? { executablePath } : {}),
    },
  },
  projects: [
    // Footage is decoded in software here: two players at a time would make each other late.
    { name: 'film', use: own, testMatch: FILM, workers: 1 },
    { name: 'desktop', use: own, testIgnore: [FILM, /(phone|no-script)\.spec\.ts/] },
    {
      name: 'phone',
      use: { ...own, viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
      testMatch: /phone\.spec\.ts/,
    },
    { name: 'no-script', use: { ...own, javaScriptEnabled: false }, testMatch: /no-script\.spec\.ts/ },
  ],
});
