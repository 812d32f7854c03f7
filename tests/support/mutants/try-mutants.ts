import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import { createVitest, type TestSpecification, type Vitest } from 'vitest/node';
import { guard } from './guard.ts';
import { keyOf, type Mutant, withMutants } from './mutant.ts';
import type { Seen } from './runner.ts';

export type Verdict =
  | 'noticed'
  | 'survived'
  | 'reached by no test'
  /** The test failed afterwards too: a mutant leaves something behind, and nothing is sure. */
  | 'left something behind';

/** Test files, the nearest first, that a mutant must pass which is read before tests run. */
const NEAREST = 15;

/**
 * Tries mutants: first all those that tests come by, in one run of the tests; then those that are read while modules are
 * imported, one by one, with the tests that reach their file.
 *
 * @param until Unix time after which it gives up, ms
 * @param onProgress how many have a verdict so far
 * @returns the verdict of each by its key; nothing where time was up before each had one
 */
export async function tryMutants(
  chosen: readonly Mutant[],
  until: number,
  onProgress: (done: number, of: number) => void,
): Promise<ReadonlyMap<string, Verdict> | undefined> {
  const { texts, mutants } = await withMutants(chosen);
  const folder = mkdtempSync(join(tmpdir(), 'mutants-'));
  const results = join(folder, 'results.jsonl');
  const vitest = await createVitest(
    'test',
    {
      config: 'vitest.mutants.config.ts',
      watch: false,
      runner: join(import.meta.dirname, 'runner.ts'),
      reporters: [{}],
      onConsoleLog: () => false,
      // It keeps modules by the text of their file, which here is not the text that runs.
      fsModuleCache: false,
    },
    {
      plugins: [{ name: 'mutants', enforce: 'pre', load: (id) => texts.get(id.split('?', 1)[0] ?? '') }],
    },
  );
  try {
    vitest.provide('results', results);
    vitest.provide('until', until);
    vitest.provide('awake', '');
    const tests = await testsOf(vitest, [...texts.keys()]);
    if (tests.length === 0) throw new Error('no test reaches these files; LIFTSIDE_MUTANT_TESTS may name none');
    // Those named like a changed file notice most of its mutants, which no other test has to try any more.
    const named = new Set(
      tests.filter(({ moduleId }) => mutants.some(({ fileName }) => isNamedLike(moduleId, fileName))),
    );
    const failed = [
      ...(await tryAll(vitest, results, mutants, [...named])),
      ...(await tryAll(
        vitest,
        results,
        mutants,
        tests.filter((test) => !named.has(test)),
      )),
    ];
    if (failed.length > 0)
      console.log(`these fail by themselves, so what they say does not count: ${failed.join(', ')}`);
    const seen = read(results);
    if (seen.some(({ what }) => what === 'time is up')) return undefined;
    const verdicts = verdictsOf(mutants, seen);
    const early = new Set(seen.flatMap((line) => (line.what === 'static' ? [line.id] : [])));
    const open = mutants.filter((mutant) => early.has(mutant.id) && verdicts.get(keyOf(mutant)) !== 'noticed');
    let done = mutants.length - open.length;
    vitest.config.bail = 1;
    for (const project of vitest.projects) project.config.bail = 1;
    for (const mutant of open) {
      if (Date.now() > until) return undefined;
      onProgress(done++, mutants.length);
      verdicts.set(keyOf(mutant), await tryAwake(vitest, results, mutant, new Set(failed)));
    }
    return verdicts;
  } finally {
    await vitest.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Every test as it is, and once more for each mutant that it comes by. A mutant without end takes its test process along;
 * the next one goes on with the test files that were not through. @returns files with tests that fail as they are
 */
async function tryAll(
  vitest: Vitest,
  results: string,
  mutants: readonly Mutant[],
  everyTest: readonly TestSpecification[],
): Promise<string[]> {
  const failed: string[] = [];
  if (everyTest.length === 0) return failed;
  for (;;) {
    const seen = read(results);
    const through = new Set(seen.flatMap((line) => (line.what === 'through' ? [line.file] : [])));
    const noticed = new Set(seen.flatMap((line) => (line.what === 'noticed' ? [line.id] : [])));
    vitest.provide(
      'mutants',
      mutants.flatMap(({ id }) => (noticed.has(id) ? [] : [id])),
    );
    const endGuard = guard(results);
    const { testModules, unhandledErrors } = await vitest.runTestSpecifications(
      everyTest.filter(({ moduleId }) => !through.has(moduleId)),
    );
    const ended = endGuard();
    if (ended.length === 0 && unhandledErrors.length > 0)
      throw new AggregateError(unhandledErrors, 'the tests cannot be run');
    const now = new Set(read(results).flatMap((line) => (line.what === 'through' ? [line.file] : [])));
    for (const module of testModules)
      if (!module.ok() && (ended.length === 0 || now.has(module.moduleId))) failed.push(module.moduleId);
    if (ended.length === 0) return failed;
    console.log('a mutant without end was ended with its test process, and counts as noticed');
  }
}

/** A mutant that is awake while modules are imported: noticed when a test fails or a module cannot be imported. */
async function tryAwake(
  vitest: Vitest,
  results: string,
  mutant: Mutant,
  failed: ReadonlySet<string>,
): Promise<Verdict> {
  const tests = await testsOf(vitest, [resolve(mutant.fileName)]);
  const near = tests
    .filter(({ moduleId }) => !failed.has(moduleId))
    .toSorted((a, b) => distance(a.moduleId, mutant.fileName) - distance(b.moduleId, mutant.fileName))
    .slice(0, NEAREST);
  vitest.provide('awake', mutant.id);
  // What a test of this name says is quick to ask, where each test goes through the same code for another name.
  for (const names of [basename(mutant.fileName, '.ts'), '']) {
    vitest.setGlobalTestNamePattern(names);
    const endGuard = guard(results);
    const { testModules, unhandledErrors } = await vitest.runTestSpecifications(near);
    if (endGuard().length > 0 || unhandledErrors.length > 0) return 'noticed';
    if (testModules.some((module) => module.state() === 'failed')) return 'noticed';
  }
  return 'survived';
}

/** The test files that import one of these source files. */
async function testsOf(vitest: Vitest, files: string[]): Promise<TestSpecification[]> {
  vitest.config.related = files;
  return vitest.getRelevantTestSpecifications();
}

function isNamedLike(test: string, source: string): boolean {
  return basename(test) === basename(source).replace(/\.ts$/, '.test.ts');
}

/** Folders of the two paths that differ; a test of the same name as the file is nearest. */
function distance(test: string, source: string): number {
  const [a, b] = [dirname(test).split('/tests/')[1] ?? '', dirname(source).replace(/^src\//, '')];
  if (isNamedLike(test, source)) return -1;
  const [from, to] = [a.split('/'), b.split('/')];
  const common = from.findIndex((part, index) => part !== to[index]);
  const shared = common === -1 ? Math.min(from.length, to.length) : common;
  return from.length + to.length - 2 * shared;
}

function verdictsOf(mutants: readonly Mutant[], seen: readonly Seen[]): Map<string, Verdict> {
  const of = new Map(mutants.map(({ id }) => [id, new Set<Seen['what']>()]));
  for (const line of seen) if ('id' in line) of.get(line.id)?.add(line.what);
  return new Map(
    mutants.map((mutant): [string, Verdict] => {
      const whats = of.get(mutant.id);
      if (whats?.has('noticed')) return [keyOf(mutant), 'noticed'];
      if (whats?.has('not clean')) return [keyOf(mutant), 'left something behind'];
      return [keyOf(mutant), whats?.has('passed') ? 'survived' : 'reached by no test'];
    }),
  );
}

function read(file: string): Seen[] {
  if (!existsSync(file)) return [];
  return readFileSync(file, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));
}
