import type { CameraFile, Recording } from '../model/index.ts';
import {
  editList,
  FRAME_RATES,
  type FrameRate,
  framesBetween,
  parseTimecode,
  printTimecode,
  type Range,
  range,
  ticks,
} from '../time/index.ts';
import { fileLabel } from './cut-events.ts';
import { reelNames } from './edl.ts';
import { brief, type Imported, type Notes } from './imported.ts';

/** A run of some source, in the order of another program's timeline. */
export interface SourceRun {
  readonly at: Range<'recording'>;
  /** What the file called it, for notes. */
  readonly name: string;
}

/** The camera file that a reel, path or clip name means; the only one there is where nothing fits. */
export function findFile(recording: Recording, names: readonly string[], notes: Notes): CameraFile | undefined {
  const { files } = recording;
  const plain = (name: string) =>
    decodeName(name)
      .split(/[/\\]/)
      .at(-1)
      ?.toLowerCase()
      .replace(/\.[^.]*$/, '') ?? '';
  const reels = reelNames(files);
  for (const name of names.filter((one) => one !== '')) {
    const found =
      files.find(({ file }) => file === decodeName(name)) ??
      files.find(({ file }) => plain(file) === plain(name)) ??
      files.find(({ file }) => reels.get(file) === name.toUpperCase());
    if (found) return found;
  }
  const [only] = files;
  const called = names.find((one) => one !== '') ?? 'unnamed';
  if (files.length === 1 && only) {
    notes.add(`"${brief(called)}" was taken for ${only.file}, the only camera file`);
    return only;
  }
  notes.add(`"${brief(called)}" is none of the camera files of ${recording.id}, so it was left out`);
  return undefined;
}

function decodeName(name: string): string {
  try {
    return decodeURIComponent(name.replace(/^file:\/\/[^/]*/, ''));
  } catch {
    return name;
  }
}

/**
 * Frames into a camera file that a source label names, where labels may be counted in another mode than the
 * recording's: the file's own first label is then read in that mode too.
 */
export function framesInto(
  recording: Recording,
  file: CameraFile,
  rate: FrameRate,
  label: number,
  counted: FrameRate,
): number {
  const own = fileLabel(recording, file, rate);
  const length = (file.span.end - file.span.start) / rate.ticksPerFrame;
  if (counted.dropped === rate.dropped) return signedFrames(own, label, rate, length);
  const text = printTimecode(own, rate).replace(/[:;](?=\d\d$)/, counted.dropped > 0 ? ';' : ':');
  const start = parseTimecode(text, counted);
  return signedFrames(start.ok ? start.value : own, label, counted, length);
}

/**
 * Frames forward where that stays within the file, else the nearer way: a source that starts before its file is a
 * fault, not almost a day.
 */
function signedFrames(from: number, to: number, rate: FrameRate, length: number): number {
  const ahead = framesBetween(from, to, rate);
  const back = framesBetween(to, from, rate);
  return ahead < length || ahead <= back ? ahead : -back;
}

/** The same rate counted with or without drop-frame; itself where it has no other way. */
export function withDropFrame(rate: FrameRate, drop: boolean): FrameRate {
  return (
    Object.values(FRAME_RATES).find(
      (one) => one.numerator === rate.numerator && one.denominator === rate.denominator && one.dropped > 0 === drop,
    ) ?? rate
  );
}

/** A run of a camera file by frames, held inside the file; nothing where it lies outside. */
export function runOf(
  file: CameraFile,
  rate: FrameRate,
  first: number,
  frames: number,
  notes: Notes,
  name: string,
): SourceRun | undefined {
  const most = Math.max(1, Math.ceil((file.span.end - file.span.start) / rate.ticksPerFrame));
  const known = file.span.end > file.span.start;
  const start = Math.max(0, first);
  const end = known ? Math.min(most, first + frames) : first + frames;
  if (
    !Number.isSafeInteger(first) ||
    !Number.isSafeInteger(frames) ||
    frames <= 0 ||
    end <= start ||
    end * rate.ticksPerFrame > Number.MAX_SAFE_INTEGER / 2
  ) {
    notes.add(`"${brief(name)}" asks for nothing that is in ${file.file}, so it was left out`);
    return undefined;
  }
  if (start !== first || end !== first + frames)
    notes.add(`"${brief(name)}" reaches past ${file.file} and was held to it`);
  const from = file.span.start + start * rate.ticksPerFrame;
  return { name, at: range(ticks(from), ticks(file.span.start + end * rate.ticksPerFrame)) };
}

/** The runs as an edit list, which keeps the order of the recording: another order, or a run shown twice, is told. */
export function editOf(runs: readonly SourceRun[], notes: Notes): Pick<Imported, 'edit'> {
  if (runs.length === 0) return {};
  for (let i = 1; i < runs.length; i++) {
    const [before, run] = [runs[i - 1], runs[i]];
    if (before && run && run.at.start < before.at.end)
      notes.add(
        run.at.end <= before.at.start
          ? `"${brief(run.name)}" comes from before what is shown ahead of it: an edit list keeps the order of the recording`
          : `"${brief(run.name)}" shows again what was shown ahead of it: an edit list keeps every moment once`,
      );
  }
  return { edit: editList(runs.map(({ at }) => at)) };
}
