import { execa } from 'execa';
import { findChromium } from './find-chromium.ts';
import { canInstall, installWithApt } from './install.ts';
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
  needs: 'analyses and renders footage; checking, fitting, building and playing go without it',
  packages: ['ffmpeg'],
  find: async (env) => env.LIFTSIDE_FFMPEG ?? (await onPath(['ffmpeg'], env)),
};

/**
 * Finds the outside programs, and installs what is missing where it can: with apt as root on Debian and its like;
 * Chromium elsewhere through Playwright. Says what it does.
 *
 * @returns where each is, or nothing for one that is still missing
 */
export async function setUp(env: Env, say: (text: string) => void): Promise<{ chromium?: string; ffmpeg?: string }> {
  const chromium = await bring(CHROMIUM, env, say);
  const ffmpeg = await bring(FFMPEG, env, say);
  return { ...(chromium ? { chromium } : {}), ...(ffmpeg ? { ffmpeg } : {}) };
}

async function bring(outside: Outside, env: Env, say: (text: string) => void): Promise<string | undefined> {
  const found = await outside.find(env);
  if (found) {
    say(`${outside.name}: found at ${found}`);
    return found;
  }
  if (await canInstall(env)) {
    say(`${outside.name}: not found; installing the Debian packages ${outside.packages.join(', ')} (${outside.needs})`);
    await installWithApt(outside.packages).catch((error: unknown) => say(`apt-get failed: ${lastLine(error)}`));
  } else if (outside === CHROMIUM) {
    say('Chromium: not found; downloading it with npx playwright install chromium');
    await execa('npx', ['playwright', 'install', 'chromium'], { stdin: 'ignore' }).catch((error: unknown) =>
      say(`the download failed: ${lastLine(error)}`),
    );
  }
  const now = await outside.find(env);
  if (!now) say(`${outside.name}: still missing. It ${outside.needs}. Install it with your system's package manager.`);
  return now;
}

function lastLine(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return text.trim().split('\n').at(-1) ?? text;
}
