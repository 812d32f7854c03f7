/**
 * What building the site of many lessons costs: from nothing, and over the last site after a change of one lesson.
 *
 *     npx node tests/bench/at-size-build.ts [lessons, 10 100 1000 when left out]
 *
 * Beside it what Astro alone takes to make pages of the same MDX, where each element shows what is in it: without a
 * layout, a check, a value or a search. Each in a process of its own; seconds by the clock, for both processors may be
 * used, then of the processors. The pages are bundled already, as after the first build of all; no film is placed. What is
 * put together of the program is used once its sources have rested for ten minutes.
 */
import { appendFile, mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import mdx from '@astrojs/mdx';
import { build as buildByAstro } from 'astro';
import { filesBelow } from '../../src/node/files/index.ts';
import { MAIN } from '../support/as-typed.ts';
import { writeLargeLibrary } from '../support/large-library.ts';
import { costInWords, costOf } from '../support/process-cost.ts';

const HOME = resolve(import.meta.dirname, '../..');
const [, , first = '', scratch = ''] = process.argv;
if (first === 'astro') await bareAstro(scratch);
else {
  const sizes = process.argv.slice(2).map(Number);
  console.log(`load ${loadavg()[0]?.toFixed(1)}`);
  for (const size of sizes.length > 0 ? sizes : [10, 100, 1000]) await measure(size);
}

async function measure(lessons: number): Promise<void> {
  const scratch = await mkdtemp(join(tmpdir(), 'liftside-size-'));
  try {
    const content = join(scratch, 'content');
    await mkdir(content);
    const steps = await writeLargeLibrary(content, lessons, Math.ceil(lessons / 100));
    const build = () => costOf(MAIN, 'build', '--content', content, '--to', join(scratch, 'site'));
    const kept = join(content, '.liftside');
    build();
    await rm(kept, { recursive: true });
    await rm(join(scratch, 'site'), { recursive: true });
    const astro = costOf(import.meta.filename, 'astro', scratch);
    const built = build();
    await appendFile(join(content, 'lessons', 'chain-0.mdx'), '\nOne more sentence.\n');
    const edited = build();
    const again = build();
    console.log(
      `\n${lessons} lessons, ${steps} steps; the largest list ${kB(await largestList(join(scratch, 'site')))}`,
    );
    console.log(`  Astro alone        ${costInWords(astro)}`);
    console.log(
      `  from nothing       ${costInWords(built)}  ${(built.clock / astro.clock).toFixed(1)} times by the clock`,
    );
    console.log(
      `  a lesson edited    ${costInWords(edited)}  ${((100 * edited.clock) / built.clock).toFixed(0)} % of it`,
    );
    console.log(`  nothing changed    ${costInWords(again)}`);
  } finally {
    await rm(scratch, { recursive: true });
  }
}

function kB(bytes: number): string {
  return `${(bytes / 1000).toFixed(0)} kB`;
}

/** The heaviest page that is not that of a lesson, bytes. */
async function largestList(site: string): Promise<number> {
  const lists = filesBelow(site).filter((file) => /\.html$/.test(file) && !/^lessons\/(?!of\/)/.test(file));
  return Math.max(...(await Promise.all(lists.map(async (file) => (await readFile(join(site, file))).length))));
}

async function bareAstro(scratch: string): Promise<void> {
  const root = join(scratch, 'astro');
  const pages = join(root, 'src/pages');
  await mkdir(pages, { recursive: true });
  await symlink(join(HOME, 'node_modules'), join(root, 'node_modules'));
  await writeFile(join(root, 'src/Shown.astro'), '<slot />\n');
  const lessons = join(scratch, 'content/lessons');
  for (const file of await readdir(lessons))
    await writeFile(join(pages, file), withElements(await readFile(join(lessons, file), 'utf8')));
  await buildByAstro({ root, configFile: false, logLevel: 'error', integrations: [mdx()] });
}

/** A lesson whose elements are known: below the front matter each is imported by its name. */
function withElements(lesson: string): string {
  const names = new Set([...lesson.matchAll(/<([A-Z]\w*)/g)].map(([, name]) => name));
  const imports = [...names].map((name) => `import ${name} from '../Shown.astro';`).join('\n');
  return lesson.replace(/^---\n[\s\S]*?\n---\n/, (matter) => `${matter}\n${imports}\n`);
}
