/**
 * What a library of many lessons costs to check. The lessons are the demo's, again and again under other names, each
 * with a recording and captions of its own:
 *
 *     npx node tests/bench/at-size.ts [lessons, 10 100 1000 3000 when left out]
 *
 * `check` from nothing, the second time, and after one edit of a lesson, of captions and of the spec table that all
 * lessons cite, each as a whole process of the command line beside the bare parse of the same lessons by the same
 * parser; then the same edits in the running program. Times are of the processor, so that other work on the machine
 * weighs little; after an edit also by the clock.
 */
import { appendFile, mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { check } from '../../src/core/check/index.ts';
import { parseMarkdown } from '../../src/core/read/parse-markdown.ts';
import { shopLoader } from '../../src/node/files/index.ts';
import { MAIN } from '../support/as-typed.ts';
import { writeLargeLibrary } from '../support/large-library.ts';
import { costInWords, costOf } from '../support/process-cost.ts';

/** Edits of one kind in the running program; the middle one counts. */
const EDITS = 5;

/** What is edited, each so that no length stays as it was. */
const EDITED = {
  lesson: (content: string) => appendFile(join(content, 'lessons/chain-0.mdx'), '\nOne more line of words.\n'),
  captions: (content: string) => appendFile(join(content, 'media/chain-0.vtt'), '\nNOTE one more\n'),
  specs: (content: string) => appendFile(join(content, 'specs/tarn-420.yaml'), '# one more\n'),
} as const;

const [, , first = '', given = ''] = process.argv;
if (first === 'parse') await bareParse(given);
else if (first === 'running') await running(given);
else {
  const sizes = process.argv.slice(2).map(Number);
  console.log(`load ${loadavg()[0]?.toFixed(1)}`);
  for (const size of sizes.length > 0 ? sizes : [10, 100, 1000, 3000]) await measure(size);
}

async function measure(lessons: number): Promise<void> {
  const content = await mkdtemp(join(tmpdir(), 'liftside-size-'));
  try {
    const steps = await writeLargeLibrary(content, lessons);
    // The probe of films and the compiling of the program are no part of it.
    costOf(MAIN, 'check', '--content', content);
    for (const kept of ['check.kept', 'check.pieces']) await rm(join(content, '.liftside', kept), { recursive: true });
    await rm(join(content, '.liftside/read'), { recursive: true, force: true });
    const parse = costOf(import.meta.filename, 'parse', content);
    const nothing = costOf(MAIN, 'check', '--content', content);
    console.log(`\n${lessons} lessons, ${steps} steps`);
    console.log(`  bare parse             ${costInWords(parse)}`);
    console.log(
      `  check from nothing     ${costInWords(nothing)}  ${(nothing.seconds / parse.seconds).toFixed(2)} times`,
    );
    console.log(`  the second time        ${costInWords(costOf(MAIN, 'check', '--content', content))}`);
    for (const [what, edit] of Object.entries(EDITED)) {
      await edit(content);
      const cost = costOf(MAIN, 'check', '--content', content);
      console.log(`  one edit of ${what.padEnd(10)} ${costInWords(cost)}  ${share(cost.seconds / nothing.seconds)}`);
    }
    // From the second time on lessons are read back for it.
    await EDITED.specs(content);
    const again = costOf(MAIN, 'check', '--content', content);
    console.log(`  another of specs       ${costInWords(again)}  ${share(again.seconds / nothing.seconds)}`);
    console.log(costOf(import.meta.filename, 'running', content).out);
  } finally {
    await rm(content, { recursive: true });
  }
}

function share(of: number): string {
  return `${(100 * of).toFixed(1)} %`;
}

async function bareParse(content: string): Promise<void> {
  const folder = join(content, 'lessons');
  for (const file of await readdir(folder)) parseMarkdown(await readFile(join(folder, file), 'utf8'));
}

/** What `start` does after an edit until it knows the findings. */
async function running(content: string): Promise<void> {
  const load = shopLoader(content);
  const again = async () => {
    const { shop, diagnostics } = await load();
    check(shop, diagnostics, { today: '2026-11-28' });
  };
  await again();
  for (const [what, edit] of Object.entries(EDITED)) {
    const costs: { readonly ms: number; readonly clock: number }[] = [];
    for (let n = 0; n < EDITS; n++) {
      await edit(content);
      const [start, before] = [performance.now(), process.cpuUsage()];
      await again();
      const { user, system } = process.cpuUsage(before);
      costs.push({ ms: (user + system) / 1e3, clock: performance.now() - start });
    }
    const middle = costs.toSorted((a, b) => a.ms - b.ms)[(EDITS - 1) / 2];
    console.log(
      `  running, edit of ${what.padEnd(10)} ${middle?.ms.toFixed(0).padStart(5)} ms, by the clock ${middle?.clock.toFixed(0).padStart(6)} ms`,
    );
  }
}
