import { existsSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setUp } from '../../src/node/programs/index.ts';
import { runPart } from './run-part.ts';
import { setUpReaders } from './second-readers.ts';

// npm test: sets up what the tests need, runs them all, and closes with a line that counts.

interface Counts {
  passed: number;
  failed: number;
  skipped: number;
}

/** A minute or two together. Those left out render for longer: killing, awkward inputs, loudness, suggested cuts, further forms, cards, angles, joins, several workers. */
const QUICK_FOOTAGE = ['probe', 'align', 'render', 'stills', 'refusals', 'uneven', 'hostile'];

/** ms. A test ends by its own limits long before; a part that says nothing for so long hangs outside any test. */
const QUIET = 15 * 60_000;

const started = Date.now();
const say = (text: string) => console.log(text);
const reports = join(tmpdir(), `liftside-tests-${process.pid}`);
const total: Counts = { passed: 0, failed: 0, skipped: 0 };
const add = ({ passed, failed, skipped }: Counts) => {
  total.passed += passed;
  total.failed += failed;
  total.skipped += skipped;
};

say('Setting up');
const { chromium, ffmpeg, held } = await setUp(process.env, say);
if (held !== undefined) {
  say('\n0 passed, 1 failed');
  process.exit(1);
}
await setUpReaders(process.env, say);

say('\nUnit tests');
add(await vitest(['unit', 'unit-mocked']));

if (ffmpeg) {
  say('\nFootage tests (the quick ones; npm run footage runs all of them)');
  add(await vitest(['footage'], QUICK_FOOTAGE));
} else {
  say('\nThe footage tests cannot run without ffmpeg.');
  total.failed += 1;
}

if (chromium) {
  say('\nBrowser tests (without the long ones; npm run e2e runs all of them)');
  const browserReport = join(reports, 'browser.json');
  const browser = await run('playwright', ['test', '--reporter=list,json'], {
    PLAYWRIGHT_JSON_OUTPUT_FILE: browserReport,
    LIFTSIDE_CHROMIUM: chromium,
  });
  add(fromPlaywright(browserReport, browser));
} else {
  say('\nThe browser tests cannot run without Chromium.');
  total.failed += 1;
}

rmSync(reports, { recursive: true, force: true });
say(`\nAll tests took ${Math.round((Date.now() - started) / 1000)} s.`);
if (total.skipped > 0) say(`${total.skipped} skipped; each says above what it would need.`);
say(`${total.passed} passed, ${total.failed} failed`);
process.exitCode = total.failed > 0 || total.passed === 0 ? 1 : 0;

/** Runs projects of vitest: all of them, or these of the footage tests. */
async function vitest(projects: readonly string[], names: readonly string[] = []): Promise<Counts> {
  const report = join(reports, `${projects[0]}.json`);
  const files = names.map((name) => `tests/media/${name}.test.ts`);
  const reporters = [
    '--reporter=default',
    '--reporter=./tests/support/test-ended.ts',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ];
  return fromVitest(
    report,
    await run('vitest', ['run', ...projects.flatMap((name) => ['--project', name]), ...reporters, ...files]),
  );
}

/** Runs one of the project's own tools; true when it ended well. */
async function run(
  tool: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<boolean> {
  const { well, hung } = await runPart({ tool, args, env, quiet: QUIET });
  if (hung)
    say(`${tool} was ended: for ${QUIET / 60_000} minutes nothing happened. A file that is not reported above hangs.`);
  return well;
}

/** A run that ended badly counts as one failure at least, also when no test said so. */
function atLeastOne(counts: Counts, well: boolean): Counts {
  return well || counts.failed > 0 ? counts : { ...counts, failed: 1 };
}

function fromVitest(file: string, well: boolean): Counts {
  if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0 };
  const report = JSON.parse(readFileSync(file, 'utf8')) as Record<string, number>;
  const { numPassedTests: passed = 0, numFailedTests: failed = 0, numPendingTests: skipped = 0 } = report;
  return atLeastOne({ passed, failed, skipped }, well);
}

function fromPlaywright(file: string, well: boolean): Counts {
  if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0 };
  const { stats } = JSON.parse(readFileSync(file, 'utf8')) as { stats: Record<string, number> };
  const { expected = 0, flaky = 0, unexpected = 0, skipped = 0 } = stats;
  if (flaky > 0) say(`\n${flaky} unsteady: passed only when tried again. Named as flaky above; mend them.`);
  return atLeastOne({ passed: expected + flaky, failed: unexpected, skipped }, well);
}
