import { factsOf, type MediaDetails, type Picture, type Sound } from '../../core/media/index.ts';
import { fail, nearestRate, ok, type Parsed, TICKS_PER_SECOND } from '../../core/time/index.ts';
import { type Examined, type ExaminedPicture, examine, presentationTimes } from './examine.ts';
import { isEvenToFfprobe, startsFrom } from './picture-starts.ts';
import { findTools, type Tools } from './tools.ts';

/**
 * What a media file is, by ffprobe: for containers that are not read without it, such as AVI.
 *
 * @returns its details, or why it cannot be read; never throws
 */
export async function probeWithFfmpeg(path: string): Promise<Parsed<MediaDetails>> {
  const tools = await findTools(process.env);
  if (!tools.ok)
    return fail(
      `its container is not one that can be read without ffmpeg, and ${tools.problem}`,
      `${tools.help}; then try again`,
    );
  try {
    const file = await examine(path, tools.value);
    const { picture } = file;
    const measured = picture && (await pictureOf(file, picture, tools.value));
    const pictures = measured ? [measured.picture] : [];
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
      return fail('it holds neither picture nor sound', 'name the file the camera wrote');
    return ok(factsOf(file.container, pictures, sounds, undefined, measured?.starts));
  } catch {
    return fail('it is not a media file that can be read', 'name the file the camera wrote, or copy it again');
  }
}

/** The picture track, and when its pictures are shown where no rate in use says so. */
async function pictureOf(
  file: Examined,
  told: ExaminedPicture,
  tools: Tools,
): Promise<{ picture: Picture; starts?: readonly number[] }> {
  const { codec, rotation, framesPerSecond } = told;
  const start = Math.round(told.start * TICKS_PER_SECOND);
  const whole = Math.round(told.length * TICKS_PER_SECOND);
  const frame = nearestRate(framesPerSecond)?.ticksPerFrame;
  const list = (places?: string) => presentationTimes(file, tools, places);
  const even = frame !== undefined && (await isEvenToFfprobe(list, start, whole, frame));
  // A container that keeps no such times, as AVI, has an even rate by its nature.
  const starts = even ? [] : startsFrom(await list(), start, whole);
  const uneven = starts.length > 0;
  const picture: Picture = {
    codec,
    codedWidth: told.width,
    codedHeight: told.height,
    rotation,
    framesPerSecond: uneven ? (starts.length * TICKS_PER_SECOND) / whole : framesPerSecond,
    even: !uneven,
    start,
    length: uneven ? whole : wholeFrames(told.length, framesPerSecond),
  };
  return uneven ? { picture, starts } : { picture };
}

/** @param seconds s @returns ticks */
function wholeFrames(seconds: number, framesPerSecond: number): number {
  const frame = nearestRate(framesPerSecond)?.ticksPerFrame;
  const length = Math.round(seconds * TICKS_PER_SECOND);
  return frame ? Math.round(length / frame) * frame : length;
}
