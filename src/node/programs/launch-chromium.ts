import type { Browser } from 'playwright-core';

/** Starts a Chromium without a window. @param executablePath as `findChromium` gives it */
export async function launchChromium(executablePath: string): Promise<Browser> {
  // Loaded only where it is needed: it is large.
  const { chromium } = await import('playwright-core');
  return chromium.launch({
    executablePath,
    args: ['--disable-gpu', '--disable-background-networking', ...sandbox()],
  });
}

/** Chromium refuses its sandbox to root, as in containers; the pages are our own and talk to this machine only. */
function sandbox(): string[] {
  return process.getuid?.() === 0 ? ['--no-sandbox'] : [];
}
