/**
 * What building the site of many lessons costs: from nothing, and over the last site after a change of one lesson.
 *
 *     npx node tests/bench/at-size-build.ts [lessons, 10 100 1000 when left out]
 *
 * Beside it what Astro alone takes to make pages of the same texts with its own Markdown, without a layout, a check, a
 * value or a search. Each in a process of its own; seconds of the processor, so that other work on the machine weighs
 * little. No film is placed.
 */
import { execFileSync } from 'node:child_process';
import { appendFile, mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { build } from 'astro';
import { filesBelow } from '../../src/node/files/index.ts';
import { writeLargeLibrary } from '../support/large-library.ts';

const HOME = resolve(import.meta.dirname, '../..');
const [, , first = '', scratch = ''] = process.argv;
const WORKS = { astro: bareAstro, build: wholeBuild };

if (first === 'astro' || first === 'build') {
  await WORKS[first](scratch);
  const { user, system } = process.cpuUsage();
  console.log(JSON.stringify({ seconds: (user + system) / 1e6, bytes: process.resourceUsage().maxRSS * 1024 }));
} else {
  const sizes = process.argv.slice(2).map(Number);
  console.log(`load ${loadavg()[0]?.toFixed(1)}`);
  console.log('lessons   steps   Astro alone      build   times   after an edit   memory   largest list');
  for (const size of sizes.length > 0 ? sizes : [10, 100, 1000]) await measure(size);
}

async function measure(lessons: number): Promise<void> {
  const scratch = await mkdtemp(join(tmpdir(), 'liftside-size-'));
  try {
    const content = join(scratch, 'content');
    await mkdir(content);
    const steps = await writeLargeLibrary(content, lessons, Math.ceil(lessons / 100));
    const astro = inProcess('astro', scratch);
    const built = inProcess('build', scratch);
    await appendFile(join(content, 'lessons', 'chain-0.mdx'), '\nOne more sentence.\n');
    const edited = inProcess('build', scratch);
    console.log(
      String(lessons).padStart(7),
      String(steps).padStart(7),
      `${astro.seconds.toFixed(1)} s`.padStart(13),
      `${built.seconds.toFixed(1)} s`.padStart(10),
      (built.seconds / astro.seconds).toFixed(1).padStart(7),
      `${edited.seconds.toFixed(1)} s`.padStart(15),
      `${(built.bytes / 1e6).toFixed(0)} MB`.padStart(8),
      `${((await largestList(join(scratch, 'site'))) / 1000).toFixed(0)} kB`.padStart(14),
    );
  } finally {
    await rm(scratch, { recursive: true });
  }
}

function inProcess(what: string, scratch: string): { seconds: number; bytes: number } {
  const told = execFileSync(process.execPath, [import.meta.filename, what, scratch], { encoding: 'utf8' });
  return JSON.parse(told.trim().split('\n').at(-1) ?? '');
}

/** The heaviest page that is not that of a lesson, bytes. */
async function largestList(site: string): Promise<number> {
  const lists = (await filesBelow(site)).filter((file) => /\.html$/.test(file) && !/^lessons\/(?!of\/)/.test(file));
  return Math.max(...(await Promise.all(lists.map(async (file) => (await readFile(join(site, file))).length))));
}

/** As it is typed. */
async function wholeBuild(scratch: string): Promise<void> {
  const words = ['build', '--content', join(scratch, 'content'), '--to', join(scratch, 'site')];
  process.argv.splice(2, process.argv.length, ...words);
  await import('../../src/node/cli/main.ts');
}

async function bareAstro(scratch: string): Promise<void> {
  const root = join(scratch, 'astro');
  const pages = join(root, 'src/pages');
  await mkdir(pages, { recursive: true });
  await symlink(join(HOME, 'node_modules'), join(root, 'node_modules'));
  const lessons = join(scratch, 'content/lessons');
  for (const file of await readdir(lessons))
    await writeFile(join(pages, `${basename(file, '.mdx')}.md`), await readFile(join(lessons, file)));
  await build({ root, configFile: false, logLevel: 'error' });
}
