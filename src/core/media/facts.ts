import type { MediaFacts } from '../model/index.ts';

/** A picture track of a media file. */
export interface Picture {
  /** Name of the codec: `avc`, `hevc`, `vp9`, `av1`, `mjpeg`, …; `unknown` where the probe knows none. */
  readonly codec: string;
  /** As stored, pixels. */
  readonly codedWidth: number;
  readonly codedHeight: number;
  /** How far the picture is turned clockwise to be shown, degrees. */
  readonly rotation: 0 | 90 | 180 | 270;
  /** Frames per second, as measured over the first frames. */
  readonly framesPerSecond: number;
  /** False where frames do not follow each other evenly, as phones write them. */
  readonly even: boolean;
  /** First frame on the file's own clock, ticks; may be negative. */
  readonly start: number;
  /** From the first frame to the end of the last, ticks. */
  readonly length: number;
  /** At the beginning, what nothing can be decoded of: the stream was split in the middle of a group; ticks. */
  readonly unseen?: number;
}

/** A sound track of a media file. */
export interface Sound {
  readonly codec: string;
  readonly channels: number;
  /** Hz */
  readonly sampleRate: number;
  /** First sample on the file's own clock, ticks; may be negative. */
  readonly start: number;
  /** ticks */
  readonly length: number;
}

/** What a probe found out about a media file: the facts every reader wants, and its tracks. */
export interface MediaDetails extends MediaFacts {
  /** Name of the container, such as `MP4`. */
  readonly container: string;
  readonly pictures: readonly Picture[];
  readonly sounds: readonly Sound[];
  /** Ticks that the file's index promises and the file does not hold: it breaks off. */
  readonly missing?: number;
}

/**
 * The facts the content model wants, from the tracks.
 *
 * The length is that of the first picture track, from its first frame to the end of its last, because a recording
 * of several files counts its time in frames; without a picture it is that of the longest sound track.
 *
 * @param pictureStarts ticks from the first picture, where they do not follow each other evenly
 */
export function factsOf(
  container: string,
  pictures: readonly Picture[],
  sounds: readonly Sound[],
  startTimecode?: string,
  pictureStarts?: readonly number[],
): MediaDetails {
  const [picture] = pictures;
  const turned = picture && picture.rotation % 180 !== 0;
  return {
    container,
    pictures,
    sounds,
    duration: picture?.length ?? Math.max(0, ...sounds.map((s) => s.length)),
    ...(picture && sounds.length > 0 && { soundDuration: Math.max(...sounds.map((s) => s.length)) }),
    ...(picture && {
      framesPerSecond: picture.framesPerSecond,
      width: turned ? picture.codedHeight : picture.codedWidth,
      height: turned ? picture.codedWidth : picture.codedHeight,
    }),
    ...(startTimecode !== undefined && { startTimecode }),
    ...(pictureStarts && { pictureStarts }),
  };
}
