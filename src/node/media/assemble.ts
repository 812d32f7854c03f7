import {
  EncodedPacketSink,
  EncodedVideoPacketSource,
  FilePathTarget,
  type Input,
  Mp4OutputFormat,
  Output,
} from 'mediabunny';
import { type ParameterSets, readConfiguration, startsAfresh, writeConfiguration } from '../../core/media/index.ts';
import { openMedia } from './camera-formats.ts';
import { bytesOf } from './examine.ts';
import { IndexTimes } from './index-times.ts';
import type { Bench } from './pool.ts';
import type { PieceForm, Strip } from './strips.ts';

/** Why a strip cannot be copied after all; its file has to be encoded. */
export class CannotCopy extends Error {
  readonly path: string;
  constructor(path: string, reason: string) {
    super(reason);
    this.path = path;
  }
}

/**
 * One decoder configuration for pictures of several files.
 *
 * @returns hexadecimal digits
 * @throws CannotCopy when one keeps none
 */
export async function sharedConfiguration(paths: Iterable<string>): Promise<string> {
  const sequence: Uint8Array[] = [];
  const picture: Uint8Array[] = [];
  for (const path of new Set(paths)) {
    const { input, sets } = await openTrack(path);
    input.dispose();
    sequence.push(...sets.sequence);
    picture.push(...sets.picture);
  }
  return Buffer.from(writeConfiguration({ sequence, picture, lengthSize: 4 })).toString('hex');
}

/**
 * Puts strips of coded pictures one after the other into the picture track of an MP4 file, each frame in its place.
 *
 * @param path of the file to write
 * @param onSeconds told how much of the piece is done
 * @throws CannotCopy when the pictures of a strip lean on what was cut away
 */
export async function assemblePiece(
  strips: readonly Strip[],
  files: readonly string[],
  path: string,
  form: PieceForm,
  { signal, onSeconds }: Pick<Bench, 'signal' | 'onSeconds'>,
): Promise<void> {
  const fps = form.rate.numerator / form.rate.denominator;
  const times = new IndexTimes();
  const format = new Mp4OutputFormat({ fastStart: false, onMoov: times.found });
  const output = new Output({ format, target: new FilePathTarget(path) });
  const source = new EncodedVideoPacketSource('avc');
  output.addVideoTrack(source, { rotation: form.rotation, frameRate: fps });
  const description = Buffer.from(form.configuration, 'hex');
  const codec = `avc1.${[1, 2, 3].map((i) => (description[i] ?? 0).toString(16).padStart(2, '0')).join('')}`;
  const meta = { decoderConfig: { codec, codedWidth: form.width, codedHeight: form.height, description } };
  try {
    await output.start();
    let at = 0;
    for (const strip of strips) {
      const file = files[strip.file];
      if (file === undefined) throw new RangeError(`a piece lacks file ${strip.file}`);
      const { input, sink, first } = await openTrack(file);
      try {
        const time = (frame: number) => first + (frame - strip.lead + 0.5) / fps;
        const start = strip.whole ? await sink.getFirstPacket() : await sink.getKeyPacket(time(strip.first));
        const end = strip.whole ? null : await sink.getKeyPacket(time(strip.first + strip.count));
        if (!start) throw new CannotCopy(file, 'its first picture is missing');
        const frameOf = (timestamp: number) => Math.round((timestamp - first) * fps + strip.lead) - strip.first;
        // Past the last key picture of a file the nearest one lies before the end: then the strip runs to the file's end.
        const within = end && frameOf(end.timestamp) === strip.count ? end : undefined;
        let begun = false;
        for await (const packet of sink.packets(start, within)) {
          signal.throwIfAborted();
          if (!begun && !startsAfresh(packet.data, 4))
            throw new CannotCopy(file, 'its key pictures lean on the pictures before them');
          begun = true;
          const frame = frameOf(packet.timestamp);
          if (frame >= strip.count) continue;
          await source.add(packet.clone({ timestamp: (at + frame) / fps, duration: 1 / fps }), meta);
        }
      } finally {
        input.dispose();
      }
      at += strip.count;
      onSeconds(at / fps);
    }
    source.close();
    await output.finalize();
    await times.blankOut(path);
  } catch (error) {
    if (output.state === 'started') await output.cancel();
    throw error;
  }
}

/**
 * How many pictures a decoder has to hold back to show those of a file in order.
 *
 * @param fps frames a second
 */
export async function reorderDepth(path: string, fps: number): Promise<number> {
  const { input, sink, first } = await openTrack(path);
  try {
    let [depth, decoded] = [0, 0];
    for await (const { timestamp } of sink.packets(undefined, undefined, { metadataOnly: true }))
      depth = Math.max(depth, decoded++ - Math.round((timestamp - first) * fps));
    return depth;
  } finally {
    input.dispose();
  }
}

interface Opened {
  readonly input: Input;
  readonly sink: EncodedPacketSink;
  /** First picture on the file's clock, s. */
  readonly first: number;
  readonly sets: ParameterSets;
}

async function openTrack(path: string): Promise<Opened> {
  const input = openMedia(path);
  const [track] = await input.getVideoTracks();
  const description = (await track?.getDecoderConfig())?.description;
  const sets = description && readConfiguration(bytesOf(description));
  if (!track || !sets) {
    input.dispose();
    throw new CannotCopy(path, 'it does not say how its picture is decoded');
  }
  return { input, sink: new EncodedPacketSink(track), first: await track.getFirstTimestamp(), sets };
}
