import { mkdirSync, writeFileSync } from 'node:fs';
import { FRAME_RATES, type FrameRate, parseTimecode, printTimecode } from '../../../src/core/time/index.ts';
import { readHeadings } from '../script/headings.ts';
import type { Shoot } from '../script/scene.ts';
import { filesOf, framesOf, shotsOf } from '../script/timeline.ts';
import { mix } from '../sound/mix.ts';
import type { SceneSound } from '../sound/soundtrack.ts';
import { SAMPLE_RATE } from '../sound/speech.ts';
import { encode } from './encode.ts';
import { burnFrame } from './frame.ts';
import { HEIGHT, PHASES, WIDTH } from './geometry.ts';
import { type Planes, painter } from './paint.ts';
import { GLYPHS, glyphsSvg, sheetSvg } from './sheet.ts';
import { phaseAt, sheetOf } from './stills.ts';

interface Part {
  readonly startFrame: number;
  readonly frames: number;
  readonly file: string;
}

/** Draws, mixes and encodes the camera files of a shoot, or one excerpt of it. */
export async function film(shoot: Shoot, sounds: readonly SceneSound[], to: string, excerpt?: Part): Promise<void> {
  const shots = shotsOf(shoot);
  const rate: FrameRate = FRAME_RATES[shoot.dropFrame ? '29.97df' : '29.97'];
  const first = parseTimecode(shoot.start, rate);
  if (!first.ok) throw new Error(first.problem);
  const label = (frame: number) => printTimecode(first.value + frame, rate);
  const headings = readHeadings(shoot.id);
  const corner = [shoot.id, shoot.dropFrame ? '29.97 drop' : '29.97 non-drop'] as const;
  const parts = excerpt
    ? [excerpt]
    : filesOf(shoot).map((part, i, all) => ({
        ...part,
        file: all.length > 1 ? `${shoot.id}-${i + 1}.mp4` : `${shoot.id}.mp4`,
      }));

  const studio = await painter();
  const glyphs = await studio.paint(glyphsSvg(), GLYPHS.length * 32, 48);
  const stills = new Map<string, Planes>();
  const wanted = new Set<string>();
  for (const { startFrame, frames } of parts)
    for (let frame = startFrame, n = shotIndex(frame); frame < startFrame + frames; frame++) {
      while (frame >= (shots[n]?.endFrame ?? 0)) n++;
      wanted.add(`${n}/${phase(n, frame)}`);
    }
  const drawn = new Map<string, Planes>();
  for (const key of wanted) {
    const [n = 0, at = 0] = key.split('/').map(Number);
    const shot = shots[n];
    if (!shot) continue;
    const svg = sheetSvg(sheetOf(shot, at % PHASES, headings, corner));
    const planes = drawn.get(svg) ?? (await studio.paint(svg, WIDTH, HEIGHT));
    drawn.set(svg, planes);
    stills.set(key, planes);
  }
  await studio.close();

  const samples = mix(shots, sounds, framesOf(shoot) * (1001 / 30_000), shoot.id.length);
  mkdirSync(to, { recursive: true });
  for (const { startFrame, frames, file } of parts) {
    // The sound ends a little before the picture, so that the picture says how long the file is.
    const seconds = (frame: number) => frame * (1001 / 30_000);
    const from = Math.round(seconds(startFrame) * SAMPLE_RATE);
    const count = Math.floor((seconds(frames) * SAMPLE_RATE) / 1024 - 2) * 1024;
    const sound = `${to}/${file}.pcm`;
    writeFileSync(sound, new Uint8Array(samples.buffer, from * 2, count * 2));
    let n = shotIndex(startFrame);
    await encode({
      file: `${to}/${file}`,
      timecode: label(startFrame),
      sound,
      frames,
      draw: (buffer, i) => {
        const frame = startFrame + i;
        while (frame >= (shots[n]?.endFrame ?? Number.POSITIVE_INFINITY)) n++;
        const still = stills.get(`${n}/${phase(n, frame)}`);
        if (!still) throw new Error(`no picture for frame ${frame}`);
        burnFrame(buffer, still, glyphs, label(frame), frame);
      },
      progress: (done) => console.error(`${file}: ${done} of ${frames} frames`),
    });
  }

  function shotIndex(frame: number): number {
    return shots.findIndex(({ endFrame }) => frame < endFrame);
  }
  function phase(n: number, frame: number): number {
    const [shot, sound] = [shots[n], sounds[n]];
    return shot && sound ? phaseAt(shot, sound, frame) : 0;
  }
}
