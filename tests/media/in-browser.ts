import { copyFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from '@playwright/test';
import { type Served, serveSite } from '../../src/node/site/index.ts';
import { openBrowser } from '../support/open-browser.ts';

const WIDTH = 64;
const HEIGHT = 36;
/** Samples that the browser hands over at a time. */
const BLOCK = 4096;

/** What a browser shows of a file at some moments. */
export interface Shown {
  /** Small and grey, one a moment. */
  readonly pictures: readonly Uint8Array[];
  /** Where what it has of both tracks begins, and the length it tells, s. */
  readonly start: number;
  readonly length: number;
}

/** Sound as a browser plays it: samples at 48 kHz, and the player's time when they came, s. */
export interface HeardBlock {
  readonly at: number;
  readonly samples: readonly number[];
}

/** Chromium with a page that plays what lies in a folder; HLS by video.js, which brings a reader of its own. */
export class BrowserPlayer {
  readonly #browser: Browser;
  readonly #served: Served;

  private constructor(browser: Browser, served: Served) {
    this.#browser = browser;
    this.#served = served;
  }

  static async open(folder: string): Promise<BrowserPlayer> {
    await copyFile('node_modules/video.js/dist/video.min.js', join(folder, 'video.js'));
    await writeFile(
      join(folder, 'index.html'),
      '<!doctype html><meta charset="utf-8"><title>Player</title><video id="player"></video><script src="video.js"></script>',
    );
    return new BrowserPlayer(await openBrowser(), await serveSite({ dir: folder }));
  }

  async close(): Promise<void> {
    await this.#browser.close();
    await this.#served.close();
  }

  /** @param moments s */
  async see(file: string, moments: readonly number[]): Promise<Shown> {
    const page = await this.#load(file);
    const seen = await page.evaluate(
      async ([times, width, height]) => {
        const video = document.querySelector('video') as HTMLVideoElement;
        const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [width, height];
        const paper = canvas.getContext('2d', { willReadFrequently: true });
        const pictures: number[][] = [];
        const start = video.buffered.start(0);
        for (const time of times) {
          const there = new Promise((done) => video.addEventListener('seeked', done, { once: true }));
          video.currentTime = time;
          await there;
          // Two pictures of the page later the frame is on it.
          for (let n = 0; n < 2; n++) await new Promise((shown) => requestAnimationFrame(shown));
          paper?.drawImage(video, 0, 0, width, height);
          const { data = [] } = paper?.getImageData(0, 0, width, height) ?? {};
          // ITU-R BT.601 luma.
          pictures.push(
            Array.from({ length: width * height }, (_, i) =>
              [0.299, 0.587, 0.114].reduce((sum, share, colour) => sum + share * (data[4 * i + colour] ?? 0), 0),
            ),
          );
        }
        return { pictures, start, length: video.duration };
      },
      [moments, WIDTH, HEIGHT] as const,
    );
    await page.close();
    return { ...seen, pictures: seen.pictures.map((picture) => Uint8Array.from(picture, Math.round)) };
  }

  /** What is heard in three seconds and a little from a moment on. @param from s */
  async hear(file: string, from: number): Promise<readonly HeardBlock[]> {
    const page = await this.#load(file);
    const blocks = await page.evaluate(
      async ([start, size]) => {
        const video = document.querySelector('video') as HTMLVideoElement;
        const there = new Promise((done) => video.addEventListener('seeked', done, { once: true }));
        video.currentTime = start;
        await there;
        const context = new AudioContext({ sampleRate: 48_000 });
        const tap = context.createScriptProcessor(size, 1, 1);
        const heard: HeardBlock[] = [];
        const enough = new Promise<void>((done) => {
          tap.onaudioprocess = ({ inputBuffer }) => {
            heard.push({ at: video.currentTime, samples: [...inputBuffer.getChannelData(0)] });
            if (heard.length * size > 3 * context.sampleRate) done();
          };
        });
        context.createMediaElementSource(video).connect(tap).connect(context.destination);
        await context.resume();
        await video.play();
        await enough;
        return heard;
      },
      [from, BLOCK] as const,
    );
    await page.close();
    // What came while playing had not settled says nothing.
    return blocks.slice(8);
  }

  async #load(file: string): Promise<Page> {
    const page = await this.#browser.newPage();
    await page.goto(this.#served.address);
    await page.evaluate(async (source) => {
      type Player = { src(from: { src: string; type: string }): void };
      const video = document.querySelector('video') as HTMLVideoElement;
      const loaded = new Promise((done) =>
        document.addEventListener('loadeddata', done, { capture: true, once: true }),
      );
      if (source.endsWith('.m3u8')) {
        const { videojs } = window as unknown as { videojs(id: string, options: object): Player };
        const player = videojs('player', { preload: 'auto', html5: { vhs: { overrideNative: true } } });
        player.src({ src: source, type: 'application/x-mpegURL' });
      } else video.src = source;
      await loaded;
    }, file);
    return page;
  }
}

/**
 * How much later than the player's time the sound comes, ms: its place among all blocks, in the middle. Part of it is
 * how long the browser takes to hand sound over, the same for all files.
 *
 * @param said what the file holds, 48 kHz
 * @returns NaN where nothing of it is heard
 */
export function latenessOf(blocks: readonly HeardBlock[], said: Float32Array): number {
  const reach = 12_000;
  const length = 1024;
  const lags = blocks.map(({ at, samples }) => {
    const expected = Math.round(at * 48_000);
    let [best, most] = [Number.NaN, 0];
    for (let lag = -reach; lag <= reach; lag++) {
      const from = expected - lag;
      if (from < 0 || from + length > said.length) continue;
      let sum = 0;
      for (let i = 0; i < length; i++) sum += (samples[i] ?? 0) * (said[from + i] ?? 0);
      if (sum > most) [best, most] = [lag, sum];
    }
    return best / 48;
  });
  const found = lags.filter(Number.isFinite).toSorted((a, b) => a - b);
  return found[found.length >> 1] ?? Number.NaN;
}
