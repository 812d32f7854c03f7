import { stat } from 'node:fs/promises';
import { ALL_FORMATS, FilePathSource, Input, type InputAudioTrack, type InputVideoTrack } from 'mediabunny';
import { factsOf, type MediaDetails, type Picture, type Sound } from '../../core/media/index.ts';
import { nearestRate, type Parsed, parsed, refused, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { readStartTimecode } from './start-timecode.ts';

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
  if (!known?.isFile()) return refused('there is no such file', 'correct the path, or put the file there');
  if (known.size === 0) return refused('the file is empty', 'copy it from the camera again');
  const input = new Input({ source: new FilePathSource(path), formats: ALL_FORMATS });
  try {
    if (!(await input.canRead()))
      return refused('its container is not one that can be read here', 'ffmpeg may read it: set it up, then try again');
    const format = (await input.getFormat()).name;
    const pictures = await Promise.all((await input.getVideoTracks()).map(pictureOf));
    const sounds = await Promise.all((await input.getAudioTracks()).map(soundOf));
    if (pictures.length + sounds.length === 0)
      return refused('it holds neither picture nor sound', 'name the file the camera wrote');
    return parsed(factsOf(format, pictures, sounds, await readStartTimecode(path)));
  } catch (error) {
    return refused(
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
  const even = metrics.frameRateIsConstant || (metrics.underlyingFrameRate !== null && known !== undefined);
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
  };
}

/** The nearest whole number of frames, where rounding in the container is all that is missing. */
function wholeFrames(length: number, ticksPerFrame: number): number {
  const frames = Math.round(length / ticksPerFrame);
  return Math.abs(length - frames * ticksPerFrame) < ticksPerFrame / 4 ? frames * ticksPerFrame : length;
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
