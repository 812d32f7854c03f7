import { rm, writeFile } from 'node:fs/promises';
import {
  ALL_FORMATS,
  EncodedPacketSink,
  EncodedVideoPacketSource,
  FilePathSource,
  FilePathTarget,
  Input,
  Mp4OutputFormat,
  Output,
} from 'mediabunny';
import { type StoryboardPlan, storyboardVtt } from '../../core/media/index.ts';
import { OutsideFailure } from '../failure.ts';
import { runFfmpeg } from './ffmpeg.ts';
import type { Workplace } from './pool.ts';

/** A still of the programme for before it plays. @param at s */
export async function makePoster(programme: string, at: number, output: string, place: Workplace): Promise<void> {
  const args = ['-ss', at.toFixed(3), '-i', programme, '-frames:v', '1', '-q:v', '3', '-f', 'image2', output];
  await runFfmpeg(place.tools, args, { signal: place.signal });
}

/** A sheet of small pictures for the seek bar, and the WebVTT that says which one belongs to which time. */
export async function makeStoryboard(
  programme: string,
  plan: StoryboardPlan,
  sheet: { readonly path: string; readonly name: string },
  text: string,
  place: Workplace,
): Promise<void> {
  const stills = place.store.temporary('mp4');
  await gatherStills(programme, plan, stills);
  const filters = [`scale=${plan.width}:${plan.height}`, `tile=${plan.columns}x${plan.rows}`];
  await runFfmpeg(
    place.tools,
    [
      ...['-i', stills, '-an', '-vf', filters.join(','), '-fps_mode', 'passthrough'],
      ...['-frames:v', '1', '-q:v', '5', '-f', 'image2', sheet.path],
    ],
    { signal: place.signal },
  );
  await rm(stills, { force: true });
  await writeFile(text, storyboardVtt(plan, sheet.name));
}

/** Copies the key picture nearest before each time of the plan into a file of its own: the rest need not be decoded. */
async function gatherStills(programme: string, { count, every }: StoryboardPlan, path: string): Promise<void> {
  const input = new Input({ source: new FilePathSource(programme), formats: ALL_FORMATS });
  try {
    const [track] = await input.getVideoTracks();
    const decoderConfig = await track?.getDecoderConfig();
    if (!track || !decoderConfig) throw new OutsideFailure(`${programme} holds no picture`, 'render it again');
    const output = new Output({ format: new Mp4OutputFormat(), target: new FilePathTarget(path) });
    const source = new EncodedVideoPacketSource('avc');
    output.addVideoTrack(source, { rotation: track.rotation });
    await output.start();
    const sink = new EncodedPacketSink(track);
    for (let i = 0; i < count; i++) {
      const packet = (await sink.getKeyPacket(i * every)) ?? (await sink.getFirstPacket());
      if (packet) await source.add(packet.clone({ timestamp: i, duration: 1 }), { decoderConfig });
    }
    await output.finalize();
  } finally {
    input.dispose();
  }
}
