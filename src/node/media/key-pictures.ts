import {
  EncodedPacketSink,
  EncodedVideoPacketSource,
  FilePathTarget,
  type Input,
  Mp4OutputFormat,
  Output,
} from 'mediabunny';
import { OutsideFailure } from '../failure.ts';
import { openMedia } from './camera-formats.ts';

/** A moment of a film: its file, and s from its start. */
export interface FilmMoment {
  readonly path: string;
  readonly from: number;
}

/**
 * Copies the key picture nearest before each moment into one small film, one a second: what lies between need not be
 * decoded. All moments are of films that one camera or encoder made.
 *
 * @throws OutsideFailure when a file holds no picture
 */
export async function gatherKeyPictures(
  moments: readonly FilmMoment[],
  to: string,
  signal: AbortSignal,
): Promise<void> {
  const output = new Output({ format: new Mp4OutputFormat(), target: new FilePathTarget(to) });
  let source: EncodedVideoPacketSource | undefined;
  let opened: { readonly path: string; readonly input: Input } | undefined;
  try {
    for (const [i, { path, from }] of moments.entries()) {
      signal.throwIfAborted();
      if (opened?.path !== path) {
        opened?.input.dispose();
        opened = { path, input: openMedia(path) };
      }
      const [track] = await opened.input.getVideoTracks();
      const decoderConfig = await track?.getDecoderConfig();
      const codec = await track?.getCodec();
      if (!track || !decoderConfig || !codec) throw new OutsideFailure(`${path} holds no picture`, 'render it again');
      if (!source) {
        source = new EncodedVideoPacketSource(codec);
        output.addVideoTrack(source, { rotation: await track.getRotation() });
        await output.start();
      }
      const sink = new EncodedPacketSink(track);
      const packet = (await sink.getKeyPacket(from)) ?? (await sink.getFirstPacket());
      if (packet) await source.add(packet.clone({ timestamp: i, duration: 1 }), { decoderConfig });
    }
    await output.finalize();
  } catch (error) {
    if (output.state === 'started') await output.cancel();
    throw error;
  } finally {
    opened?.input.dispose();
  }
}
