import { chromium } from 'playwright-core';
import { PNG } from 'pngjs';

/** A picture as planes of 8 bits: luma whole, chroma at half size (4:2:0, BT.601, video range). */
export interface Planes {
  readonly width: number;
  readonly height: number;
  readonly bytes: Uint8Array;
}

/** Draws SVG through Chromium. @returns a painter to be closed when done */
export async function painter(executablePath = '/usr/bin/chromium') {
  const browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-lcd-text'],
  });
  const page = await browser.newPage();
  return {
    async paint(svg: string, width: number, height: number): Promise<Planes> {
      return toPlanes(PNG.sync.read(await this.png(svg, width, height)));
    },
    async png(svg: string, width: number, height: number): Promise<Buffer> {
      await page.setViewportSize({ width, height });
      await page.setContent(`<body style="margin:0;overflow:hidden">${svg}</body>`);
      return page.screenshot();
    },
    close: () => browser.close(),
  };
}

function toPlanes({ width, height, data }: PNG): Planes {
  const bytes = new Uint8Array((width * height * 3) / 2);
  const half = width / 2;
  const [u0, v0] = [width * height, width * height * 1.25];
  const at = (x: number, y: number, channel: number) => data[(y * width + x) * 4 + channel] ?? 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      bytes[y * width + x] = Math.round(16 + 0.2568 * at(x, y, 0) + 0.5041 * at(x, y, 1) + 0.0979 * at(x, y, 2));
  const mean = (x: number, y: number, c: number) =>
    (at(x, y, c) + at(x + 1, y, c) + at(x, y + 1, c) + at(x + 1, y + 1, c)) / 4;
  for (let y = 0; y < height; y += 2)
    for (let x = 0; x < width; x += 2) {
      const [r, g, b] = [mean(x, y, 0), mean(x, y, 1), mean(x, y, 2)];
      const i = (y / 2) * half + x / 2;
      bytes[u0 + i] = Math.round(128 - 0.1482 * r - 0.291 * g + 0.4392 * b);
      bytes[v0 + i] = Math.round(128 + 0.4392 * r - 0.3678 * g - 0.0714 * b);
    }
  return { width, height, bytes };
}
