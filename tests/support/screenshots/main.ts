import { mkdir, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { openBrowser } from '../open-browser.ts';
import { analysedDemo, discard, startRoom } from '../start-room.ts';
import { SHOTS, type Shot } from './shots.ts';

// npm run screenshots [-- name …]: the pictures of the docs, taken of the demo, small enough to commit.

const to = join(resolve(import.meta.dirname, '../../..'), 'docs/screenshots');
const wanted = process.argv.slice(2);
const content = await analysedDemo('front-brake');
const started = await startRoom(content);
const browser = await openBrowser();
await mkdir(to, { recursive: true });
try {
  for (const shot of SHOTS) if (wanted.length === 0 || wanted.includes(shot.name)) await take(shot);
} finally {
  await browser.close();
  await started.stop();
  await discard(content);
}

async function take({
  name,
  other,
  address,
  width = 1280,
  height = 800,
  scheme = 'light',
  ready,
}: Shot): Promise<void> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: scheme,
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  await page.goto(started.address + address);
  const window = await ready(page, context);
  await save(page, name);
  if (window && other) await save(window, other);
  await context.close();
}

async function save(page: Page, name: string): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    // Of the local site alone.
    for (const tool of document.querySelectorAll('astro-dev-toolbar')) tool.remove();
  });
  const file = join(to, `${name}.webp`);
  await rm(file, { force: true });
  await sharp(await page.screenshot())
    .webp({ quality: 80, effort: 6 })
    .toFile(file);
  console.log(file);
}
