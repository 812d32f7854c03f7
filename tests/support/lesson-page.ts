import { expect, type Page } from '@playwright/test';
import { PNG } from 'pngjs';
import type { Shop } from '../../src/core/model/index.ts';
import { type LessonTimes, lessonTimes } from '../../src/core/programme/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { readFrameStrip } from './frame-strip.ts';
import { CONTENT } from './serve-demo.ts';

let shop: Promise<Shop> | undefined;

/** The demo's shop, read once. */
export function demoShop(): Promise<Shop> {
  shop ??= loadShop(CONTENT).then((loaded) => loaded.shop);
  return shop;
}

export async function demoTimes(lessonId: string): Promise<LessonTimes> {
  const { lessons, recordings } = await demoShop();
  const lesson = lessons.find(({ id }) => id === lessonId)!;
  return lessonTimes(lesson, recordings.find(({ id }) => id === lesson.recording)!);
}

/** What is seen and said at one moment: taken together, so that they belong together. */
export interface Seen {
  /** Frame of the recording, read off the picture; nothing where it could not be read. */
  readonly frame: number | undefined;
  /** Programme seconds, as the player says. */
  readonly time: number;
  /** Wall clock, seconds. */
  readonly wall: number;
  readonly file: string;
}

/** Opens a lesson and its player, and waits for a picture: without a place in the address, it stands at the start. */
export async function openLesson(page: Page, address: string): Promise<void> {
  await page.goto(address);
  if (!address.includes('#')) {
    await page.locator('lesson-player.ready').waitFor();
    await page.evaluate(() => {
      location.hash = 't=0';
    });
  }
  await pictureIsThere(page);
}

export async function pictureIsThere(page: Page): Promise<void> {
  await page.locator('lesson-player.open').waitFor();
  await page.waitForFunction(() => {
    const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
    return video !== null && video.readyState >= 2 && !video.seeking;
  });
}

/** Reads the picture on screen and the player's time together. */
export async function see(page: Page): Promise<Seen> {
  return decoded(await page.evaluate(LOOK));
}

/**
 * Looks, presses play, and looks again and again until a moment of the programme is reached; all of it inside the page,
 * so that a busy machine cannot stretch the time between the press and the first look.
 *
 * @returns all that was seen
 */
export async function watch(page: Page, until: number): Promise<Seen[]> {
  const looks = await page.evaluate(
    async ({ end, look }) => {
      const takeLook = new Function(`return (${look})()`) as () => Raw;
      const seen: Raw[] = [];
      seen.push(takeLook());
      document.querySelector<HTMLButtonElement>('.vjs-play-control')?.click();
      while ((seen.at(-1)?.time ?? 0) < end) {
        seen.push(takeLook());
        await new Promise((next) => requestAnimationFrame(next));
      }
      return seen;
    },
    { end: until, look: LOOK.toString() },
  );
  return looks.map(decoded);
}

interface Raw {
  readonly picture: string;
  readonly time: number;
  readonly wall: number;
  readonly file: string;
}

const LOOK = (): { picture: string; time: number; wall: number; file: string } => {
  const video = document.querySelector<HTMLVideoElement>('video[data-on-air]')!;
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
  canvas.getContext('2d')!.drawImage(video, 0, 0);
  const player = (document.querySelector('.video-js') as unknown as { player: { currentTime(): number } }).player;
  return {
    picture: canvas.toDataURL('image/png'),
    time: player.currentTime(),
    wall: performance.now() / 1000,
    file: video.currentSrc.split('/').at(-1) ?? '',
  };
};

function decoded({ picture, time, wall, file }: Raw): Seen {
  const frame = readFrameStrip(PNG.sync.read(Buffer.from(picture.split(',')[1] ?? '', 'base64')));
  return { frame, time, wall, file };
}

/** Sets the player to a moment of the programme and waits for its picture. */
export async function seek(page: Page, seconds: number): Promise<void> {
  await page.evaluate(async (to) => {
    const { player } = document.querySelector('.video-js') as unknown as {
      player: { currentTime(to: number): void; one(type: string, work: () => void): void };
    };
    await new Promise<void>((done) => {
      player.one('seeked', done);
      player.currentTime(to);
    });
  }, seconds);
}

export async function playing(page: Page, wanted: boolean): Promise<void> {
  await expect
    .poll(() => page.evaluate(() => document.querySelector<HTMLVideoElement>('video[data-on-air]')?.paused))
    .toBe(!wanted);
}
