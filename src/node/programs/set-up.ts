import { execa } from 'execa';
import { findChromium } from './find-chromium.ts';
import { aptLine, canInstall, installWithApt, mayNotInstall } from './install.ts';
import { onPath } from './on-path.ts';

/** An outside program, what it is for, and the Debian packages that bring it. */
interface Outside {
  readonly name: string;
  readonly needs: string;
  readonly packages: readonly string[];
  find(env: Env): Promise<string | undefined>;
}

type Env = Readonly<Record<string, string | undefined>>;

const CHROMIUM: Outside = {
  name: 'Chromium',
  needs: 'prints papers and runs the browser tests',
  packages: ['chromium', 'fonts-dejavu-core'],
  find: findChromium,
};

const FFMPEG: Outside = {
  name: 'ffmpeg',
  needs: 'analyses and renders footage; you can check, fit, build and play without it',
  packages: ['ffmpeg'],
  find: async (env) => env.LIFTSIDE_FFMPEG ?? (await onPath(['ffmpeg'], env)),
};

const FETCH_CHROMIUM = 'npx playwright install chromium';

/** What set-up does to the machine, handed over so that tests install nothing. */
export interface Installer {
  /** Whether packages of the machine can be installed. */
  can(env: Env): Promise<boolean>;
  packages(names: readonly string[]): Promise<void>;
  fetchChromium(): Promise<unknown>;
}

const INSTALLER: Installer = {
  can: canInstall,
  packages: installWithApt,
  fetchChromium: () => execa('npx', FETCH_CHROMIUM.split(' ').slice(1), { stdin: 'ignore' }),
};

/**
 * Finds the outside programs, and installs what is missing where it can: with apt as root on Debian and its like;
 * Chromium elsewhere through Playwright. Says what it installs and why before it does; `LIFTSIDE_NO_INSTALL=1` keeps
 * it from installing anything.
 *
 * @returns where each is, or nothing for one that is still missing; `held`: the lines to type for what it was kept from
 */
export async function setUp(
  env: Env,
  say: (text: string) => void,
  installer: Installer = INSTALLER,
): Promise<{ chromium?: string; ffmpeg?: string; held?: readonly string[] }> {
  const missing: Outside[] = [];
  for (const outside of [CHROMIUM, FFMPEG]) {
    const found = await outside.find(env);
    if (found) say(`${outside.name}: found at ${found}`);
    else missing.push(outside);
  }
  const held = missing.length === 0 ? [] : await install(missing, env, say, installer);
  const chromium = await CHROMIUM.find(env);
  const ffmpeg = await FFMPEG.find(env);
  return {
    ...(chromium ? { chromium } : {}),
    ...(ffmpeg ? { ffmpeg } : {}),
    ...(held.length > 0 ? { held } : {}),
  };
}

/** @returns the lines to type, where nothing may be installed */
async function install(
  missing: readonly Outside[],
  env: Env,
  say: (text: string) => void,
  installer: Installer,
): Promise<readonly string[]> {
  for (const { name, needs } of missing) say(`${name}: not found. It ${needs}.`);
  const can = await installer.can(env);
  const packages = missing.flatMap((outside) => outside.packages);
  const fetches = missing.includes(CHROMIUM) && !can;
  const lines = can ? [aptLine(packages)] : fetches ? [FETCH_CHROMIUM] : [];
  if (lines.length > 0 && mayNotInstall(env)) {
    say(`LIFTSIDE_NO_INSTALL is set, so nothing is installed. Type it yourself:\n  ${lines.join('\n  ')}`);
    return lines;
  }
  if (can) {
    say(`Installing for the whole machine: ${lines[0]}\n(LIFTSIDE_NO_INSTALL=1 keeps Liftside from installing.)`);
    await installer.packages(packages).catch((error: unknown) => say(`apt-get failed: ${lastLine(error)}`));
  } else if (fetches) {
    say(`Downloading Chromium: ${FETCH_CHROMIUM}\n(LIFTSIDE_NO_INSTALL=1 keeps Liftside from downloading.)`);
    await installer.fetchChromium().catch((error: unknown) => say(`the download failed: ${lastLine(error)}`));
  }
  for (const { name, find } of missing)
    if (!(await find(env))) say(`${name}: still missing. Install it with your system's package manager.`);
  return [];
}

function lastLine(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return text.trim().split('\n').at(-1) ?? text;
}
