import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { frameAt } from '../../src/core/time/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { stillPath } from '../../src/node/site/footage-paths.ts';
import { siteSourceOf } from '../../src/node/site/site-source.ts';
import { siteStills } from '../../src/node/site/site-stills.ts';
import { readFrameStrip } from '../support/frame-strip.ts';
import { demoTimes } from '../support/lesson-page.ts';
import { demoCopy, workspace } from './make.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
let content: string;
beforeAll(async () => {
  folder = await workspace();
  content = await demoCopy(folder.path('content'));
});
afterAll(() => folder.remove());

const { signal } = new AbortController();
const siteOf = (unrendered: 'uncut' | 'none') =>
  siteSourceOf(
    content,
    () => new Date(),
    unrendered,
    () => loadShop(content),
  ).open();

// Each frame of the demo's footage carries its number, read off the picture.
test('the picture of a step shows a frame of that step, and none is taken twice', async () => {
  const site = await siteOf('uncut');
  const { stills, without } = await siteStills(site, { env: process.env, signal });
  expect(without).toBeUndefined();
  expect(stills.size).toBeGreaterThan(50);
  for (const lesson of ['chain', 'front-brake']) {
    const { recording, chapters } = await demoTimes(lesson);
    for (const { step, recording: span } of chapters.flatMap(({ steps }) => steps)) {
      const picture = sharp(stills.get(stillPath(lesson, step.id)));
      const { width } = await picture.metadata();
      expect(width).toBe(480);
      const { data, info } = await picture.resize(512, 288).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
      const frame = readFrameStrip({ data, width: info.width, height: info.height }) ?? Number.NaN;
      expect([step.id, frame >= frameAt(span.start, recording.rate!)]).toEqual([step.id, true]);
      expect([step.id, frame < frameAt(span.end, recording.rate!)]).toEqual([step.id, true]);
    }
  }
  const [first = ''] = stills.values();
  const { mtimeMs, ino } = await stat(first);
  const again = await siteStills(site, { env: process.env, signal });
  expect([...again.stills]).toEqual([...stills]);
  expect((await stat(first)).ino).toBe(ino);
  expect((await stat(first)).mtimeMs).toBeGreaterThanOrEqual(mtimeMs);
});

test('without ffmpeg, and of footage that is not published, there are none', async () => {
  const around = { env: { PATH: join(content, 'nowhere') }, signal };
  const { stills, without } = await siteStills(await siteOf('uncut'), around);
  expect([stills.size, without?.message]).toEqual([0, 'ffmpeg is not installed']);
  expect(await siteStills(await siteOf('none'), around)).toEqual({ stills: new Map() });
});
