/**
 * Makes the demo's footage and captions: `npx node tests/footage/main.ts [recording] [--to DIR] [--from S --seconds S] [--captions]`.
 * Needs ffmpeg with libx264, espeak-ng and Chromium on the machine. See README.md beside this file.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { captionsOf } from './captions.ts';
import { film } from './film/recording.ts';
import { SHOOTS } from './script/index.ts';
import { linesOf } from './script/lines.ts';
import { frameAtTenths, shotsOf } from './script/timeline.ts';
import { soundOf } from './sound/soundtrack.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    to: { type: 'string', default: 'content/media' },
    from: { type: 'string' },
    seconds: { type: 'string' },
    captions: { type: 'boolean', default: false },
  },
});

for (const shoot of SHOOTS.filter(({ id }) => positionals.length === 0 || positionals.includes(id))) {
  const lines = linesOf(shoot);
  const shots = shotsOf(shoot);
  const sounds = shots.map((shot, i) => soundOf(shot, lines[i] ?? []));
  mkdirSync(values.to, { recursive: true });
  writeFileSync(`${values.to}/${shoot.id}.vtt`, captionsOf(shots, sounds));
  if (values.captions) continue;
  const startFrame = frameAtTenths(Number(values.from ?? 0) * 10);
  const frames = frameAtTenths(Number(values.seconds ?? 0) * 10);
  await film(shoot, sounds, values.to, frames ? { startFrame, frames, file: `${shoot.id}-excerpt.mp4` } : undefined);
  for (const file of [`${shoot.id}-1`, `${shoot.id}-2`, shoot.id, `${shoot.id}-excerpt`])
    rmSync(`${values.to}/${file}.mp4.pcm`, { force: true });
}
