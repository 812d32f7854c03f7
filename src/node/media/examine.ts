import { EncodedPacketSink } from 'mediabunny';
import { z } from 'zod';
import { type CodedPicture, type CopyPoints, copyPoints, readConfiguration } from '../../core/media/index.ts';
import { TICKS_PER_SECOND } from '../../core/time/index.ts';
import { openMedia } from './camera-formats.ts';
import { runFfprobe } from './ffmpeg.ts';
import { fingerprint } from './fingerprint.ts';
import type { Tools } from './tools.ts';

const stream = z.looseObject({
  index: z.number(),
  codec_type: z.string().optional(),
  codec_name: z.string().optional(),
  profile: z.string().optional(),
  level: z.number().optional(),
  pix_fmt: z.string().optional(),
  field_order: z.string().optional(),
  width: z.number().optional(),
  height: z.number().optional(),
  avg_frame_rate: z.string().optional(),
  has_b_frames: z.number().optional(),
  channels: z.number().optional(),
  sample_rate: z.string().optional(),
  start_time: z.string().optional(),
  duration: z.string().optional(),
  sample_aspect_ratio: z.string().optional(),
  disposition: z.looseObject({ attached_pic: z.number().optional() }).optional(),
  side_data_list: z.array(z.looseObject({ rotation: z.number().optional() })).optional(),
});
const told = z.looseObject({
  streams: z.array(stream),
  format: z.looseObject({
    format_name: z.string().optional(),
    start_time: z.string().optional(),
    duration: z.string().optional(),
  }),
});
type StreamTold = z.infer<typeof stream>;

/** The picture stream of a camera file, as ffmpeg sees it. */
export interface ExaminedPicture {
  readonly stream: number;
  readonly codec: string;
  readonly profile: string;
  readonly level: number;
  readonly pixelFormat: string;
  /** As stored. */
  readonly width: number;
  readonly height: number;
  /** Clockwise, to be shown. */
  readonly rotation: 0 | 90 | 180 | 270;
  readonly interlaced: boolean;
  readonly bFrames: number;
  readonly framesPerSecond: number;
  /** As the container tells it, s. */
  readonly length: number;
  /** First picture on the file's clock, s. */
  readonly start: number;
}

export interface ExaminedSound {
  readonly stream: number;
  readonly channels: number;
  readonly sampleRate: number;
  /** First sample on the file's clock, s. */
  readonly start: number;
  /** s */
  readonly length: number;
}

/** A media file as rendering needs to know it. */
export interface Examined {
  readonly path: string;
  /** Fingerprint of its content. */
  readonly content: string;
  readonly container: string;
  /** Where the file's clock begins, s. */
  readonly clock: number;
  readonly picture?: ExaminedPicture;
  readonly sounds: readonly ExaminedSound[];
}

/** Looks at a file with ffprobe. @throws OutsideFailure when it cannot be read */
export async function examine(path: string, tools: Tools, signal?: AbortSignal): Promise<Examined> {
  const [content, answer] = await Promise.all([
    fingerprint(path),
    runFfprobe(tools, ['-show_format', '-show_streams'], path, signal),
  ]);
  const { streams, format } = told.parse(answer);
  const clock = Number(format.start_time ?? 0) || 0;
  const picture = streams.find((s) => s.codec_type === 'video' && s.disposition?.attached_pic !== 1);
  const sounds = streams.filter((s) => s.codec_type === 'audio' && (s.channels ?? 0) > 0);
  return {
    path,
    content,
    container: format.format_name ?? 'unknown',
    clock,
    ...(picture && { picture: pictureOf(picture, clock, Number(format.duration ?? 0)) }),
    sounds: sounds.map((s) => ({
      stream: s.index,
      channels: s.channels ?? 1,
      sampleRate: Number(s.sample_rate ?? 48_000),
      start: Number(s.start_time ?? clock),
      length: Number(s.duration ?? format.duration ?? 0),
    })),
  };
}

function pictureOf(told: StreamTold, clock: number, whole: number): ExaminedPicture {
  // ffprobe counts the turn against the clock.
  const turn = told.side_data_list?.find((side) => side.rotation !== undefined)?.rotation ?? 0;
  const clockwise = (((-turn % 360) + 360) % 360) as number;
  return {
    stream: told.index,
    codec: told.codec_name ?? 'unknown',
    profile: told.profile ?? '',
    level: told.level ?? 0,
    pixelFormat: told.pix_fmt ?? '',
    width: told.width ?? 0,
    height: told.height ?? 0,
    rotation: clockwise === 90 ? 90 : clockwise === 180 ? 180 : clockwise === 270 ? 270 : 0,
    interlaced: !['progressive', 'unknown', undefined].includes(told.field_order),
    bFrames: told.has_b_frames ?? 0,
    framesPerSecond: fractionOf(told.avg_frame_rate),
    length: Number(told.duration ?? whole),
    start: Number(told.start_time ?? clock),
  };
}

function fractionOf(text = '0/1'): number {
  const [numerator = 0, denominator = 1] = text.split('/').map(Number);
  return denominator > 0 ? numerator / denominator : 0;
}

const packets = z.looseObject({ packets: z.array(z.looseObject({ pts_time: z.string().optional() })) });

/**
 * When each picture is shown, as ffprobe lists packets; nothing is decoded.
 *
 * @param places where to look, in the form of ffprobe's `-read_intervals`; the whole file when left out
 * @returns s on the file's clock; none where the container does not say it of every picture
 */
export async function presentationTimes({ path, picture }: Examined, tools: Tools, places?: string): Promise<number[]> {
  if (!picture) return [];
  const asked = ['-select_streams', String(picture.stream), '-show_entries', 'packet=pts_time'];
  const answer = await runFfprobe(tools, places === undefined ? asked : ['-read_intervals', places, ...asked], path);
  const times = packets.parse(answer).packets.map(({ pts_time: at }) => Number(at));
  return times.every(Number.isFinite) ? times : [];
}

/** What of a camera file may be copied into an H.264 track. */
export interface Copyable {
  /** Frames of the file. */
  readonly points: CopyPoints;
  /** Decoder configuration record; absent where nothing may be copied. */
  readonly configuration?: Uint8Array;
  /** True where the file is known to hold a picture for every frame. */
  readonly even?: boolean;
}

/**
 * Finds where groups of pictures that may be copied begin, from the file's index.
 *
 * @param ticksPerFrame of the recording
 * @param lead ticks from the recording's frame grid to the first picture
 */
export async function findCopyPoints(file: Examined, ticksPerFrame: number, lead: number): Promise<Copyable> {
  const { picture } = file;
  const refuse = (reason: string): Copyable => ({ points: { refused: reason } });
  if (!picture) return refuse('it has no picture');
  if (picture.codec !== 'h264') return refuse(`its picture is ${picture.codec}, not H.264`);
  if (!['yuv420p', 'yuvj420p'].includes(picture.pixelFormat))
    return refuse(`its picture is stored as ${picture.pixelFormat}, which few players show`);
  if (picture.interlaced) return refuse('its picture is interlaced');
  const input = openMedia(file.path);
  try {
    const [track] = await input.getVideoTracks();
    const description = (await track?.getDecoderConfig())?.description;
    if (!track || !description)
      return refuse('the file does not say how its picture is decoded, so it cannot be copied');
    const configuration = bytesOf(description);
    const sets = readConfiguration(configuration);
    if (sets?.lengthSize !== 4) return refuse('the file says in an unknown form how its picture is decoded');
    const first = await track.getFirstTimestamp();
    const pictures: CodedPicture[] = [];
    for await (const packet of new EncodedPacketSink(track).packets(undefined, undefined, { metadataOnly: true }))
      pictures.push({
        shown: Math.round((packet.timestamp - first) * TICKS_PER_SECOND),
        key: packet.type === 'key',
      });
    const points = copyPoints(pictures, ticksPerFrame, lead);
    return { points, configuration, even: !('refused' in points) && points.at(-1) === pictures.length };
  } catch (error) {
    return refuse(`its index cannot be read (${error instanceof Error ? error.message : String(error)})`);
  } finally {
    input.dispose();
  }
}

export function bytesOf(source: ArrayBuffer | SharedArrayBuffer | ArrayBufferView): Uint8Array {
  return ArrayBuffer.isView(source)
    ? new Uint8Array(source.buffer, source.byteOffset, source.byteLength)
    : new Uint8Array(source);
}
