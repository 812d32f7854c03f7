import { stat } from 'node:fs/promises';
import { EncodedPacketSink, type InputAudioTrack, type InputVideoTrack } from 'mediabunny';
import { factsOf, type MediaDetails, type Picture, type Sound } from '../../core/media/index.ts';
import { fail, nearestRate, ok, type Parsed, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { openMedia } from './camera-formats.ts';
import { isEven, pictureStarts } from './picture-starts.ts';
import { boxTypes, readStartTimecode } from './start-timecode.ts';

/** Frames looked at to tell the rate; enough to see an uneven one, few enough to stay under 100 ms. */
const FRAMES_LOOKED_AT = 256;

/**
 * What a media file is, without ffmpeg: length, rate, size, rotation, tracks, start timecode.
 *
 * @param path absolute path
 * @returns its details, or why it cannot be read; never throws
 */
export async function probeFile(path: string): Promise<Parsed<MediaDetails>> {
  const known = await stat(path).catch(() => undefined);
  if (!known?.isFile()) return fail('there is no such file', 'correct the path, or put the file there');
  if (known.size === 0) return fail('the file is empty', 'copy it from the camera again');
  const input = openMedia(path);
  try {
    // The library stumbles over files of a few bytes.
    if (!(await input.canRead().catch(() => false))) {
      // Loaded only where it is needed: most files are read without it.
      const { probeWithFfmpeg } = await import('./probe-ffmpeg.ts');
      return await probeWithFfmpeg(path);
    }
    const format = (await input.getFormat()).name;
    if ((await input.getTracks()).length === 0 && (await lacksIndex(path)))
      return fail(
        'its index is missing: the camera did not finish the file',
        'copy it from the card again; if it is the same there, its maker may have a way to repair it',
      );
    const tracks = await input.getVideoTracks();
    const read = await Promise.all(tracks.map(pictureOf));
    const held = await Promise.all(tracks.map((track, i) => lengthHeld(track, read[i])));
    const pictures = read.map((picture, i) => ({ ...picture, length: held[i]?.length ?? picture.length }));
    const [track] = tracks;
    const [picture] = pictures;
    const starts = track && picture && (await startsOf(track, picture));
    if (picture && starts && !picture.even)
      pictures[0] = { ...picture, framesPerSecond: (starts.length * TICKS_PER_SECOND) / picture.length };
    const missing = held[0]?.missing ?? 0;
    const sounds = await Promise.all((await input.getAudioTracks()).map(soundOf));
    if (pictures.length + sounds.length === 0)
      return fail('it holds neither picture nor sound', 'name the file the camera wrote');
    const details = factsOf(format, pictures, sounds, await readStartTimecode(path), starts);
    return ok(missing > 0 ? { ...details, missing } : details);
  } catch (error) {
    if (await lacksIndex(path))
      return fail(
        'its index is missing: the camera did not finish the file',
        'copy it from the card again; if it is the same there, its maker may have a way to repair it',
      );
    return fail(
      `it breaks off or is damaged (${error instanceof Error ? error.message : String(error)})`,
      'copy it from the camera again; ffmpeg may still read a part of it',
    );
  } finally {
    input.dispose();
  }
}

async function pictureOf(track: InputVideoTrack): Promise<Picture> {
  const metrics = await track.computeFrameRateMetrics({ targetPacketCount: FRAMES_LOOKED_AT });
  const start = Math.round((await track.getFirstTimestamp()) * TICKS_PER_SECOND);
  const end = Math.round((await track.computeDuration()) * TICKS_PER_SECOND);
  // Containers that keep whole milliseconds look slightly uneven; a rate in use that is near settles it.
  const known = nearestRate(metrics.underlyingFrameRate ?? metrics.bestGuessFrameRate);
  const seemsEven = metrics.frameRateIsConstant || (metrics.underlyingFrameRate !== null && known !== undefined);
  const even = seemsEven && (!known || (await isEven(track, start, end - start, known.ticksPerFrame)));
  const framesPerSecond =
    even && known
      ? known.numerator / known.denominator
      : even
        ? metrics.bestGuessFrameRate
        : metrics.averageFrameRate || metrics.bestGuessFrameRate;
  return {
    codec: (await track.getCodec()) ?? 'unknown',
    codedWidth: await track.getCodedWidth(),
    codedHeight: await track.getCodedHeight(),
    rotation: await track.getRotation(),
    framesPerSecond,
    even,
    start,
    length: even && known ? wholeFrames(end - start, known.ticksPerFrame) : end - start,
    ...(await unseenOf(track)),
  };
}

/** How long it takes from the first picture to the first that needs no other. */
async function unseenOf(track: InputVideoTrack): Promise<{ unseen?: number }> {
  const sink = new EncodedPacketSink(track);
  const first = await sink.getFirstPacket();
  if (first?.type !== 'delta') return {};
  const key = await sink.getFirstKeyPacket();
  return key ? { unseen: Math.round((key.timestamp - first.timestamp) * TICKS_PER_SECOND) } : {};
}

/** When its pictures are shown, where no rate in use says so. */
async function startsOf(track: InputVideoTrack, picture: Picture): Promise<number[] | undefined> {
  if (picture.even && nearestRate(picture.framesPerSecond)) return undefined;
  const starts = await pictureStarts(track, picture.start, picture.length);
  return starts.length > 0 ? starts : undefined;
}

/** The nearest whole number of frames, where rounding in the container is all that is missing. */
function wholeFrames(length: number, ticksPerFrame: number): number {
  const frames = Math.round(length / ticksPerFrame);
  return Math.abs(length - frames * ticksPerFrame) < ticksPerFrame / 4 ? frames * ticksPerFrame : length;
}

/**
 * How much of a picture track the file really holds: a copy that broke off, or a camera that lost power, leaves an
 * index or a header that promises more.
 *
 * @returns ticks
 */
async function lengthHeld(
  track: InputVideoTrack,
  told: Picture | undefined,
): Promise<{ length: number; missing: number }> {
  const length = told?.length ?? 0;
  const promised = (await track.getDurationFromMetadata()) ?? 0;
  const lost = Math.round(promised * TICKS_PER_SECOND) - (told?.start ?? 0) - length;
  const sink = new EncodedPacketSink(track);
  const start = (told?.start ?? 0) / TICKS_PER_SECOND;
  const frame = 1 / (told?.framesPerSecond || 25);
  const there = async (time: number) => {
    const packet = await sink.getPacket(time).catch(() => null);
    return packet !== null && packet.data.byteLength === packet.byteLength && packet.byteLength > 0;
  };
  if (await there(start + length / TICKS_PER_SECOND)) return { length, missing: lost > TICKS_PER_SECOND ? lost : 0 };
  let [good, bad] = [0, length / TICKS_PER_SECOND];
  while (bad - good > frame / 2) {
    const middle = (good + bad) / 2;
    if (await there(start + middle)) good = middle;
    else bad = middle;
  }
  const per = nearestRate(told?.framesPerSecond ?? 0)?.ticksPerFrame ?? Math.round(frame * TICKS_PER_SECOND);
  // The last pictures lean on ones that came later in the file: a few less are sure to be whole.
  const held = Math.max(0, Math.floor((good * TICKS_PER_SECOND) / per) - 3) * per;
  return { length: held, missing: length - held };
}

/** True for an MP4 or QuickTime file without the box that says where its pictures lie (ISO/IEC 14496-12, 8.2). */
async function lacksIndex(path: string): Promise<boolean> {
  const types = await boxTypes(path);
  return (
    types.length > 0 &&
    types.every((type) => /^[ -~]{4}$/.test(type)) &&
    types.includes('mdat') &&
    !types.includes('moov')
  );
}

async function soundOf(track: InputAudioTrack): Promise<Sound> {
  const start = Math.round((await track.getFirstTimestamp()) * TICKS_PER_SECOND);
  const end = Math.round((await track.computeDuration()) * TICKS_PER_SECOND);
  return {
    codec: (await track.getCodec()) ?? 'unknown',
    channels: await track.getNumberOfChannels(),
    sampleRate: await track.getSampleRate(),
    start,
    length: end - start,
  };
}
