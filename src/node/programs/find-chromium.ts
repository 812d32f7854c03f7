import { chromium } from 'playwright-core';
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
  for (const path of [...ELSEWHERE, downloaded()]) if (path && (await canRun(path))) return path;
  return undefined;
}

function downloaded(): string | undefined {
  try {
    return chromium.executablePath();
  } catch {
    return undefined;
  }
}
