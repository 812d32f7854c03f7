import { OutsideFailure } from '../failure.ts';
import { canRun, onPath } from './on-path.ts';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome', 'msedge'];
const ELSEWHERE = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/**
 * A Chromium to print papers and run browser tests with: `LIFTSIDE_CHROMIUM`, one on PATH, one in a usual place,
 * or the one that `npx playwright install chromium` downloads.
 *
 * @returns absolute path, or nothing
 */
export async function findChromium(env: Readonly<Record<string, string | undefined>>): Promise<string | undefined> {
  if (env.LIFTSIDE_CHROMIUM) return env.LIFTSIDE_CHROMIUM;
  const found = await onPath(NAMES, env);
  if (found) return found;
  for (const path of ELSEWHERE) if (await canRun(path)) return path;
  const path = await downloadedPath();
  if (path && (await canRun(path))) return path;
  return undefined;
}

/**
 * The Chromium for work that takes one.
 *
 * @param work for the message, such as `papers are printed`
 * @throws OutsideFailure where there is none
 */
export async function chromiumFor(work: string, env: Readonly<Record<string, string | undefined>>): Promise<string> {
  const found = await findChromium(env);
  if (found !== undefined) return found;
  throw new OutsideFailure(
    `${work} by Chromium, and none was found`,
    'install it (Debian: apt-get install chromium), or name one in LIFTSIDE_CHROMIUM',
  );
}

/** Loaded only here: it is a large package, and commands that only look for other programs go without it. */
async function downloadedPath(): Promise<string | undefined> {
  try {
    const { chromium } = await import('playwright-core');
    return chromium.executablePath();
  } catch {
    return undefined;
  }
}
