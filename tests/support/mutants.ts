import { createHash } from 'node:crypto';
import { existsSync, globSync, readFileSync, rmSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { execa } from 'execa';

// npm run mutants:draw -- [--count 300] [--seed 1]   a seeded random draw of mutants over src/core, and their score
// npm run mutants:changed -- [--base origin/main]     the mutants of lines that differ from a base, for ten minutes at most

interface Mutant {
  readonly fileName: string;
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly location: { readonly start: Point; readonly end: Point };
}
interface Point {
  readonly line: number;
  readonly column: number;
}
interface Report {
  readonly files: Readonly<
    Record<string, { readonly mutants: readonly (Omit<Mutant, 'fileName'> & { status: string })[] }>
  >;
}

const REPORT = 'reports/mutation/mutation.json';
/** ms */
const MOST = 10 * 60_000;
/** Mutants that take many others with them: on their own, so that these are not run along. */
const LARGE = ['BlockStatement', 'ArrowFunction', 'ObjectLiteral', 'ArrayDeclaration', 'MethodExpression'];

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    count: { type: 'string', default: '300' },
    seed: { type: 'string', default: '1' },
    base: { type: 'string', default: 'origin/main' },
  },
});
process.exitCode =
  positionals[0] === 'changed' ? await changed(values.base) : await draw(Number(values.count), values.seed);

/** The mutants of lines of core that are not in a base. */
async function changed(base: string): Promise<number> {
  const { stdout } = await execa('git', ['diff', '--unified=0', '--no-color', `${base}...HEAD`, '--', 'src/core']);
  const ranges: string[] = [];
  let file = '';
  for (const line of stdout.split('\n')) {
    file = /^\+\+\+ b\/(.*\.ts)$/.exec(line)?.[1] ?? file;
    const [, from = '0', many = '1'] = /^@@ -\S+ \+(\d+)(?:,(\d+))? @@/.exec(line) ?? [];
    if (Number(from) > 0 && Number(many) > 0 && file !== '')
      ranges.push(`${file}:${from}-${Number(from) + Number(many) - 1}`);
  }
  if (ranges.length === 0) {
    console.log(`no line of src/core differs from ${base}`);
    return 0;
  }
  const { timedOut, exitCode } = await execa('stryker', ['run', '--mutate', ranges.join(',')], {
    preferLocal: true,
    stdio: 'inherit',
    reject: false,
    timeout: MOST,
  });
  if (timedOut) console.log(`ended after ${MOST / 60_000} minutes; what is above was tried, the rest was not`);
  return timedOut ? 0 : (exitCode ?? 1);
}

/** A draw of mutants, the same for a seed as long as the code is, and how many of them a test notices. */
async function draw(count: number, seed: string): Promise<number> {
  const order = (mutant: Mutant) =>
    createHash('sha256')
      .update(`${seed} ${key(mutant)}`)
      .digest('hex');
  const drawn = (await everyMutant())
    .map((mutant) => ({ mutant, at: order(mutant) }))
    .toSorted((a, b) => (a.at < b.at ? -1 : 1))
    .slice(0, count)
    .map(({ mutant }) => mutant);
  const found = new Map<string, string>();
  for (const large of [false, true])
    for (const [id, status] of await run(
      drawn.filter(({ mutatorName }) => LARGE.includes(mutatorName) === large),
      large,
    ))
      found.set(id, status);
  const statuses = drawn.map((mutant) => ({ mutant, status: found.get(key(mutant)) ?? 'NotRun' }));
  const noticed = statuses.filter(({ status }) => status === 'Killed' || status === 'Timeout').length;
  const judged = statuses.filter(({ status }) => !['NotRun', 'CompileError', 'RuntimeError'].includes(status)).length;
  for (const { mutant, status } of statuses)
    if (status === 'Survived' || status === 'NoCoverage')
      console.log(
        `${status} ${mutant.fileName}:${mutant.location.start.line + 1} ${mutant.mutatorName} → ${mutant.replacement ?? ''}`,
      );
  console.log(
    `seed ${seed}: ${noticed} of ${judged} mutants noticed, ${((100 * noticed) / Math.max(1, judged)).toFixed(1)} % (${drawn.length} drawn)`,
  );
  if (judged < drawn.length)
    console.log(`${drawn.length - judged} could not be judged: they do not run, or were not tried`);
  return judged === 0 ? 1 : 0;
}

function key({ fileName, mutatorName, replacement = '', location: { start, end } }: Mutant): string {
  return [fileName, start.line, start.column, end.line, end.column, mutatorName, replacement].join(' ');
}

/** Every mutant of core, as the mutation tester makes them. */
async function everyMutant(): Promise<Mutant[]> {
  const quiet = () => {};
  const logger = { isDebugEnabled: () => false, debug: quiet, info: quiet, warn: quiet, error: quiet };
  const names = globSync('src/core/**/*.ts').toSorted();
  const files = names.map((name) => ({ name, mutate: true, content: readFileSync(name, 'utf8') }));
  const instrumenter = new Instrumenter(logger as never);
  const options = { ignorers: [], excludedMutations: [], plugins: null, noHeader: false };
  return (await instrumenter.instrument(files, options as never)).mutants as unknown as Mutant[];
}

/** Runs the places of these mutants, and comes back with the status of each mutant that was run there. */
async function run(mutants: readonly Mutant[], large: boolean): Promise<Map<string, string>> {
  if (mutants.length === 0) return new Map();
  const ranges = mutants.map(
    ({ fileName, location: { start, end } }) =>
      `${fileName}:${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`,
  );
  rmSync(REPORT, { force: true });
  await execa(
    'stryker',
    ['run', '--mutate', [...new Set(ranges)].join(','), '--reporters', 'progress-append-only,json'],
    {
      preferLocal: true,
      stdio: 'inherit',
      reject: false,
      env: { LIFTSIDE_MUTATORS: large ? 'large' : 'small' },
    },
  );
  if (!existsSync(REPORT)) throw new Error('the mutation tester made no report; it says why above');
  const report = JSON.parse(readFileSync(REPORT, 'utf8')) as Report;
  return new Map(
    Object.entries(report.files).flatMap(([fileName, file]) =>
      file.mutants.map((mutant): [string, string] => {
        // The report counts lines and columns from one, the instrumenter from nought.
        const back = ({ line, column }: Point) => ({ line: line - 1, column: column - 1 });
        const location = { start: back(mutant.location.start), end: back(mutant.location.end) };
        return [key({ ...mutant, fileName, location }), mutant.status];
      }),
    ),
  );
}
