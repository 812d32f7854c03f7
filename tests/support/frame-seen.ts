import type { Page } from '@playwright/test';

/** Number of the frame on screen, read from the blocks that `drawFootage` drew into it; −1 while it is looked for. */
export const frameSeen = (page: Page) =>
  page.evaluate(() => {
    const video = [...document.querySelectorAll('video')].find((v) => !v.hidden);
    if (!video || video.seeking) return -1;
    const canvas = document.createElement('canvas');
    canvas.width = 320;
    canvas.height = 180;
    const pen = canvas.getContext('2d', { willReadFrequently: true });
    pen?.drawImage(video, 0, 0, 320, 180);
    let frame = 0;
    for (let bit = 0; bit < 14; bit++)
      if ((pen?.getImageData(18 + bit * 22, 160, 1, 1).data[0] ?? 0) > 128) frame += 2 ** bit;
    return frame;
  });
