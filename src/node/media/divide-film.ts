import {
  EncodedAudioPacketSource,
  EncodedPacketSink,
  EncodedVideoPacketSource,
  FilePathTarget,
  type Input,
  type InputAudioTrack,
  type InputVideoTrack,
  Mp4OutputFormat,
  Output,
} from 'mediabunny';
import { type CodedPicture, copyPoints, type DividePoint } from '../../core/media/index.ts';
import { fromSeconds, type Range, type Ticks, ticks, toSeconds } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { openMedia } from './camera-formats.ts';
import { IndexTimes } from './index-times.ts';

/** What the index of an MP4 file takes at most for each picture and piece of sound (ISO/IEC 14496-12, 8.6, 8.7), bytes. */
const INDEX_BYTES = 40;
/** What a file takes beside, bytes. */
const HEAD_BYTES = 8192;

interface Film {
  readonly input: Input;
  readonly picture: InputVideoTrack;
  readonly sound: InputAudioTrack | null;
}

/**
 * Where a finished programme can be divided: before pictures from which decoding can begin.
 *
 * @param path absolute
 * @param frame length of a frame, ticks
 * @throws OutsideFailure when it holds no picture
 */
export async function dividePoints(
  path: string,
  frame: number,
): Promise<{ readonly points: readonly DividePoint[]; readonly end: DividePoint }> {
  const film = await openFilm(path);
  try {
    const sounds: { readonly at: number; readonly bytes: number }[] = [];
    if (film.sound)
      for await (const { timestamp, byteLength } of packetsOf(film.sound))
        sounds.push({ at: timestamp, bytes: byteLength + INDEX_BYTES });
    const pictures: CodedPicture[] = [];
    const before = new Map<number, number>();
    let [bytes, soundBytes, heard] = [HEAD_BYTES, 0, 0];
    for await (const { type, timestamp, byteLength } of packetsOf(film.picture)) {
      const shown = fromSeconds(timestamp);
      pictures.push({ shown, key: type === 'key' });
      while (heard < sounds.length && (sounds[heard]?.at ?? 0) < timestamp) soundBytes += sounds[heard++]?.bytes ?? 0;
      if (type === 'key') before.set(Math.round(shown / frame), bytes + soundBytes);
      bytes += byteLength + INDEX_BYTES;
    }
    for (; heard < sounds.length; heard++) soundBytes += sounds[heard]?.bytes ?? 0;
    const frames = copyPoints(pictures, frame);
    if ('refused' in frames)
      throw new OutsideFailure(
        `${path} cannot be divided: ${frames.refused}`,
        'render it again: liftside render --again',
      );
    const points = frames
      .slice(0, -1)
      .map((place): DividePoint => ({ at: ticks(place * frame), bytes: before.get(place) ?? 0 }));
    return { points, end: { at: ticks((frames.at(-1) ?? 0) * frame), bytes: bytes + soundBytes } };
  } finally {
    film.input.dispose();
  }
}

/**
 * Copies a stretch of a finished programme into a file of its own, picture by picture as they are coded. It begins with
 * its first picture; sound that runs over an end is in both files. The same film makes the same bytes.
 *
 * @param span from a picture from which decoding can begin to a point to divide at; to any other moment, a few pictures
 *   before it may be missing
 * @param frame length of a frame, ticks
 * @param wrote told how much of it is done, programme ticks
 */
export async function copyStretch(
  path: string,
  span: Range<'programme'>,
  frame: number,
  to: string,
  {
    signal,
    wrote,
    small = false,
  }: {
    readonly signal: AbortSignal;
    readonly wrote: (at: Ticks<'programme'>) => void;
    /** It is short: made in memory, with no more room for its index than that takes. */
    readonly small?: boolean;
  },
): Promise<void> {
  const film = await openFilm(path);
  const { picture, sound } = film;
  const times = new IndexTimes();
  const output = new Output({
    // Its index stands first: a copy that breaks off still plays as far as it goes.
    format: new Mp4OutputFormat({ fastStart: small ? 'in-memory' : 'reserve', onMoov: times.found }),
    target: new FilePathTarget(to),
  });
  try {
    const [codec, config] = [await picture.getCodec(), await picture.getDecoderConfig()];
    if (!codec || !config) throw unknownFilm(path);
    const [soundCodec, soundConfig] = [await sound?.getCodec(), await sound?.getDecoderConfig()];
    const heard = sound && soundCodec && soundConfig ? new EncodedAudioPacketSource(soundCodec) : undefined;
    const shown = new EncodedVideoPacketSource(codec);
    output.addVideoTrack(shown, {
      rotation: await picture.getRotation(),
      maximumPacketCount: await count(picturesIn(picture, span, frame, true)),
    });
    if (sound && heard) output.addAudioTrack(heard, { maximumPacketCount: await count(soundsIn(sound, span, true)) });
    await output.start();
    const sounds = sound && heard ? soundsIn(sound, span, false) : undefined;
    let next = await sounds?.next();
    const start = toSeconds(span.start);
    const addSounds = async (until: number) => {
      for (; heard && sounds && next && !next.done && next.value.timestamp < until; next = await sounds.next())
        await heard.add(next.value.clone({ timestamp: next.value.timestamp - start }), {
          ...(soundConfig && { decoderConfig: soundConfig }),
        });
    };
    for await (const packet of picturesIn(picture, span, frame, false)) {
      signal.throwIfAborted();
      await addSounds(packet.timestamp);
      const at = onGrid(packet.timestamp, frame) - span.start;
      const shift = { timestamp: toSeconds(at), duration: toSeconds(frame) };
      await shown.add(packet.clone(shift), { decoderConfig: config });
      wrote(ticks(span.start + at));
    }
    await addSounds(Number.POSITIVE_INFINITY);
    await output.finalize();
    await times.blankOut(to);
  } catch (error) {
    if (output.state === 'started') await output.cancel();
    throw error;
  } finally {
    film.input.dispose();
  }
}

/** The nearest frame of the programme's grid, ticks. */
function onGrid(seconds: number, frame: number): number {
  return Math.round(fromSeconds(seconds) / frame) * frame;
}

async function openFilm(path: string): Promise<Film> {
  const input = openMedia(path);
  const picture = await input.getPrimaryVideoTrack();
  if (picture) return { input, picture, sound: await input.getPrimaryAudioTrack() };
  input.dispose();
  throw unknownFilm(path);
}

function unknownFilm(path: string): OutsideFailure {
  return new OutsideFailure(`${path} holds no picture that can be copied`, 'render it again: liftside render --again');
}

function packetsOf(track: InputVideoTrack | InputAudioTrack) {
  return new EncodedPacketSink(track).packets(undefined, undefined, { metadataOnly: true });
}

/**
 * The last picture from which decoding can begin that is not after a moment, on the grid of frames.
 *
 * @param moment on the film's clock
 * @param frame length of a frame, ticks
 * @throws OutsideFailure when there is none
 */
export async function keyBefore(path: string, moment: Ticks<'programme'>, frame: number): Promise<Ticks<'programme'>> {
  const film = await openFilm(path);
  try {
    const sink = new EncodedPacketSink(film.picture);
    const key = await sink.getKeyPacket(toSeconds(moment + frame / 2), { metadataOnly: true });
    if (!key) throw unknownFilm(path);
    return ticks(onGrid(key.timestamp, frame));
  } finally {
    film.input.dispose();
  }
}

/** The coded pictures of a stretch, in the order in which they are decoded. */
async function* picturesIn(track: InputVideoTrack, span: Range<'programme'>, frame: number, metadataOnly: boolean) {
  const sink = new EncodedPacketSink(track);
  const first = await sink.getKeyPacket(toSeconds(span.start + frame / 2), { metadataOnly });
  if (!first) return;
  for await (const packet of sink.packets(first, undefined, { metadataOnly })) {
    if (onGrid(packet.timestamp, frame) >= span.end) return;
    // Shown before the first and leaning on what came before that: no decoder can show it here.
    if (onGrid(packet.timestamp, frame) >= span.start) yield packet;
  }
}

/** All sound that is heard in a stretch. */
async function* soundsIn(track: InputAudioTrack, span: Range<'programme'>, metadataOnly: boolean) {
  const sink = new EncodedPacketSink(track);
  const first = (await sink.getPacket(toSeconds(span.start), { metadataOnly })) ?? (await sink.getFirstPacket());
  if (!first) return;
  for await (const packet of sink.packets(first, undefined, { metadataOnly })) {
    if (packet.timestamp >= toSeconds(span.end)) return;
    yield packet;
  }
}

async function count(packets: AsyncIterable<unknown>): Promise<number> {
  let counted = 0;
  for await (const _ of packets) counted += 1;
  return counted;
}
