import { type Browser, chromium } from '@playwright/test';
import { findChromium } from '../../src/node/programs/index.ts';

/** A Chromium without a window, that plays without being clicked, for what runs outside of playwright's own runner. */
export async function openBrowser(): Promise<Browser> {
  const executablePath = await findChromium(process.env);
  return chromium.launch({
    args: ['--no-sandbox', '--disable-gpu', '--autoplay-policy=no-user-gesture-required'],
    ...(executablePath && { executablePath }),
  });
}
