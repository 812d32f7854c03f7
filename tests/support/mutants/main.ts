import { createHash } from 'node:crypto';
import { dirname } from 'node:path';
import { parseArgs } from 'node:util';
import { execa } from 'execa';
import { everyMutant, keyOf, type Mutant } from './mutant.ts';
import { tryMutants, type Verdict } from './try-mutants.ts';

// npm run mutants:draw -- [--count 300] [--seed 1]               a seeded random draw of mutants over src/core
// npm run mutants:draw -- --count all src/core/fit/risk/*.ts     every mutant of these files
// npm run mutants:changed -- [--base origin/main] [--minutes 10]  mutants of lines that differ from a base
// Both with --least 85: fails where fewer of a hundred are noticed.

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    count: { type: 'string', default: '300' },
    seed: { type: 'string', default: '1' },
    base: { type: 'string', default: 'origin/main' },
    minutes: { type: 'string', default: '10' },
    least: { type: 'string', default: '0' },
  },
});
const [command, ...files] = positionals;
/** Mutants tried together where time is short: what has a verdict then is a fair draw, not those noticed first. */
const LOT = 50;

const score =
  command === 'changed'
    ? await changed(values.base, Number(values.minutes))
    : await draw(values.count, values.seed, files);
if (score < Number(values.least)) {
  console.log(`fewer than ${values.least} % of them are noticed`);
  process.exitCode = 1;
}

/** A draw of mutants, the same for a seed as long as the code is, and how many of them a test notices. */
async function draw(count: string, seed: string, files: string[]): Promise<number> {
  const all = await everyMutant(files.length > 0 ? files : 'src/core/**/*.ts');
  const drawn = count === 'all' ? all : inOrder(all, seed).slice(0, Number(count));
  const verdicts = await tryMutants(drawn, Number.POSITIVE_INFINITY, printProgress);
  const by = files.length > 0 ? (file: string) => file : dirname;
  return report(count === 'all' ? 'all' : `seed ${seed}`, drawn, verdicts ?? new Map(), by);
}

/** The mutants of lines of core that are not in a base, in an order drawn by lot, for as long as there is time. */
async function changed(base: string, minutes: number): Promise<number> {
  const until = Date.now() + minutes * 60_000;
  const { stdout } = await execa('git', ['diff', '--unified=0', '--no-color', base, '--', 'src/core']);
  const lines = new Map<string, Set<number>>();
  let file = '';
  for (const line of stdout.split('\n')) {
    if (line.startsWith('+++ ')) file = /^\+\+\+ b\/(.*\.ts)$/.exec(line)?.[1] ?? '';
    const [, from = '0', many = '1'] = /^@@ -\S+ \+(\d+)(?:,(\d+))? @@/.exec(line) ?? [];
    if (file === '' || from === '0') continue;
    const touched = lines.get(file) ?? new Set();
    for (let n = 0; n < Number(many); n++) touched.add(Number(from) + n);
    lines.set(file, touched);
  }
  const touched = (await everyMutant([...lines.keys()])).filter(({ fileName, location: { start } }) =>
    lines.get(fileName)?.has(start.line + 1),
  );
  if (touched.length === 0) {
    console.log(`no mutant of src/core lies on a line that differs from ${base}`);
    return 100;
  }
  const ordered = inOrder(touched, base);
  const verdicts = new Map<string, Verdict>();
  for (let from = 0; from < ordered.length; from += LOT) {
    const some = await tryMutants(ordered.slice(from, from + LOT), until, printProgress);
    if (!some) break;
    for (const [key, verdict] of some) verdicts.set(key, verdict);
  }
  return report(`since ${base}`, ordered, verdicts, dirname);
}

function printProgress(done: number, of: number): void {
  if (done % 10 === 0) console.log(`${done} of ${of} have a verdict`);
}

function inOrder(mutants: readonly Mutant[], seed: string): Mutant[] {
  const lot = (mutant: Mutant) =>
    createHash('sha256')
      .update(`${seed} ${keyOf(mutant)}`)
      .digest('hex');
  return mutants
    .map((mutant) => ({ mutant, at: lot(mutant) }))
    .toSorted((a, b) => (a.at < b.at ? -1 : 1))
    .map(({ mutant }) => mutant);
}

/** Prints what no test noticed, the score of each folder or file, and that of all. @returns it, of a hundred */
function report(
  what: string,
  drawn: readonly Mutant[],
  verdicts: ReadonlyMap<string, Verdict>,
  by: (file: string) => string,
): number {
  const counts = new Map<Verdict | 'out of time', number>();
  const parts = new Map<string, { noticed: number; judged: number }>();
  for (const mutant of drawn.toSorted((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1))) {
    const verdict = verdicts.get(keyOf(mutant)) ?? 'out of time';
    counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
    const part = parts.get(by(mutant.fileName)) ?? { noticed: 0, judged: 0 };
    parts.set(by(mutant.fileName), part);
    if (verdict === 'noticed') part.noticed++;
    if (verdict !== 'out of time' && verdict !== 'left something behind') part.judged++;
    if (verdict === 'noticed' || verdict === 'out of time') continue;
    const { start, end } = mutant.location;
    console.log(
      `${mutant.fileName}:${start.line + 1}:${start.column + 1}-${end.line + 1}:${end.column + 1} ${verdict}: ${mutant.replacement ?? ''}`,
    );
  }
  for (const [part, { noticed, judged }] of parts)
    console.log(`${part}: ${noticed} of ${judged}, ${((100 * noticed) / Math.max(1, judged)).toFixed(1)} %`);
  const of = (verdict: Verdict | 'out of time') => counts.get(verdict) ?? 0;
  const judged = of('noticed') + of('survived') + of('reached by no test');
  const score = (100 * of('noticed')) / Math.max(1, judged);
  console.log(
    `${what}: ${of('noticed')} of ${judged} mutants noticed, ${score.toFixed(1)} %; ${drawn.length} drawn, of which ${drawn.length - judged} could not be judged (${of('out of time')} for want of time, ${of('left something behind')} left something behind)`,
  );
  return score;
}
