import { expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

type Findings = { findings: { what: string; found?: string; needed: string; help?: string }[] };

const doctor = async (env: Record<string, string>) => {
  const content = shopFolder();
  const { code, out } = await call(['doctor', '--json'], { content, env });
  expect(code).toBe(0);
  return (JSON.parse(out) as Findings).findings;
};

test('what is there is told with its place, what is missing with what to type', async () => {
  const here = await doctor({ LIFTSIDE_FFMPEG: process.execPath, LIFTSIDE_CHROMIUM: '/usr/bin/some-chromium' });
  const [node, ffmpeg, chromium, listener, model, espeak, git, memory, disk] = here;
  expect(here).toHaveLength(9);
  expect([model?.what, model?.found, model?.help]).toEqual([
    'model that recognises speech',
    undefined,
    expect.stringMatching(/LIFTSIDE_MODEL.*tokens\.txt/),
  ]);
  expect([espeak?.what, espeak?.found, espeak?.help]).toEqual([
    'espeak-ng',
    undefined,
    expect.stringContaining('apt-get install espeak-ng'),
  ]);
  expect(node?.found).toContain(process.version);
  // A program that is no ffmpeg is not taken for one.
  expect([ffmpeg?.what, ffmpeg?.found, ffmpeg?.help]).toEqual(['ffmpeg', undefined, expect.stringContaining('ffmpeg')]);
  expect([chromium?.what, chromium?.found]).toEqual(['Chromium', '/usr/bin/some-chromium']);
  expect(listener).toMatchObject({ what: 'network for speech', needed: expect.stringContaining('loudness serves') });
  expect(listener?.found ?? listener?.help).toMatch(/models.voice-activity|no program for this machine/);
  // Nothing is on the path of this call.
  expect([git?.what, git?.found, git?.help]).toEqual(['git', undefined, expect.stringContaining('install git')]);
  expect(memory?.found).toMatch(/^\d+\.\d GB$/);
  expect(disk?.found).toMatch(/GB free where/);
  for (const { needed } of here) expect(needed).not.toBe('');
});

test('without ffmpeg it says that the rest goes on', async () => {
  const ffmpeg = (await doctor({ PATH: '' })).find(({ what }) => what === 'ffmpeg');
  expect([ffmpeg?.found, ffmpeg?.needed]).toEqual([undefined, expect.stringContaining('play without it')]);
  expect(ffmpeg?.help).toContain('ffmpeg is not installed');
});

test('a folder that is not there yet is on the disk of the one above', async () => {
  const { out } = await call(['doctor', '--content', `${shopFolder()}/later/still`], { env: {} });
  expect(out).toMatch(/disk: \d+\.\d GB free/);
});
