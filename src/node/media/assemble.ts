import {
  ALL_FORMATS,
  EncodedPacketSink,
  EncodedVideoPacketSource,
  FilePathSource,
  FilePathTarget,
  Input,
  type InputVideoTrack,
  Mp4OutputFormat,
  Output,
} from 'mediabunny';
import { type ParameterSets, readConfiguration, startsAfresh, writeConfiguration } from '../../core/media/index.ts';
import type { FrameRate } from '../../core/time/index.ts';
import { bytesOf } from './examine.ts';
import type { Progress } from './progress.ts';

/** Whole groups of pictures of a file, to be put into the programme. */
export interface Strip {
  readonly path: string;
  /** Frames on the file's own grid; the whole file where `whole`. */
  readonly first: number;
  readonly count: number;
  /** Frames from the grid to the file's first picture, less than one. */
  readonly lead: number;
  readonly whole: boolean;
  /** Frames of the programme. */
  readonly at: number;
}

/** Why a strip cannot be copied after all; its file has to be encoded. */
export class CannotCopy extends Error {
  readonly path: string;
  constructor(path: string, reason: string) {
    super(reason);
    this.path = path;
  }
}

/**
 * Puts strips of coded pictures one after the other into the picture track of an MP4 file, each frame in its place.
 *
 * @param path of the file to write
 * @throws CannotCopy when the pictures of a strip lean on what was cut away
 */
export async function assemblePicture(
  strips: readonly Strip[],
  path: string,
  look: {
    readonly rate: FrameRate;
    readonly width: number;
    readonly height: number;
    readonly rotation: 0 | 90 | 180 | 270;
  },
  { signal, progress }: { readonly signal: AbortSignal; readonly progress: Progress },
): Promise<void> {
  const fps = look.rate.numerator / look.rate.denominator;
  const output = new Output({ format: new Mp4OutputFormat({ fastStart: false }), target: new FilePathTarget(path) });
  const source = new EncodedVideoPacketSource('avc');
  output.addVideoTrack(source, { rotation: look.rotation, frameRate: fps });
  const opened = new Map<string, Promise<Opened>>();
  const open = (file: string) => {
    const known = opened.get(file) ?? openTrack(file);
    opened.set(file, known);
    return known;
  };
  try {
    const description = writeConfiguration(await allSets(strips, open));
    const codec = `avc1.${[1, 2, 3].map((i) => (description[i] ?? 0).toString(16).padStart(2, '0')).join('')}`;
    const meta = { decoderConfig: { codec, codedWidth: look.width, codedHeight: look.height, description } };
    await output.start();
    progress.start('putting together');
    for (const strip of strips) progress.expect(strip.count / fps);
    for (const strip of strips) {
      signal.throwIfAborted();
      const { track, sink, first } = await open(strip.path);
      const step = progress.step(strip.count / fps);
      const time = (frame: number) => first + (frame - strip.lead + 0.5) / fps;
      const start = strip.whole ? await sink.getFirstPacket() : await sink.getKeyPacket(time(strip.first));
      const end = strip.whole ? null : await sink.getKeyPacket(time(strip.first + strip.count));
      if (!start) throw new CannotCopy(strip.path, 'its first picture is missing');
      const frameOf = (timestamp: number) => Math.round((timestamp - first) * fps + strip.lead) - strip.first;
      // Past the last key picture of a file the nearest one lies before the end: then the strip runs to the file's end.
      const within = end && frameOf(end.timestamp) === strip.count ? end : undefined;
      let begun = false;
      for await (const packet of sink.packets(start, within)) {
        if (!begun && !startsAfresh(packet.data, 4))
          throw new CannotCopy(strip.path, 'its key pictures lean on the pictures before them');
        begun = true;
        const frame = frameOf(packet.timestamp);
        if (frame >= strip.count) continue;
        await source.add(packet.clone({ timestamp: (strip.at + frame) / fps, duration: 1 / fps }), meta);
      }
      step.end();
      if (strip.whole) close(opened, strip.path, track);
    }
    source.close();
    await output.finalize();
  } catch (error) {
    if (output.state === 'started') await output.cancel();
    throw error;
  } finally {
    for (const one of opened.values()) (await one.catch(() => undefined))?.input.dispose();
  }
}

interface Opened {
  readonly input: Input;
  readonly track: InputVideoTrack;
  readonly sink: EncodedPacketSink;
  /** First picture on the file's clock, s. */
  readonly first: number;
  readonly sets: ParameterSets;
}

async function openTrack(path: string): Promise<Opened> {
  const input = new Input({ source: new FilePathSource(path), formats: ALL_FORMATS });
  const [track] = await input.getVideoTracks();
  const description = (await track?.getDecoderConfig())?.description;
  const sets = description && readConfiguration(bytesOf(description));
  if (!track || !sets) throw new CannotCopy(path, 'it keeps no decoder configuration');
  return { input, track, sink: new EncodedPacketSink(track), first: await track.getFirstTimestamp(), sets };
}

async function allSets(strips: readonly Strip[], open: (path: string) => Promise<Opened>): Promise<ParameterSets> {
  const sequence: Uint8Array[] = [];
  const picture: Uint8Array[] = [];
  for (const path of new Set(strips.map((strip) => strip.path))) {
    const { sets } = await open(path);
    sequence.push(...sets.sequence);
    picture.push(...sets.picture);
  }
  return { sequence, picture, lengthSize: 4 };
}

function close(opened: Map<string, Promise<Opened>>, path: string, track: InputVideoTrack): void {
  opened.delete(path);
  track.input.dispose();
}
