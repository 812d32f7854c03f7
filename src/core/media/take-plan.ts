import { type FrameRate, nearestRate, parseTimecode, printTimecode, TICKS_PER_SECOND } from '../time/index.ts';

/** A file off a camera card or a recorder, as far as its place in a recording depends on it. */
export interface TakeFile {
  /** As it will be named under `files:`. */
  readonly file: string;
  /** When it was last written, milliseconds since 1970: cameras write a file until its last frame. */
  readonly writtenAt: number;
  /** Ticks. */
  readonly duration: number;
  /** Absent for sound alone. */
  readonly picture?: {
    readonly width: number;
    readonly height: number;
    readonly framesPerSecond: number;
    readonly codec: string;
    readonly even: boolean;
  };
  readonly startTimecode?: string;
}

/** A further camera or recorder of the take. */
export interface TakeAngle {
  readonly id: string;
  readonly file: string;
  readonly sound: boolean;
}

/** What a recording is made of, worked out from its files. */
export interface TakePlan {
  /** Of the first camera, in shooting order; `start` where a file does not follow the one before. */
  readonly files: readonly { readonly file: string; readonly start?: string }[];
  readonly rate?: FrameRate['name'];
  readonly start?: string;
  readonly angles: readonly TakeAngle[];
  /** Why it is so, one line each, small letter, no full stop. */
  readonly notes: readonly string[];
}

/** Files of one camera follow each other when the next begins this near to the end of the one before, s. */
const FOLLOWS = 2;

/** A camera or recorder with its files in the order in which they were shot. */
interface Source {
  readonly files: TakeFile[];
}

/**
 * Puts the files of a take in order: which belong to one camera, in which order it wrote them, which camera is the
 * first (the one that ran longest), and which are further cameras and sound recorders.
 *
 * Files are of one camera where size, rate and coding of the picture and the letters of the name agree and no two ran
 * at the same time. Their order is that of their timecode; where they carry none that of the time of day at which they
 * were shot; where both say nothing that of their names.
 *
 * @returns nothing where no file has a picture
 */
export function planTake(files: readonly TakeFile[]): TakePlan | undefined {
  const sources = sourcesOf(files);
  const cameras = sources.filter(({ files: [first] }) => first?.picture);
  const [main, ...others] = cameras.toSorted((a, b) => runtimeOf(b) - runtimeOf(a) || byName(a.files[0], b.files[0]));
  const first = main?.files[0];
  if (!main || !first) return undefined;
  const recorders = sources.filter(({ files: [head] }) => head && !head.picture);
  const angles = [
    ...others.flatMap((source, i) => anglesOf(source, cameraName(i))),
    ...recorders.flatMap((source, i) => anglesOf(source, i === 0 ? 'recorder' : `recorder-${i + 1}`)),
  ];
  const { rate, placed, start, gaps } = placeByTimecode(main.files);
  return {
    files: placed,
    ...(rate !== undefined && { rate }),
    ...(start !== undefined && { start }),
    angles,
    notes: notesOf(main, others, recorders, gaps),
  };
}

const cameraName = (i: number) => `camera-${i + 2}`;

function anglesOf({ files }: Source, id: string): TakeAngle[] {
  return files.map(({ file, picture }) => ({ id, file, sound: !picture }));
}

/** Files by what wrote them. */
function sourcesOf(files: readonly TakeFile[]): Source[] {
  const alike = new Map<string, TakeFile[]>();
  for (const file of files) alike.set(likenessOf(file), [...(alike.get(likenessOf(file)) ?? []), file]);
  return [...alike.values()].flatMap((group) => {
    if (lostTheirTimes(group)) return [{ files: group.toSorted(byName) }];
    const sources: Source[] = [];
    for (const file of inShootingOrder(group)) {
      // Two cameras of one make write names and pictures alike; but one camera cannot run twice at a time.
      const own = sources.find(({ files: before }) => !before.some((other) => ranTogether(other, file)));
      if (own) own.files.push(file);
      else sources.push({ files: [file] });
    }
    return sources;
  });
}

function likenessOf({ file, picture }: TakeFile): string {
  const name = file.slice(file.lastIndexOf('/') + 1).toLowerCase();
  const letters = name.replaceAll(/\d+/g, '#');
  if (!picture) return `sound ${letters}`;
  const { width, height, framesPerSecond, codec, even } = picture;
  const rate = even ? (nearestRate(framesPerSecond)?.name ?? Math.round(framesPerSecond)) : 'uneven';
  return [letters, width, height, rate, codec].join(' ');
}

function ranTogether(a: TakeFile, b: TakeFile): boolean {
  const common = Math.min(endOf(a), endOf(b)) - Math.max(startOf(a), startOf(b));
  return common > FOLLOWS;
}

/** Second of the day or of 1970, whichever the files tell; only compared within one camera. */
function startOf(file: TakeFile): number {
  return timecodeSeconds(file) ?? file.writtenAt / 1000 - file.duration / TICKS_PER_SECOND;
}
function endOf(file: TakeFile): number {
  return startOf(file) + file.duration / TICKS_PER_SECOND;
}

function timecodeSeconds({ startTimecode, picture }: TakeFile): number | undefined {
  const rate = rateOf(picture?.framesPerSecond, startTimecode);
  const frame = rate && startTimecode !== undefined ? parseTimecode(startTimecode, rate) : undefined;
  return frame?.ok && rate ? (frame.value * rate.ticksPerFrame) / TICKS_PER_SECOND : undefined;
}

function rateOf(framesPerSecond: number | undefined, timecode: string | undefined) {
  return framesPerSecond === undefined ? undefined : nearestRate(framesPerSecond, timecode?.includes(';') ?? false);
}

/** By timecode where every file has one, by the time of day otherwise; by name where two began together. */
function inShootingOrder(files: readonly TakeFile[]): TakeFile[] {
  const counted = files.every((file) => timecodeSeconds(file) !== undefined);
  const begin = (file: TakeFile) =>
    counted ? (timecodeSeconds(file) ?? 0) : file.writtenAt / 1000 - file.duration / TICKS_PER_SECOND;
  return files.toSorted((a, b) => begin(a) - begin(b) || byName(a, b));
}

/** Copied files of which one was written this soon after the other, as a share of its length, were not shot so. */
const TOO_SOON = 0.1;

/**
 * True for files numbered in a row that a copy gave the moment of copying instead of their own: then their names alone
 * tell their order. Two cameras that ran side by side do not number their files in one row.
 */
function lostTheirTimes(files: readonly TakeFile[]): boolean {
  if (files.length < 2 || files.some((file) => timecodeSeconds(file) !== undefined)) return false;
  const row = files.toSorted(byName);
  const written = files.toSorted((a, b) => a.writtenAt - b.writtenAt);
  return row.every((file, i) => {
    const before = row[i - 1];
    const [last, now] = [written[i - 1], written[i]];
    if (!before || !last || !now) return true;
    const soon = (now.writtenAt - last.writtenAt) / 1000 < (TOO_SOON * now.duration) / TICKS_PER_SECOND;
    return soon && numberOf(file) === numberOf(before) + 1;
  });
}

/** The last number in a file's name. */
function numberOf({ file }: TakeFile): number {
  return Number(/(\d+)\D*$/.exec(file.replace(/\.[^.]*$/, ''))?.[1] ?? Number.NaN);
}

const inNumbers = new Intl.Collator('en', { numeric: true });
function byName(a: TakeFile | undefined, b: TakeFile | undefined): number {
  return inNumbers.compare(a?.file ?? '', b?.file ?? '');
}

function runtimeOf({ files }: Source): number {
  return files.reduce((sum, { duration }) => sum + duration, 0);
}

/** Rate and start of the first camera, and which of its files do not follow the one before. */
function placeByTimecode(files: readonly TakeFile[]) {
  const [first] = files;
  const even = files.every(({ picture }) => picture?.even);
  const rate = even ? rateOf(first?.picture?.framesPerSecond, first?.startTimecode) : undefined;
  const starts = files.map(timecodeSeconds);
  const counted = rate !== undefined && starts.every((at) => at !== undefined);
  let gaps = 0;
  const placed = files.map((file, i): TakePlan['files'][number] => {
    const before = files[i - 1];
    if (!counted || !before || Math.abs(startOf(file) - endOf(before)) <= FOLLOWS / 2) return { file: file.file };
    gaps++;
    return { file: file.file, ...(file.startTimecode !== undefined && { start: file.startTimecode }) };
  });
  const start = counted && first?.startTimecode !== undefined ? { start: tidy(first.startTimecode, rate) } : {};
  return { ...(rate && { rate: rate.name }), placed, gaps, ...start };
}

function tidy(timecode: string, rate: FrameRate): string {
  const frame = parseTimecode(timecode, rate);
  return frame.ok ? printTimecode(frame.value, rate) : timecode;
}

function notesOf(main: Source, others: readonly Source[], recorders: readonly Source[], gaps: number): string[] {
  const parts = main.files.length;
  return [
    parts === 1
      ? 'one file of the first camera'
      : `${parts} files of the first camera, joined in the order they were shot`,
    ...(lostTheirTimes(main.files) ? ['their times of day say nothing: they stand in the order of their names'] : []),
    ...(gaps > 0 ? [`${gaps} of them begin later than the one before ends: their timecode says when`] : []),
    ...others.map((source, i) => `${cameraName(i)} is another camera: ${namesOf(source)}`),
    ...recorders.map((source) => `a sound recorder: ${namesOf(source)}`),
    ...(others.length + recorders.length > 0 ? ['where they lie is found by their sound, once it is written'] : []),
  ];
}

function namesOf({ files }: Source): string {
  return files.map(({ file }) => file.slice(file.lastIndexOf('/') + 1)).join(', ');
}
