import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import sharp from 'sharp';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { openBrowser } from './open-browser.ts';

// node tests/support/screenshots.ts [name …]: pictures of the demo's pages for the docs, small enough to commit.

const home = resolve(import.meta.dirname, '../..');
const to = join(home, 'docs/screenshots');
const PAGES = {
  home: '',
  lesson: 'lessons/chain/#tighten-the-axle-nut',
  steps: 'steps/?q=axle',
  specs: 'specs/tarn-420/',
  'run-sheet': 'classes/chain-saturday/run-sheet/',
  handout: 'classes/chain-saturday/handout/',
};
const SIZES = [
  { width: 390, height: 844, scheme: 'light' },
  { width: 1280, height: 800, scheme: 'light' },
  { width: 1280, height: 800, scheme: 'dark' },
  { width: 1920, height: 1080, scheme: 'light' },
] as const;

const wanted = process.argv.slice(2);
const site = await mkdtemp(join(tmpdir(), 'liftside-shots-'));
await buildSite({
  content: join(home, 'content'),
  footage: 'uncut',
  out: site,
  home,
  env: process.env,
  now: () => new Date('2027-02-20T12:00:00Z'),
});
const served = await serveSite({ dir: site });
const browser = await openBrowser();
await mkdir(to, { recursive: true });

for (const { width, height, scheme } of SIZES) {
  const page = await browser.newPage({ viewport: { width, height }, colorScheme: scheme, reducedMotion: 'reduce' });
  for (const [name, address] of Object.entries(PAGES)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    await page.goto('about:blank');
    await page.goto(served.address + address);
    if (name === 'lesson')
      await page.waitForFunction(() => {
        const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
        return video && video.readyState >= 2 && !video.seeking && document.querySelector('.step.current');
      });
    if (name === 'steps') await page.locator('.results li').first().waitFor();
    await page.evaluate(() => document.fonts.ready);
    const file = join(to, `${name}-${width}${scheme === 'dark' ? '-dark' : ''}.webp`);
    await sharp(await page.screenshot())
      .webp({ quality: 80, effort: 6 })
      .toFile(file);
    console.log(file);
  }
  await page.close();
}
await browser.close();
await served.close();
await rm(site, { recursive: true, force: true });
