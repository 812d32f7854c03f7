import { readFileSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { execa } from 'execa';

export const HOME = resolve(import.meta.dirname, '../../..');
export const MAIN = join(HOME, 'src/node/cli/liftside.mjs');
const KILL = pathToFileURL(join(import.meta.dirname, 'kill-at.mjs')).href;
const CLOCK = pathToFileURL(join(import.meta.dirname, 'clock.mjs')).href;

/** A test runner's own variables would make the site's builder build no pages. */
function calm(): NodeJS.ProcessEnv {
  const { VITEST: _runner, NODE_ENV: _mode, TEST: _test, LIFTSIDE_TRACE: _trace, ...env } = process.env;
  return env;
}

export interface ChildWishes {
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** Kills itself before this change of the disk, counted from 1; `half`: in the middle of what it writes. */
  readonly killAt?: { readonly place: number; readonly half: boolean };
  /** Seconds that the child's clock is off; `jump`: by so much more with each look at it. */
  readonly clock?: { readonly off: number; readonly jump?: number };
}

/** Runs Node with these words in a process of its own. */
export function child(words: readonly string[], { cwd = HOME, env = {}, killAt, clock }: ChildWishes = {}) {
  const imports = [...(killAt ? [KILL] : []), ...(clock ? [CLOCK] : [])].flatMap((url) => ['--import', url]);
  return execa(process.execPath, [...imports, ...words], {
    cwd,
    extendEnv: false,
    reject: false,
    all: true,
    env: {
      ...calm(),
      NO_COLOR: '1',
      ...env,
      ...(killAt && { LIFTSIDE_KILL_AT: String(killAt.place) }),
      ...(killAt?.half && { LIFTSIDE_KILL_HALF: '1' }),
      ...(clock && { LIFTSIDE_CLOCK: `${clock.off} ${clock.jump ?? 0}` }),
    },
  });
}

/** Asks whether a child still runs. */
export function watching(running: Promise<unknown>): () => boolean {
  let over = false;
  void running.then(() => {
    over = true;
  });
  return () => !over;
}

/** A script in TypeScript or JavaScript, as the words of {@link child}. */
export function script(text: string, ...given: readonly string[]): string[] {
  return ['--input-type=module-typescript', '-e', text, ...given];
}

/** How many changes of the disk a child makes when nobody kills it. */
export async function countChanges(words: readonly string[], wishes: ChildWishes = {}): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'liftside-count-'));
  const file = join(folder, 'changes');
  try {
    const ended = await child(words, {
      ...wishes,
      env: { ...wishes.env, LIFTSIDE_KILL_COUNT: file },
      killAt: { place: 0, half: false },
    });
    if (ended.exitCode !== 0) throw new Error(`undisturbed it ended with ${ended.exitCode}: ${ended.all}`);
    return Number(readFileSync(file, 'utf8'));
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** Every file under a folder, hidden ones too, with its text. */
export async function contents(folder: string): Promise<Record<string, string>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  return Object.fromEntries(
    await Promise.all(files.map(async (path) => [path.slice(folder.length + 1), await readFile(path, 'latin1')])),
  );
}

/** A folder that is gone when the work is done. */
export async function inFolder<T>(name: string, work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), `liftside-${name}-`));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** The line of figures that each run of faults closes with. */
export function figures(what: string, counts: Readonly<Record<string, number>>): void {
  const line = Object.entries(counts)
    .map(([name, n]) => `${n} ${name}`)
    .join(', ');
  console.log(`faults: ${what}: ${line}`);
}
