import { factsOf, type MediaDetails, type Picture, type Sound } from '../../core/media/index.ts';
import { nearestRate, type Parsed, parsed, refused, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { examine } from './examine.ts';
import { findTools } from './tools.ts';

/**
 * What a media file is, by ffprobe: for containers that are not read without it, such as AVI.
 *
 * @returns its details, or why it cannot be read; never throws
 */
export async function probeWithFfmpeg(path: string): Promise<Parsed<MediaDetails>> {
  const tools = await findTools(process.env);
  if (!tools.ok)
    return refused(
      `its container is not one that can be read without ffmpeg, and ${tools.problem}`,
      `${tools.help}; then try again`,
    );
  try {
    const file = await examine(path, tools.value);
    const { picture } = file;
    const pictures: Picture[] = picture
      ? [
          {
            codec: picture.codec,
            codedWidth: picture.width,
            codedHeight: picture.height,
            rotation: picture.rotation,
            framesPerSecond: picture.framesPerSecond,
            even: true,
            start: Math.round(picture.start * TICKS_PER_SECOND),
            length: wholeFrames(picture.length, picture.framesPerSecond),
          },
        ]
      : [];
    const sounds = file.sounds.map(
      (sound): Sound => ({
        codec: 'unknown',
        channels: sound.channels,
        sampleRate: sound.sampleRate,
        start: Math.round(sound.start * TICKS_PER_SECOND),
        length: Math.round(sound.length * TICKS_PER_SECOND),
      }),
    );
    if (pictures.length + sounds.length === 0)
      return refused('it holds neither picture nor sound', 'name the file the camera wrote');
    return parsed(factsOf(file.container, pictures, sounds));
  } catch {
    return refused('it is not a media file that can be read', 'name the file the camera wrote, or copy it again');
  }
}

/** @param seconds s @returns ticks */
function wholeFrames(seconds: number, framesPerSecond: number): number {
  const frame = nearestRate(framesPerSecond)?.ticksPerFrame;
  const length = Math.round(seconds * TICKS_PER_SECOND);
  return frame ? Math.round(length / frame) * frame : length;
}
