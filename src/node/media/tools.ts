import { delimiter, dirname } from 'node:path';
import { execa } from 'execa';
import { fail, ok, type Parsed } from '../../core/time/index.ts';
import { onPath } from '../programs/index.ts';

/** ffmpeg and ffprobe as found on this machine, and what they can do. */
export interface Tools {
  readonly ffmpeg: string;
  readonly ffprobe: string;
  /** Such as `5.1.9`. */
  readonly version: string;
  /** Names of the encoders it was built with. */
  readonly encoders: ReadonlySet<string>;
}

/** The oldest release that has every option used here (`-fps_mode` came with 5.1). */
const OLDEST = [5, 1] as const;
/** Without these nothing can be rendered. */
const NEEDED = ['libx264', 'aac'] as const;

const HELP =
  'install it (Debian and Ubuntu: apt-get install ffmpeg; macOS: brew install ffmpeg), or name one in LIFTSIDE_FFMPEG';

/**
 * Finds ffmpeg in `LIFTSIDE_FFMPEG`, else on PATH, and checks its version and encoders.
 *
 * @returns the tools, or what is missing and what to do
 */
export async function findTools(env: Readonly<Record<string, string | undefined>>): Promise<Parsed<Tools>> {
  const named = env.LIFTSIDE_FFMPEG;
  const ffmpeg = named ?? (await onPath(['ffmpeg'], env));
  if (!ffmpeg) return fail('ffmpeg is not installed', HELP);
  const ffprobe = await onPath(['ffprobe'], { PATH: [dirname(ffmpeg), env.PATH ?? ''].join(delimiter) });
  const [about, listed = ''] = await Promise.all(
    ['-version', '-encoders'].map((what) => outputOf(ffmpeg, ['-hide_banner', what])),
  );
  if (about === undefined)
    return fail(`${named ? 'LIFTSIDE_FFMPEG names' : 'PATH holds'} ${ffmpeg}, which cannot be run`, HELP);
  if (!ffprobe) return fail(`ffprobe, which belongs to ffmpeg, was not found beside ${ffmpeg} or on PATH`, HELP);
  const version = /^ffmpeg version n?(\S+)/.exec(about)?.[1] ?? 'unknown';
  const release = /^(\d+)\.(\d+)/.exec(version);
  const [major = 0, minor = 0] = (release?.slice(1) ?? []).map(Number);
  if (release && (major < OLDEST[0] || (major === OLDEST[0] && minor < OLDEST[1])))
    return fail(`ffmpeg ${version} is too old; ${OLDEST.join('.')} or newer is needed`, HELP);
  const encoders = new Set([...listed.matchAll(/^ [VAS][A-Z.]{5} (\S+)/gm)].map((match) => match[1] ?? ''));
  const lacking = NEEDED.filter((name) => !encoders.has(name));
  if (lacking.length > 0) return fail(`ffmpeg ${version} was built without ${lacking.join(' and ')}`, HELP);
  return ok({ ffmpeg, ffprobe, version, encoders });
}

async function outputOf(program: string, args: readonly string[]): Promise<string | undefined> {
  return execa(program, args, { stdin: 'ignore' }).then(
    ({ stdout }) => stdout,
    () => undefined,
  );
}
