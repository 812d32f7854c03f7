import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { LESSON, RECORDING } from '../../core/edit/support.ts';
import { call } from '../../support/call.ts';

let content = '';
beforeEach(async () => {
  content = join(await mkdtemp(join(tmpdir(), 'liftside-render-')), 'content');
  for (const folder of ['recordings', 'lessons']) await mkdir(join(content, folder), { recursive: true });
  await writeFile(join(content, 'shop.yaml'), 'name: Millrace Community Garage\n');
  await writeFile(join(content, 'recordings/pads.yaml'), RECORDING);
  await writeFile(join(content, 'lessons/pads.mdx'), LESSON);
});
afterEach(() => rm(join(content, '..'), { recursive: true, force: true }));

test('nothing is burnt into the picture while errors are open; which they are is said, and nothing is written', async () => {
  const { code, said } = await call(['render', 'pads', '--burn'], { content });
  expect(code).toBe(1);
  expect(said).toMatch(/^note: \d+ findings of this programme are open:/m);
  expect(said).toMatch(/error {2}lessons\/pads\.mdx:\d+ {2}"Look at the pads" has no cue/);
  expect(said).toContain('nothing is burnt into the picture while errors are open');
});

test('a render without cards names them too, and goes on', async () => {
  const { said } = await call(['render', 'pads'], { content, env: { ...process.env } });
  expect(said).toContain('"Look at the pads" has no cue');
  expect(said).not.toContain('nothing is burnt');
  // It goes on to the camera file, which is not there.
  expect(said).toContain('media/pads.mp4');
});
