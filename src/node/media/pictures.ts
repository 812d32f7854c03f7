import { rm, writeFile } from 'node:fs/promises';
import { EncodedPacketSink, EncodedVideoPacketSource, FilePathTarget, Mp4OutputFormat, Output } from 'mediabunny';
import { cameraInput, type SeekPicturesPlan, seekPicturesVtt } from '../../core/media/index.ts';
import { OutsideFailure } from '../failure.ts';
import { openMedia } from './camera-formats.ts';
import { runFfmpeg } from './ffmpeg.ts';
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
  await gatherStills(reel, plan, stills, place.signal);
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
function lookUp({ files, fps }: Reel, at: number): { path: string; from: number } {
  let from = at;
  for (const { path, frames } of files) {
    if (from < frames / fps) return { path, from };
    from -= frames / fps;
  }
  throw new RangeError(`the programme is over at ${at} s`);
}

/** Copies the key picture nearest before each time of the plan into a file of its own: the rest need not be decoded. */
async function gatherStills(
  reel: Reel,
  { count, every }: SeekPicturesPlan,
  path: string,
  signal: AbortSignal,
): Promise<void> {
  const output = new Output({ format: new Mp4OutputFormat(), target: new FilePathTarget(path) });
  const source = new EncodedVideoPacketSource('avc');
  try {
    for (let i = 0; i < count; i++) {
      signal.throwIfAborted();
      const shown = lookUp(reel, i * every);
      const input = openMedia(shown.path);
      try {
        const [track] = await input.getVideoTracks();
        const decoderConfig = await track?.getDecoderConfig();
        if (!track || !decoderConfig) throw new OutsideFailure(`${shown.path} holds no picture`, 'render it again');
        if (i === 0) {
          output.addVideoTrack(source, { rotation: await track.getRotation() });
          await output.start();
        }
        const sink = new EncodedPacketSink(track);
        const packet = (await sink.getKeyPacket(shown.from)) ?? (await sink.getFirstPacket());
        if (packet) await source.add(packet.clone({ timestamp: i, duration: 1 }), { decoderConfig });
      } finally {
        input.dispose();
      }
    }
    await output.finalize();
  } catch (error) {
    if (output.state === 'started') await output.cancel();
    throw error;
  }
}
