import type { BrowserContext, Page } from '@playwright/test';

/** A picture of the docs: a page of the demo, and what has to be there before it is taken. */
export interface Shot {
  /** Of its file in `docs/screenshots`, without `.webp`. */
  readonly name: string;
  readonly address: string;
  /** CSS px; 1280 × 800 when left out. */
  readonly width?: number;
  readonly height?: number;
  readonly scheme?: 'light' | 'dark';
  /** Of the picture of another window, which `ready` gives back. */
  readonly other?: string;
  /** Brings the page to where it is worth a picture. */
  ready(page: Page, context: BrowserContext): Promise<Page | undefined>;
}

const asItIs = async () => undefined;

const pictureShown = async (page: Page): Promise<undefined> => {
  await page.waitForFunction(() => {
    const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
    return video && video.readyState >= 2 && !video.seeking && document.querySelector('.step.current');
  });
};

const LESSON = 'lessons/chain/#tighten-the-axle-nut';

/** Every picture of the docs; each is used by a page, which a test holds. */
export const SHOTS: readonly Shot[] = [
  { name: 'home', address: '', ready: asItIs },
  { name: 'lesson', address: LESSON, ready: pictureShown },
  { name: 'lesson-dark', address: LESSON, scheme: 'dark', ready: pictureShown },
  { name: 'lesson-phone', address: LESSON, width: 390, height: 844, ready: pictureShown },
  {
    name: 'steps',
    address: 'steps/?q=axle',
    async ready(page) {
      await page.locator('.results li').first().waitFor();
      return undefined;
    },
  },
  { name: 'specs', address: 'specs/tarn-420/', ready: asItIs },
  { name: 'run-sheet', address: 'classes/chain-saturday/run-sheet/', ready: asItIs },
  { name: 'handout', address: 'classes/chain-saturday/handout/', ready: asItIs },
  { name: 'recordings', address: 'cutting-room/', ready: asItIs },
  { name: 'cutting-room', address: 'cutting-room/front-brake/', ready: cutting },
  { name: 'class-day', other: 'class-day-room', address: 'classes/chain-saturday/present/', ready: underWay },
];

/** The cutting room at a step, with its picture, its pictures on the strip and what the check says. */
async function cutting(page: Page): Promise<undefined> {
  await page.locator('.strip .over').waitFor();
  await page.locator('.suggestions li').first().waitFor();
  // Fifth of the list, to its cue, and near enough to read the balloons.
  for (const key of ['ArrowDown', 'ArrowDown', 'ArrowDown', 'ArrowDown', 'Enter', '+', '+', '+', '+'])
    await page.keyboard.press(key);
  await page.waitForFunction(() => {
    const seen = [...document.querySelectorAll('video')].find((video) => !video.hidden);
    return seen && seen.readyState >= 2 && !seen.seeking;
  });
  await page.locator('.findings small').filter({ hasNotText: 'reading' }).waitFor();
  return undefined;
}

/** A class that has come to its first film; the room's window. */
async function underWay(page: Page, context: BrowserContext): Promise<Page> {
  const [room] = await Promise.all([
    context.waitForEvent('page'),
    page.getByRole('button', { name: 'Open the room’s window' }).click(),
  ]);
  await room.setViewportSize({ width: 1280, height: 720 });
  await page.getByRole('button', { name: 'Begin the class' }).click();
  await page.getByRole('heading', { level: 1, name: 'Welcome, names, who rides what' }).waitFor();
  for (const key of ['n', 'n']) await page.keyboard.press(key);
  await room.locator('.step-title').waitFor();
  await page.keyboard.press('g');
  await page.keyboard.type('5.3');
  await page.keyboard.press('Enter');
  await room.locator('.values dd').first().waitFor();
  await room.waitForFunction(() => {
    const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
    return video && video.readyState >= 2 && !video.seeking;
  });
  return room;
}
