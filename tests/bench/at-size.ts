/**
 * What a library of many lessons costs. The lessons are the demo's, again and again under other names, each with a
 * recording and captions of its own:
 *
 *     npx node tests/bench/at-size.ts [lessons, 10 100 1000 when left out]
 *
 * `check` from nothing stands beside the bare parse of the same lessons by the same parser. Each in a process of its
 * own; times are of the processor, so that other work on the machine weighs little.
 */
import { execFileSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseMarkdown } from '../../src/core/read/parse-markdown.ts';
import { runCommandLine } from '../../src/node/cli/run-command-line.ts';
import { writeLargeLibrary } from '../support/large-library.ts';

const [, , first = '', content = ''] = process.argv;

if (first === 'parse' || first === 'check') {
  const work = first === 'parse' ? bareParse : bareCheck;
  await work(content);
  const { user, system } = process.cpuUsage();
  console.log(JSON.stringify({ seconds: (user + system) / 1e6, bytes: process.resourceUsage().maxRSS * 1024 }));
} else {
  const sizes = process.argv.slice(2).map(Number);
  console.log(`load ${loadavg()[0]?.toFixed(1)}`);
  console.log('lessons   steps   bare parse      check   times   memory');
  for (const size of sizes.length > 0 ? sizes : [10, 100, 1000]) await measure(size);
}

async function measure(lessons: number): Promise<void> {
  const scratch = await mkdtemp(join(tmpdir(), 'liftside-size-'));
  try {
    const steps = await writeLargeLibrary(scratch, lessons);
    const [parse, check] = ['parse', 'check'].map((what) => inProcess(what, scratch));
    if (!parse || !check) throw new Error('nothing was measured');
    console.log(
      String(lessons).padStart(7),
      String(steps).padStart(7),
      `${parse.seconds.toFixed(2)} s`.padStart(12),
      `${check.seconds.toFixed(2)} s`.padStart(10),
      (check.seconds / parse.seconds).toFixed(2).padStart(7),
      `${(check.bytes / 1e6).toFixed(0)} MB`.padStart(8),
    );
  } finally {
    await rm(scratch, { recursive: true });
  }
}

function inProcess(what: string, content: string): { seconds: number; bytes: number } {
  const told = execFileSync(process.execPath, [import.meta.filename, what, content], { encoding: 'utf8' });
  return JSON.parse(told.trim().split('\n').at(-1) ?? '');
}

async function bareParse(content: string): Promise<void> {
  const folder = join(content, 'lessons');
  for (const file of await readdir(folder)) parseMarkdown(await readFile(join(folder, file), 'utf8'));
}

async function bareCheck(content: string): Promise<void> {
  await runCommandLine(['check', '--content', content], {
    ...{ cwd: content, home: content, env: {}, terminal: false, now: () => new Date(), input: async () => '' },
    signal: new AbortController().signal,
    ...{ out: (text: string) => console.log(text), say: (text: string) => console.error(text) },
  });
}
