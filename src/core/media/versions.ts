import { cameraInput, computedInput } from './input-args.ts';
import { SAMPLE_RATE } from './sound-plan.ts';

/** A further form of the programme, made from the rendered one. */
export const VERSIONS = ['hls', 'vp9', 'av1'] as const;
export type Version = (typeof VERSIONS)[number];

/** A rung of an HLS ladder. */
export interface Rung {
  /** pixels */
  readonly width: number;
  readonly height: number;
  /** bits per second: picture, at most; sound */
  readonly picture: number;
  readonly sound: number;
}

/** Heights and bit rates of a ladder for filmed workshop scenes (common practice, no source). */
const LADDER = [
  { height: 1080, picture: 4_500_000, sound: 160_000 },
  { height: 720, picture: 2_400_000, sound: 128_000 },
  { height: 480, picture: 1_100_000, sound: 128_000 },
  { height: 270, picture: 450_000, sound: 96_000 },
] as const;

/** Length of an HLS segment, s. */
const SEGMENT = 6;

/** The rungs below a picture's own size, and its own as the highest. @param size as shown, pixels */
export function ladderFor(size: { readonly width: number; readonly height: number }): Rung[] {
  const top = Math.min(size.height, LADDER[0].height);
  const above = LADDER.findLast(({ height }) => height >= top) ?? LADDER[0];
  const area = (top / above.height) ** 2;
  const own = { height: top, picture: Math.round(above.picture * area), sound: above.sound };
  const below = LADDER.filter(({ height }) => height < top * 0.9);
  return [own, ...below].map(({ height, picture, sound }) => ({
    width: Math.round((size.width * height) / size.height / 2) * 2,
    height: height - (height % 2),
    picture,
    sound,
  }));
}

/** A segment of a rung. */
export interface Segment {
  /** s */
  readonly seconds: number;
  readonly bytes: number;
}

/** What a media playlist says: its target duration, s, and its segments by name. */
export function readMediaPlaylist(text: string): {
  readonly target: number;
  readonly segments: readonly { readonly name: string; readonly seconds: number }[];
} {
  const target = Number(/^#EXT-X-TARGETDURATION:(\d+)/m.exec(text)?.[1] ?? 0);
  const segments = [...text.matchAll(/^#EXTINF:([\d.]+),.*\n(?:#.*\n)*([^#\n]+)$/gm)].map(([, seconds, name = '']) => ({
    name,
    seconds: Number(seconds),
  }));
  return { target, segments };
}

/**
 * Highest and mean bit rate of a rung, bits per second.
 *
 * Source: RFC 8216, 4.1 and 4.3.4.2: the peak segment bit rate is the largest of any run of segments that together last
 * between half and one and a half of the target duration.
 */
export function bitRates(
  target: number,
  segments: readonly Segment[],
): { readonly peak: number; readonly mean: number } {
  const rate = (some: readonly Segment[]) =>
    (some.reduce((sum, { bytes }) => sum + bytes, 0) * 8) / some.reduce((sum, { seconds }) => sum + seconds, 0);
  let peak = 0;
  for (let from = 0; from < segments.length; from++)
    for (let until = from + 1, length = 0; until <= segments.length; until++) {
      length += segments[until - 1]?.seconds ?? 0;
      if (length > 1.5 * target) break;
      if (length >= 0.5 * target) peak = Math.max(peak, rate(segments.slice(from, until)));
    }
  const mean = segments.length > 0 ? rate(segments) : 0;
  return { peak: Math.ceil(Math.max(peak, mean)), mean: Math.ceil(mean) };
}

/** A master playlist whose variants say the bit rates they really have, in its own order. */
export function withBitRates(
  master: string,
  rungs: readonly { readonly peak: number; readonly mean: number }[],
): string {
  let next = 0;
  return master.replaceAll(/^#EXT-X-STREAM-INF:BANDWIDTH=\d+/gm, (written) => {
    const rung = rungs[next++];
    return rung ? `#EXT-X-STREAM-INF:BANDWIDTH=${rung.peak},AVERAGE-BANDWIDTH=${rung.mean}` : written;
  });
}

/**
 * Arguments that make an HLS ladder with fragmented MP4 segments (RFC 8216): `hls.m3u8`, and a folder a rung.
 * Every rung begins a group of pictures at the same moments, so that a player may change between them.
 *
 * Players for the web read the times in the segments and pass edit lists over. So both tracks begin at 0 in these: the
 * encoder's first packet of sound, which only sets the decoder up, is dropped, and pictures shown out of decoding order
 * are told by negative offsets.
 */
export function hlsArgs(programme: string, rungs: readonly Rung[], hasSound: boolean, folder: string): string[] {
  const split = `[0:v]split=${rungs.length}${rungs.map((_, i) => `[s${i}]`).join('')}`;
  const scaled = rungs.map(({ width, height }, i) => `[s${i}]scale=${width}:${height},format=yuv420p[v${i}]`);
  const tracks = rungs.flatMap((rung, i) => [
    ...['-map', `[v${i}]`, `-b:v:${i}`, String(rung.picture), `-maxrate:v:${i}`, String(rung.picture)],
    ...[`-bufsize:v:${i}`, String(rung.picture * 2)],
    ...(hasSound ? ['-map', '0:a:0', `-b:a:${i}`, String(rung.sound)] : []),
  ]);
  const map = rungs.map((_, i) => (hasSound ? `v:${i},a:${i}` : `v:${i}`)).join(' ');
  return [
    ...[...cameraInput(programme), '-filter_complex', [split, ...scaled].join(';'), ...tracks, '-sn'],
    ...['-c:v', 'libx264', '-preset', 'veryfast', '-profile:v', 'high', '-sc_threshold', '0'],
    ...['-force_key_frames', `expr:gte(t,n_forced*${SEGMENT / 3})`, '-c:a', 'aac', '-aac_coder', 'fast'],
    ...(hasSound ? ['-bsf:a', "noise=amount=0:drop='lt(n,1)'"] : []),
    ...['-avoid_negative_ts', 'disabled', '-hls_segment_options', 'movflags=+negative_cts_offsets'],
    ...['-f', 'hls', '-hls_time', String(SEGMENT), '-hls_playlist_type', 'vod', '-hls_segment_type', 'fmp4'],
    ...['-hls_flags', 'independent_segments', '-var_stream_map', map, '-master_pl_name', 'hls.m3u8'],
    ...[
      '-hls_fmp4_init_filename',
      'init.mp4',
      '-hls_segment_filename',
      `${folder}/%v/%d.m4s`,
      `${folder}/%v/list.m3u8`,
    ],
  ];
}

/** What the Opus encoder looks ahead at 48 kHz, samples; a player drops as many (RFC 7845, 4.2: pre-skip). */
const OPUS_DELAY = 312;

/** How WebM is written here. */
export interface WebmForm {
  readonly version: 'vp9' | 'av1';
  /** As ffmpeg names it. */
  readonly encoder: string;
  readonly hasSound: boolean;
  /** True where ffmpeg leaves the encoder's delay out of the times, see `soundComesEarly`. */
  readonly early: boolean;
}

/** Arguments for one file in a codec that needs fewer bits: VP9 or AV1 with Opus, in WebM. */
export function webmArgs(programme: string, form: WebmForm, output: string): string[] {
  const { version, encoder } = form;
  const picture =
    version === 'vp9'
      ? ['-c:v', encoder, '-crf', '33', '-b:v', '0', '-row-mt', '1', '-deadline', 'good', '-cpu-used', '5']
      : encoder === 'libsvtav1'
        ? ['-c:v', encoder, '-crf', '36', '-preset', '9']
        : ['-c:v', encoder, '-crf', '36', '-b:v', '0', '-cpu-used', '6', '-row-mt', '1'];
  return [
    ...[...cameraInput(programme), '-map', '0:v:0', '-map_chapters', '0', '-sn', ...picture],
    ...(form.hasSound ? ['-map', '0:a:0', '-c:a', 'libopus', '-b:a', '96k'] : []),
    ...(form.hasSound && form.early ? ['-af', `asetpts=PTS+${OPUS_DELAY}`] : []),
    ...['-f', 'webm', output],
  ];
}

/** Arguments that write a moment of picture and sound as WebM, to see how they come to lie beside each other. */
export function webmTrialArgs(encoder: string, output: string): string[] {
  return [
    ...[...computedInput('color=s=64x64:r=25'), ...computedInput(`anullsrc=r=${SAMPLE_RATE}:cl=mono`)],
    ...['-t', '0.2', '-c:v', encoder, '-c:a', 'libopus', '-f', 'webm', output],
  ];
}

/**
 * Some releases of ffmpeg (5.1 does) write a file with Opus so that its sound comes earlier than its picture, by the
 * encoder's delay.
 *
 * @param picture, sound times of the first packets of a trial, s; that of the sound counts from the delay on
 */
export function soundComesEarly(picture: number, sound: number): boolean {
  return picture - sound > (1.5 * OPUS_DELAY) / SAMPLE_RATE;
}

/** Encoders that make a version, best first. */
export const ENCODERS: Readonly<Record<Version, readonly string[]>> = {
  hls: ['libx264'],
  vp9: ['libvpx-vp9'],
  av1: ['libsvtav1', 'libaom-av1'],
};
