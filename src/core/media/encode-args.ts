import { GRID, type Stretch } from './analyse-args.ts';
import { cameraInput, computedInput, drawingInput } from './input-args.ts';
import { FADE, SAMPLE_RATE, type SoundPiece } from './sound-plan.ts';

/** How a picture is encoded: everything that decides the bits, so that it can stand in a job. */
export interface PictureCoding {
  readonly codec: 'h264';
  /** H.264 profile and level as the encoder names them; left out: the encoder's choice. */
  readonly profile: string | null;
  readonly level: string | null;
  /** Number of the parameter sets (0 … 31), so that pieces from different encoders can share one track. */
  readonly parameterSet: number;
  /** 0 where the copied pictures hold no B pictures. */
  readonly bFrames: number;
  readonly crf: number;
  readonly preset: string;
  /** Group of pictures, frames. */
  readonly group: number;
}

/** Frames of one file to be encoded. */
export interface PictureJob {
  /** First frame on the file's own grid, and how many. */
  readonly first: number;
  readonly count: number;
  /** Frames a second, as a fraction. */
  readonly rate: string;
  /** Position of the picture among the file's streams, counted as ffmpeg does. */
  readonly stream: number;
  /** First picture on the file's clock, s. */
  readonly start: number;
  /** Where the file's clock begins, s; seeking counts from there. */
  readonly clock: number;
  /** From the frame grid to the first picture, s; less than a frame. */
  readonly lead: number;
  /** How much the file's clock runs fast against the grid, parts per million. */
  readonly drift: number;
  /** Pixels of the result; the picture is fitted in, black round it. Left out where it has that size already. */
  readonly fit: { readonly width: number; readonly height: number } | null;
  /** True: turn the picture as the camera asks; false: leave that to the player, as copied pictures do. */
  readonly turn: boolean;
  readonly deinterlace: boolean;
  /** True where the file's pictures are known to follow each other at the rate, without gaps. */
  readonly even: boolean;
  /** A drawing lies over the picture; how far a player turns the result, clockwise, which the drawing is made for. */
  readonly burnt: 0 | 90 | 180 | 270 | null;
  readonly coding: PictureCoding;
}

/** Footage decoded before the first frame, s: a picture that was shown for long, as phones write it, is then known. */
const RUN_UP = 1;
/** The same where pictures are known to follow each other evenly: a few, whatever the rate. */
const EVEN_RUN_UP = 0.1;

/**
 * Arguments that encode exactly the wanted frames of a file, counted on an even grid whatever the file's own times are.
 * Where the file has no picture for a frame the one before it is shown again, as a player would.
 *
 * @param drawing a picture with transparency, as large as the result is shown, where one is burnt in
 */
export function encodePictureArgs(path: string, job: PictureJob, output: string, drawing?: string): string[] {
  const { at, filters } = framesOf(job);
  return [
    ...(job.turn ? [] : ['-noautorotate']),
    ...['-ss', decimal(at), '-copyts', ...cameraInput(path)],
    ...(job.burnt === null || drawing === undefined
      ? ['-map', `0:${job.stream}`, '-vf', filters.join(',')]
      : [...drawingInput(drawing), '-filter_complex', `[0:${job.stream}]${filters.join(',')}[p];${burnIn(job.burnt)}`]),
    ...['-frames:v', String(job.count)],
    ...codingArgs(job.coding, job.rate),
    output,
  ];
}

/** Arguments that write the frames of a job as `GRID` of grey cells, as it is seen: the way a player turns it. */
export function lookAtFramesArgs(path: string, job: PictureJob, output: string): string[] {
  const { at, filters } = framesOf(job);
  const cells = `fps=${GRID.perSecond},scale=${GRID.columns}:${GRID.rows}:flags=area,format=gray`;
  return [
    ...['-ss', decimal(at), '-copyts', ...cameraInput(path), '-map', `0:${job.stream}`],
    ...['-vf', [...filters, cells].join(','), '-f', 'rawvideo', output],
  ];
}

/** What is read of a file for the frames of a job, s on the file's clock. */
export function framesRead(job: PictureJob): Stretch {
  const [numerator = 1, denominator = 1] = job.rate.split('/').map(Number);
  const { at } = framesOf(job);
  const seconds = ((job.count * denominator) / numerator) * (1 + Math.abs(job.drift) / 1e6);
  return [at + job.clock, at + job.clock + RUN_UP + seconds];
}

/** Where to begin decoding, s on the file's own count, and the filters that leave the wanted frames. */
function framesOf(job: PictureJob): { readonly at: number; readonly filters: readonly string[] } {
  const [numerator = 1, denominator = 1] = job.rate.split('/').map(Number);
  const speed = 1 + job.drift / 1e6;
  const at = ((job.first * denominator) / numerator - job.lead) * speed + job.start - job.clock;
  const filters = [
    ...(job.deinterlace ? ['bwdif=mode=send_frame'] : []),
    job.drift === 0
      ? `setpts=PTS-${decimal(job.start - job.lead)}/TB`
      : `setpts=(PTS-${decimal(job.start)}/TB)/${decimal(speed)}+${decimal(job.lead)}/TB`,
    // Where nothing could be decoded for the first frames, as in the second part of a split stream, the picture after
    // them is shown: what follows stays in its place.
    `fps=fps=${job.rate}:round=near:start_time=${decimal((job.first * denominator) / numerator)}`,
    'tpad=stop=-1:stop_mode=clone',
    `trim=start_pts=${job.first}:end_pts=${job.first + job.count}`,
    'setpts=PTS-STARTPTS',
    ...(job.fit ? fitFilters(job.fit.width, job.fit.height) : []),
    'format=yuv420p',
  ];
  return { at: Math.max(0, at - (job.even ? EVEN_RUN_UP : RUN_UP)), filters };
}

/** Lays the drawing of input 1 over `[p]`, turned against what the player will do. */
function burnIn(turned: NonNullable<PictureJob['burnt']>): string {
  const back = { 0: [], 90: ['transpose=cclock'], 180: ['hflip', 'vflip'], 270: ['transpose=clock'] }[turned];
  return `[1:v]${[...back, 'format=rgba'].join(',')}[d];[p][d]overlay,format=yuv420p`;
}

/** Arguments that encode black frames. @param drawing laid over them, see `encodePictureArgs` */
export function blankPictureArgs(
  count: number,
  rate: string,
  size: { readonly width: number; readonly height: number },
  coding: PictureCoding,
  output: string,
  burnt: { readonly drawing: string; readonly turned: NonNullable<PictureJob['burnt']> } | null = null,
): string[] {
  return [
    ...computedInput(`color=c=black:s=${size.width}x${size.height}:r=${rate},format=yuv420p`),
    ...(burnt ? [...drawingInput(burnt.drawing), '-filter_complex', `[0:v]null[p];${burnIn(burnt.turned)}`] : []),
    ...['-frames:v', String(count)],
    ...codingArgs(coding, rate),
    output,
  ];
}

function fitFilters(width: number, height: number): string[] {
  return [
    `scale=w=${width}:h=${height}:force_original_aspect_ratio=decrease:force_divisible_by=2`,
    `pad=${width}:${height}:(ow-iw)/2:(oh-ih)/2`,
    'setsar=1',
  ];
}

function codingArgs(coding: PictureCoding, rate: string): string[] {
  const [scale = '1'] = rate.split('/');
  return [
    ...['-an', '-sn', '-dn', '-map_metadata', '-1', '-map_chapters', '-1'],
    ...['-fps_mode', 'passthrough', '-enc_time_base', rate.split('/').reverse().join(':')],
    // One thread a piece: the pieces run side by side, and the bits do not depend on the machine.
    ...['-threads', '1', '-c:v', 'libx264', '-preset', coding.preset, '-crf', String(coding.crf)],
    ...(coding.profile ? ['-profile:v', coding.profile] : []),
    ...(coding.level ? ['-level', coding.level] : []),
    ...['-bf', String(coding.bFrames), '-g', String(coding.group)],
    ...['-x264-params', `sps-id=${coding.parameterSet}:open-gop=0:scenecut=40`],
    ...['-video_track_timescale', scale, '-f', 'mp4'],
  ];
}

/** A file that a run of sound is taken from. */
export interface SoundInput {
  readonly path: string;
  readonly stream: number;
  /** First sample of sound on the file's clock, s. */
  readonly start: number;
  /** Where the file's clock begins, s. */
  readonly clock: number;
  /** How much faster this file's clock runs than the recording's, parts per million. */
  readonly drift: number;
}

export interface SoundLevel {
  /** dB */
  readonly gain: number;
  /** Ceiling of a limiter, dBTP; left out where none is needed. */
  readonly ceiling: number | null;
}

/** Decoded before the first sample, s: a sound decoder needs a frame or two to settle. */
const SETTLE = 0.25;
/** What lies between two stretches of a file is decoded rather than the file opened twice where it is this short, s. */
const BRIDGED = 30;

/** A part of a file that is decoded in one go, and the pieces taken from it. */
interface Reach<I> {
  readonly input: I;
  /** Samples from the file's first one. */
  readonly from: number;
  until: number;
  readonly pieces: number[];
}

/**
 * Arguments that assemble stretches of sound to the sample, one after the other.
 *
 * @param tail what the sound is for: a filter, or nothing, and the output options
 */
export function soundArgs(
  pieces: readonly SoundPiece[],
  inputs: readonly SoundInput[],
  channels: number,
  tail: { readonly filters: readonly string[]; readonly output: readonly string[] },
): string[] {
  const layout = channels === 1 ? 'mono' : 'stereo';
  const form = `aformat=sample_fmts=fltp:sample_rates=${SAMPLE_RATE}:channel_layouts=${layout}`;
  const reaches = reachesOf(pieces, inputs);
  const opened = reaches.flatMap(({ input, from, until }) => {
    const speed = 1 + input.drift / 1e6;
    const seek = Math.max(0, (from / SAMPLE_RATE) * speed + input.start - input.clock - SETTLE);
    const length = ((until - from) / SAMPLE_RATE) * speed + 4 * SETTLE;
    return ['-ss', decimal(seek), '-t', decimal(length), ...cameraInput(input.path)];
  });
  const decoded = reaches.map(({ input, pieces: taken }, i) => {
    const { drift } = input;
    const filters = [
      `asetpts=PTS-${decimal(input.start)}/TB`,
      ...(drift === 0 ? [] : [`asetpts=PTS/${decimal(1 + drift / 1e6)}`]),
      `aresample=${SAMPLE_RATE}:async=${drift === 0 ? 1 : 1000}:min_comp=0.0001`,
      form,
      ...(taken.length > 1 ? [`asplit=${taken.length}`] : []),
    ];
    return `[${i}:${input.stream}]${filters.join(',')}${taken.map((piece) => `[d${piece}]`).join('')}`;
  });
  const cut = pieces.map((piece, i) => {
    if (piece.kind === 'silence' || !inputs[piece.source])
      return `anullsrc=r=${SAMPLE_RATE}:cl=${layout},${form},atrim=end_sample=${piece.count}[p${i}]`;
    const filters = [
      `atrim=start_pts=${piece.from}:end_pts=${piece.from + piece.count}`,
      'asetpts=PTS-STARTPTS',
      `apad=whole_len=${piece.count}`,
      `atrim=end_sample=${piece.count}`,
      ...(piece.fadeIn ? [`afade=t=in:ss=0:ns=${FADE}`] : []),
      ...(piece.fadeOut ? [`afade=t=out:ss=${Math.max(0, piece.count - FADE)}:ns=${FADE}`] : []),
    ];
    return `[d${i}]${filters.join(',')}[p${i}]`;
  });
  const all = pieces.map((_, i) => `[p${i}]`).join('');
  const joined = [`${all}concat=n=${pieces.length}:v=0:a=1`, ...tail.filters].join(',');
  const graph = `${[...decoded, ...cut, joined].join(';')}[out]`;
  return ['-copyts', ...opened, '-filter_complex', graph, '-map', '[out]', ...tail.output];
}

/** What is read of files for some pieces of sound: which input, and from when to when on its clock, s. */
export function soundRead(
  pieces: readonly SoundPiece[],
  inputs: readonly Omit<SoundInput, 'path'>[],
): { readonly input: number; readonly stretch: Stretch }[] {
  return reachesOf(pieces, inputs).map(({ input, from, until }) => {
    const [start, end] = [from, until].map((sample) => (sample / SAMPLE_RATE) * (1 + input.drift / 1e6) + input.start);
    return { input: inputs.indexOf(input), stretch: [(start ?? 0) - SETTLE, (end ?? 0) + 4 * SETTLE] };
  });
}

function reachesOf<I>(pieces: readonly SoundPiece[], inputs: readonly I[]): Reach<I>[] {
  const reaches: Reach<I>[] = [];
  pieces.forEach((piece, i) => {
    const input = piece.kind === 'sound' ? inputs[piece.source] : undefined;
    if (piece.kind === 'silence' || !input) return;
    const until = piece.from + piece.count;
    const last = reaches.at(-1);
    const gap = last ? piece.from - last.until : -1;
    if (last?.input === input && gap >= 0 && gap <= BRIDGED * SAMPLE_RATE) {
      last.until = until;
      last.pieces.push(i);
    } else reaches.push({ input, from: piece.from, until, pieces: [i] });
  });
  return reaches;
}

/**
 * Filters that set the level: gain, and where needed a limiter. It holds samples, not what lies between them: its
 * ceiling has to leave room for that.
 */
export function levelFilters({ gain, ceiling }: SoundLevel): string[] {
  const volume = gain === 0 ? [] : [`volume=${gain}dB:precision=float`];
  if (ceiling === null) return volume;
  // It looks ahead for as long as its attack: without `latency` everything would come 5 ms late.
  return [...volume, `alimiter=limit=${decimal(10 ** (ceiling / 20))}:attack=5:release=50:level=disabled:latency=1`];
}

/** Decimal digits enough for a sample, without an exponent. */
function decimal(value: number): string {
  return value.toFixed(9).replace(/\.?0+$/, '');
}
