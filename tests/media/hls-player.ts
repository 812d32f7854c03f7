import { copyFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { findChromium } from '../../src/node/programs/index.ts';
import { serveSite } from '../../src/node/site/index.ts';

const WIDTH = 64;
const HEIGHT = 36;

/** What a browser makes of an HLS ladder. */
export interface Played {
  /** The picture shown at each moment asked for, small and grey. */
  readonly pictures: readonly Uint8Array[];
  /** Where what it has of both tracks begins, and the length it tells, s. */
  readonly start: number;
  readonly length: number;
  /** Bytes of sound it has decoded. */
  readonly sound: number;
}

/**
 * Plays `hls/hls.m3u8` of a folder in Chromium by video.js, which brings a reader of HLS of its own.
 *
 * @param moments s
 */
export async function playHls(folder: string, moments: readonly number[]): Promise<Played> {
  await copyFile('node_modules/video.js/dist/video.min.js', join(folder, 'video.js'));
  await writeFile(
    join(folder, 'index.html'),
    '<!doctype html><meta charset="utf-8"><title>HLS</title><video id="player" muted></video><script src="video.js"></script>',
  );
  const served = await serveSite({ dir: folder });
  const executablePath = await findChromium(process.env);
  const browser = await chromium.launch({
    args: ['--no-sandbox', '--disable-gpu', '--autoplay-policy=no-user-gesture-required'],
    ...(executablePath && { executablePath }),
  });
  try {
    const page = await browser.newPage();
    await page.goto(served.address);
    const told = await page.evaluate(
      async ([times, width, height]) => {
        type Player = {
          src(from: { src: string; type: string }): void;
          tech(yes: boolean): { el(): HTMLVideoElement };
        };
        const { videojs } = window as unknown as { videojs(id: string, options: object): Player };
        const player = videojs('player', { preload: 'auto', html5: { vhs: { overrideNative: true } } });
        player.src({ src: 'hls/hls.m3u8', type: 'application/x-mpegURL' });
        const video = player.tech(true).el();
        const once = (name: string) =>
          new Promise<void>((done, failed) => {
            video.addEventListener(name, () => done(), { once: true });
            setTimeout(() => failed(new Error(`no ${name} within 20 s`)), 20_000);
          });
        if (video.readyState < 2) await once('loadeddata');
        const start = video.buffered.start(0);
        const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [width, height];
        const paper = canvas.getContext('2d', { willReadFrequently: true });
        const pictures: number[][] = [];
        for (const time of times) {
          const there = once('seeked');
          video.currentTime = time;
          await there;
          await new Promise((shown) => setTimeout(shown, 200));
          paper?.drawImage(video, 0, 0, width, height);
          const { data = [] } = paper?.getImageData(0, 0, width, height) ?? {};
          // ITU-R BT.601 luma.
          pictures.push(
            Array.from({ length: width * height }, (_, i) =>
              [0.299, 0.587, 0.114].reduce((sum, share, colour) => sum + share * (data[4 * i + colour] ?? 0), 0),
            ),
          );
        }
        await video.play();
        await new Promise((heard) => setTimeout(heard, 500));
        const sound = (video as unknown as { webkitAudioDecodedByteCount: number }).webkitAudioDecodedByteCount;
        return { pictures, start, length: video.duration, sound };
      },
      [moments, WIDTH, HEIGHT] as const,
    );
    return { ...told, pictures: told.pictures.map((picture) => Uint8Array.from(picture, Math.round)) };
  } finally {
    await browser.close();
    await served.close();
  }
}
