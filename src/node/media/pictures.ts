import { rm, writeFile } from 'node:fs/promises';
import { cameraInput, type SeekPicturesPlan, seekPicturesVtt } from '../../core/media/index.ts';
import { runFfmpeg } from './ffmpeg.ts';
import { type FilmMoment, gatherKeyPictures } from './key-pictures.ts';
import type { Workplace } from './pool.ts';

/** The programme's picture as files that are shown one after the other. */
export interface Reel {
  readonly files: readonly { readonly path: string; readonly frames: number }[];
  /** Frames a second. */
  readonly fps: number;
}

/** A still of the programme for before it plays. @param at s */
export async function makePoster(reel: Reel, at: number, output: string, place: Workplace): Promise<void> {
  const { path, from } = lookUp(reel, at);
  const args = ['-ss', from.toFixed(3), ...cameraInput(path), '-frames:v', '1', '-q:v', '3', '-f', 'image2', output];
  await runFfmpeg(place.tools, args, { signal: place.signal });
}

/** A sheet of small pictures for the seek bar, and the WebVTT that says which one belongs to which time. */
export async function makeSeekPictures(
  reel: Reel,
  plan: SeekPicturesPlan,
  sheet: { readonly path: string; readonly name: string },
  text: string,
  place: Workplace,
): Promise<void> {
  const stills = place.store.temporary('mp4');
  const moments = Array.from({ length: plan.count }, (_, i) => lookUp(reel, i * plan.every));
  await gatherKeyPictures(moments, stills, place.signal);
  const filters = [`scale=${plan.width}:${plan.height}`, `tile=${plan.columns}x${plan.rows}`];
  await runFfmpeg(
    place.tools,
    [
      ...[...cameraInput(stills), '-an', '-vf', filters.join(','), '-fps_mode', 'passthrough'],
      ...['-frames:v', '1', '-q:v', '5', '-f', 'image2', sheet.path],
    ],
    { signal: place.signal },
  );
  await rm(stills, { force: true });
  await writeFile(text, seekPicturesVtt(plan, sheet.name));
}

/** The file shown at a time of the programme, and the time in that file, s. */
function lookUp({ files, fps }: Reel, at: number): FilmMoment {
  let from = at;
  for (const { path, frames } of files) {
    if (from < frames / fps) return { path, from };
    from -= frames / fps;
  }
  throw new RangeError(`the programme is over at ${at} s`);
}
