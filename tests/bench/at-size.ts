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
import { cp, mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { parseMarkdown } from '../../src/core/read/parse-markdown.ts';
import { runCommandLine } from '../../src/node/cli/run-command-line.ts';

const DEMO = resolve(import.meta.dirname, '../../content');
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
    const steps = await makeLibrary(scratch, lessons);
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

/** Steps of a library of so many lessons. */
async function makeLibrary(to: string, lessons: number): Promise<number> {
  for (const folder of ['lessons', 'recordings', 'media']) await mkdir(join(to, folder));
  for (const shared of ['specs', 'kit.yaml', 'words.yaml', 'shop.yaml'])
    await cp(join(DEMO, shared), join(to, shared), { recursive: true });
  const shop = await readFile(join(to, 'shop.yaml'), 'utf8');
  await writeFile(join(to, 'shop.yaml'), shop.replace(/^languages:.*$/m, 'languages: [en]'));
  const films = (await readdir(join(DEMO, 'media'))).filter((file) => file.endsWith('.mp4'));
  for (const film of films) await symlink(join(DEMO, 'media', film), join(to, 'media', film));
  const sources = (await readdir(join(DEMO, 'recordings'))).map((file) => basename(file, '.yaml'));
  let steps = 0;
  for (let i = 0; i < lessons; i++) {
    const source = sources[i % sources.length] ?? '';
    const read = (file: string) => readFile(join(DEMO, file), 'utf8');
    const id = `${source}-${i}`;
    const lesson = await read(`lessons/${source}.mdx`);
    steps += lesson.match(/^### /gm)?.length ?? 0;
    await writeFile(
      join(to, 'lessons', `${id}.mdx`),
      lesson.replace(/^title: .*$/m, `$& ${i}`).replace(/^recording: .*$/m, `recording: ${id}`),
    );
    const recording = await read(`recordings/${source}.yaml`);
    await writeFile(
      join(to, 'recordings', `${id}.yaml`),
      recording.replace(/^captions: .*$/m, `captions: media/${id}.vtt`),
    );
    const captions = await read(`media/${source}.vtt`);
    await writeFile(join(to, 'media', `${id}.vtt`), captions.replace('WEBVTT\n', `WEBVTT\n\nNOTE number ${i}\n`));
  }
  return steps;
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
