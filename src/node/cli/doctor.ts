import { readdir, stat, statfs } from 'node:fs/promises';
import { totalmem } from 'node:os';
import { dirname, join } from 'node:path';
import { loadShop } from '../files/index.ts';
import { findListener, VOICE_MODEL } from '../media/listener.ts';
import { findTools } from '../media/tools.ts';
import { findChromium, onPath } from '../programs/index.ts';
import { findModel, NO_MODEL, namedModel } from '../words/find-model.ts';
import { command, EXIT } from './command.ts';

/** Something this machine has or lacks. */
interface Finding {
  readonly what: string;
  /** Version and place; nothing where it is missing. */
  readonly found?: string;
  readonly needed: string;
  /** What to type or to do, where it is missing. */
  readonly help?: string;
}

const GB = 1e9;

export default command({
  name: 'doctor',
  summary: 'what this machine has for Liftside, what each is for, and how to get what is missing',
  args: [],
  options: [{ name: 'json', help: 'one JSON document' }],

  async run(_, flags, { content, cwd, env, out }) {
    const findings = [
      node(),
      await ffmpeg(env),
      await chromium(env),
      await listener(),
      await speechModel(content, cwd, env),
      await espeak(env),
      await git(env),
      memory(),
      await disk(content),
    ];
    out(flags.has('json') ? JSON.stringify({ findings }, null, 2) : findings.map(inWords).join('\n\n'));
    return EXIT.fine;
  },
});

function inWords({ what, found, needed, help }: Finding): string {
  return [`${what}: ${found ?? 'missing'}`, `  ${needed}`, ...(help ? [`  ${help}`] : [])].join('\n');
}

function node(): Finding {
  return { what: 'Node', found: `${process.version}, ${process.execPath}`, needed: 'runs Liftside' };
}

async function ffmpeg(env: Readonly<Record<string, string | undefined>>): Promise<Finding> {
  const needed = 'analyses, aligns and renders footage; you can check, fit, build and play without it';
  const tools = await findTools(env);
  if (!tools.ok) return { what: 'ffmpeg', needed, help: `${tools.problem}: ${tools.help}` };
  const { version, ffmpeg: path, encoders } = tools.value;
  const extra = ['libvpx-vp9', 'libopus'].filter((name) => !encoders.has(name));
  return {
    what: 'ffmpeg',
    found: `${version}, ${path}`,
    needed,
    ...(extra.length > 0 && {
      help: `it was built without ${extra.join(' and ')}, so render --also vp9 will not work`,
    }),
  };
}

async function chromium(env: Readonly<Record<string, string | undefined>>): Promise<Finding> {
  const found = await findChromium(env);
  const needed = 'prints papers as PDF, and draws the cards of render --burn; all else works without it';
  return {
    what: 'Chromium',
    ...(found === undefined
      ? { help: 'Debian: apt-get install chromium; elsewhere: npx playwright install chromium' }
      : { found }),
    needed,
  };
}

async function listener(): Promise<Finding> {
  const what = 'network for speech';
  const needed =
    'tells speech from tools when footage is analysed; without it loudness serves, and loud work counts as speech';
  const found = await findListener();
  return found.ok
    ? { what, found: `${found.value.name}, ${VOICE_MODEL}`, needed }
    : { what, needed, help: `${found.problem}: ${found.help}` };
}

/** Of `--model` it knows nothing; of the shop only where it can be read. */
async function speechModel(
  content: string,
  cwd: string,
  env: Readonly<Record<string, string | undefined>>,
): Promise<Finding> {
  const what = 'model that recognises speech';
  const needed = 'writes captions from the sound alone, by transcribe; all else works without it';
  const info = await loadShop(content).then(
    ({ shop }) => shop.info,
    () => ({}),
  );
  const named = namedModel({ cwd, env, info, content });
  if (!named) return { what, needed, help: `${NO_MODEL.problem}: ${NO_MODEL.help}` };
  const found = await findModel(named);
  return found.ok
    ? { what, found: `${found.value.kind}, ${named.folder} (named by ${named.by})`, needed }
    : { what, needed, help: `${found.problem}: ${found.help}` };
}

async function espeak(env: Readonly<Record<string, string | undefined>>): Promise<Finding> {
  const found = await onPath(['espeak-ng'], env);
  const needed = 'speaks a text, so that transcribe can lay it on the sound; all else works without it';
  return {
    what: 'espeak-ng',
    ...(found === undefined
      ? { help: 'Debian and Ubuntu: apt-get install espeak-ng; macOS: brew install espeak-ng' }
      : { found }),
    needed,
  };
}

async function git(env: Readonly<Record<string, string | undefined>>): Promise<Finding> {
  const found = await onPath(['git'], env);
  const needed =
    'fetches collections that lie in git repositories; from folders and https addresses they come without it';
  if (found !== undefined) return { what: 'git', found, needed };
  return { what: 'git', needed, help: 'install git, where a collection that you use lies in a repository' };
}

function memory(): Finding {
  return {
    what: 'memory',
    found: `${(totalmem() / GB).toFixed(1)} GB`,
    needed: 'shared by builds, renders and all else that runs',
  };
}

/** What files of footage take together, bytes. */
async function footageBytes(content: string): Promise<number> {
  const media = join(content, 'media');
  const names = await readdir(media).catch(() => []);
  const sizes = await Promise.all(
    names.map((name) =>
      stat(join(media, name)).then(
        ({ size }) => size,
        () => 0,
      ),
    ),
  );
  return sizes.reduce((sum, size) => sum + size, 0);
}

/** Of the disk that holds the content folder, or the nearest folder above that is there. */
async function disk(content: string): Promise<Finding> {
  const about = await statfs(content).catch(() => undefined);
  if (!about)
    return content === dirname(content) ? { what: 'disk', needed: 'holds the content' } : disk(dirname(content));
  const free = about.bavail * about.bsize;
  // A programme is as large as what is kept of the footage, and its pieces lie beside it until it is whole.
  const room = 2 * (await footageBytes(content));
  return {
    what: 'disk',
    found: `${(free / GB).toFixed(1)} GB free where ${content} is`,
    needed: 'pieces of a render and the programme lie beside the footage until it is whole',
    ...(free < room && { help: `make room: rendering all of the footage takes up to ${(room / GB).toFixed(1)} GB` }),
  };
}
