import { twoDigits } from '../time/index.ts';
/** Small pictures at even steps, laid out on one sheet. */
export interface SeekPicturesPlan {
  /** s between pictures, and of the whole programme */
  readonly every: number;
  readonly length: number;
  readonly count: number;
  /** of one picture, pixels */
  readonly width: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
}

/** Widths of pictures, and how many at most: a sheet stays below what browsers decode without a thought. */
const WIDTH = 160;
const MOST = 120;
const COLUMNS = 10;

/**
 * @param length of the programme, s
 * @param picture size as shown, pixels
 */
export function planSeekPictures(
  length: number,
  picture: { readonly width: number; readonly height: number },
): SeekPicturesPlan {
  const every = Math.max(1, Math.ceil(length / MOST));
  const count = Math.max(1, Math.ceil(length / every));
  return {
    every,
    length,
    count,
    width: WIDTH,
    height: Math.max(2, Math.round((WIDTH * picture.height) / picture.width / 2) * 2),
    columns: COLUMNS,
    rows: Math.ceil(count / COLUMNS),
  };
}

/**
 * The seek pictures as WebVTT: each cue names a part of the sheet by a spatial media fragment (W3C Media Fragments URI
 * 1.0, 4.2.2).
 *
 * @param sheet address of the sheet
 */
export function seekPicturesVtt(plan: SeekPicturesPlan, sheet: string): string {
  const cues = Array.from({ length: plan.count }, (_, i) => {
    const end = Math.min(plan.length, (i + 1) * plan.every);
    const [x, y] = [(i % plan.columns) * plan.width, Math.floor(i / plan.columns) * plan.height];
    return `${time(i * plan.every)} --> ${time(end)}\n${encodeURI(sheet)}#xywh=${x},${y},${plan.width},${plan.height}`;
  });
  return `${['WEBVTT', ...cues].join('\n\n')}\n`;
}

/** A sheet of seek pictures: one each `every` seconds, row by row. */
export interface SeekSheet {
  /** s */
  readonly every: number;
  /** of one picture, pixels */
  readonly width: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
}

/** The sheet that a text of `seekPicturesVtt` is about; nothing where it is about none. */
export function readSeekPictures(vtt: string): SeekSheet | undefined {
  const starts = [...vtt.matchAll(/^(\d+):(\d\d):(\d\d\.\d{3}) --> /gm)].map(
    ([, h, m, s]) => Number(h) * 3600 + Number(m) * 60 + Number(s),
  );
  const places = [...vtt.matchAll(/#xywh=(\d+),(\d+),(\d+),(\d+)$/gm)].map(([, ...all]) => all.map(Number));
  const [[, , width, height] = []] = places;
  if (!width || !height || places.length !== starts.length) return undefined;
  return {
    every: starts[1] ?? Number.MAX_SAFE_INTEGER,
    width,
    height,
    columns: Math.max(...places.map(([x = 0]) => x)) / width + 1,
    rows: Math.max(...places.map(([, y = 0]) => y)) / height + 1,
  };
}

function time(seconds: number): string {
  const ms = Math.round(seconds * 1000);
  return `${twoDigits(Math.floor(ms / 3_600_000))}:${twoDigits(Math.floor(ms / 60_000) % 60)}:${twoDigits(Math.floor(ms / 1000) % 60)}.${String(ms % 1000).padStart(3, '0')}`;
}
