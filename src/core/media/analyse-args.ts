import { cameraInput } from './input-args.ts';

/** How a file is looked through. Everything that decides the result, so that it can stand in a job. */
export interface AnalyseParams {
  /** Positions among the file's streams, as ffmpeg counts; left out where there is none. */
  readonly picture: number | null;
  readonly sound: number | null;
  /** Frames a second of the picture. */
  readonly framesPerSecond: number;
  readonly deinterlace: boolean;
}

/** Pictures looked at in a second for scene changes, black and freeze. */
const LOOKED_AT = 8;
/** Sampling rate of the sound that peaks, speech and alignment are measured on, Hz. */
export const COARSE_RATE = 8000;
/** One small picture every so many seconds; so many in a row and on a sheet. */
export const THUMBNAILS = { every: 10, width: 160, columns: 10, rows: 10 } as const;

/** The picture as it is looked at for movement: so many grey cells, so many times a second. */
export const GRID = { columns: 32, rows: 18, perSecond: 2 } as const;

/** Names of what one pass over a file leaves in its working folder. */
export const LOGS = {
  picture: 'picture.txt',
  loudness: 'loudness.txt',
  sound: 'sound.s16',
  grid: 'grid.grey',
  sheets: 'sheet-%d.jpg',
} as const;

/**
 * Arguments that decode a file once and write down everything asked of it: loudness (EBU R 128), coarse sound, scene
 * changes, black, freeze, movement and small pictures. Pictures are made few and small before they are looked at: decoding is
 * nearly all of the cost.
 */
export function analyseArgs(path: string, params: AnalyseParams): string[] {
  const chains: string[] = [];
  const outputs: string[] = [];
  if (params.picture !== null) {
    const step = Math.max(1, Math.floor(params.framesPerSecond / LOOKED_AT));
    chains.push(
      `[0:${params.picture}]setpts=PTS-STARTPTS,framestep=${step}${params.deinterlace ? ',bwdif=mode=send_frame' : ''},` +
        `scale=${THUMBNAILS.width}:-2:flags=fast_bilinear,format=yuv420p,split=3[look][small][tiny]`,
      `[look]scdet=threshold=8,blackdetect=d=0.5:pix_th=0.1,freezedetect=n=0.001:d=3,metadata=mode=print:file=${LOGS.picture}[looked]`,
      `[small]fps=fps=1/${THUMBNAILS.every}:round=up,tile=${THUMBNAILS.columns}x${THUMBNAILS.rows}[sheets]`,
      `[tiny]fps=${GRID.perSecond},scale=${GRID.columns}:${GRID.rows}:flags=area,format=gray[grid]`,
    );
    outputs.push('-map', '[looked]', '-f', 'null', '-', '-map', '[sheets]', '-q:v', '5', '-f', 'image2', LOGS.sheets);
    outputs.push('-map', '[grid]', '-f', 'rawvideo', LOGS.grid);
  }
  if (params.sound !== null) {
    chains.push(
      `[0:${params.sound}]aresample=async=1,asetpts=PTS-STARTPTS,asplit[loud][coarse]`,
      `[loud]ebur128=peak=true:metadata=1:framelog=verbose,ametadata=mode=print:file=${LOGS.loudness}[louder]`,
      `[coarse]aresample=${COARSE_RATE},aformat=sample_fmts=s16:channel_layouts=mono[thin]`,
    );
    outputs.push('-map', '[louder]', '-f', 'null', '-', '-map', '[thin]', '-f', 's16le', LOGS.sound);
  }
  return [...cameraInput(path), '-filter_complex', chains.join(';'), ...outputs];
}

/** A stretch, s from the first picture or sample. */
export type Stretch = readonly [start: number, end: number];

export interface PictureLog {
  readonly scenes: readonly { readonly at: number; readonly score: number }[];
  readonly black: readonly Stretch[];
  readonly freeze: readonly Stretch[];
}

/** A picture differs this much from the one before where a scene changes; of 100 (ffmpeg's `scdet`). */
const SCENE = 8;

/**
 * Reads what the picture filters wrote down.
 *
 * @param length of the picture, s: where a stretch still open at the end ends
 */
export function readPictureLog(text: string, length: number): PictureLog {
  const scenes: { at: number; score: number }[] = [];
  const black: Stretch[] = [];
  const freeze: Stretch[] = [];
  let at = 0;
  let blackFrom: number | undefined;
  let frozenFrom: number | undefined;
  for (const line of text.split('\n')) {
    const time = /pts_time:(\S+)/.exec(line)?.[1];
    if (time !== undefined) at = Number(time);
    const [, key, written] = /^lavfi\.(\S+?)=(\S+)$/.exec(line) ?? [];
    const value = Number(written);
    if (key === 'scd.score' && value >= SCENE) scenes.push({ at, score: value });
    else if (key === 'black_start') blackFrom = value;
    else if (key === 'black_end' && blackFrom !== undefined) {
      black.push([blackFrom, value]);
      blackFrom = undefined;
    } else if (key === 'freezedetect.freeze_start') frozenFrom = value;
    else if (key === 'freezedetect.freeze_end' && frozenFrom !== undefined) {
      freeze.push([frozenFrom, value]);
      frozenFrom = undefined;
    }
  }
  if (blackFrom !== undefined) black.push([blackFrom, length]);
  if (frozenFrom !== undefined) freeze.push([frozenFrom, length]);
  return { scenes, black, freeze };
}

export interface LoudnessLog {
  /** LUFS of 400 ms, every 100 ms. */
  readonly momentary: readonly number[];
  /** LUFS; absent in silence. */
  readonly integrated?: number | undefined;
  /** Loudness range (EBU Tech 3342), LU. */
  readonly range?: number | undefined;
  /** dBTP */
  readonly truePeak?: number | undefined;
}

/** What ffmpeg's `ebur128` says where nothing passed the gate, LUFS. */
const NOTHING_HEARD = -70;

/** Reads what ffmpeg's `ebur128` filter wrote down every 100 ms. */
export function readLoudnessLog(text: string): LoudnessLog {
  const values = (key: string) =>
    [...text.matchAll(new RegExp(`^lavfi\\.r128\\.${key}=(\\S+)$`, 'gm'))].map(([, value]) => Number(value));
  const integrated = values('I').at(-1);
  const range = values('LRA').at(-1);
  const peak = values('true_peak').reduce((most, value) => (value > most ? value : most), 0);
  const heard = integrated !== undefined && integrated > NOTHING_HEARD;
  return {
    momentary: values('M').map((value) => (Number.isFinite(value) ? value : -120)),
    ...(heard && { integrated, range }),
    ...(peak > 0 && { truePeak: 20 * Math.log10(peak) }),
  };
}
