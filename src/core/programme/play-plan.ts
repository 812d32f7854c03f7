import type { Recording } from '../model/index.ts';
import {
  type EditList,
  fromSeconds,
  intersect,
  type Range,
  range,
  rangeToProgramme,
  type Ticks,
  ticks,
  toSeconds,
} from '../time/index.ts';

/** A media file of the plan and the stretch of the recording that it holds from its first to its last frame. */
export interface PlayFile {
  readonly url: string;
  readonly recording: Range<'recording'>;
}

/**
 * What a player needs to play a programme: the uncut camera files with an edit list,
 * or the finished file, or files, kept whole.
 */
export interface PlayPlan {
  readonly files: readonly PlayFile[];
  readonly kept: EditList;
  /** ticks; absent when the frame rate is unknown or varies */
  readonly frame?: number;
  /** Short copies of stretches of the files, by which a part begins before the index of its file has come. */
  readonly openings?: readonly PlayFile[];
}

/**
 * The plan that plays the uncut camera files of a recording. Files that could not be measured are left out.
 *
 * @param urlOf address of a camera file by its path in the content folder
 */
export function playPlan({ files, edit, rate, grid }: Recording, urlOf: (file: string) => string): PlayPlan {
  return {
    files: files
      .filter(({ span }) => span.end > span.start)
      .map(({ file, span }) => ({ url: urlOf(file), recording: span })),
    kept: edit,
    ...(rate && !grid ? { frame: rate.ticksPerFrame } : {}),
  };
}

/** A finished programme: its length and that of a frame, ticks. */
export interface Finished {
  readonly length: number;
  readonly frame: number;
  /** The files that it lies in, one after the other, by length in ticks; left out, one file holds it whole. */
  readonly parts?: readonly { readonly length: number }[];
}

/** The stretch of a finished programme that each of its files holds. */
export function finishedSpans({ length, parts = [{ length }] }: Finished): readonly Range<'programme'>[] {
  let end = 0;
  return parts.map((part) => {
    const start = end;
    end += part.length;
    return range<'programme'>(ticks(start), ticks(end));
  });
}

/** Name of the file of a finished programme: `chain.mp4`; of several, counted from 1, `chain.2.mp4`. */
export function programmeFile(recording: string, part: number, of: number): string {
  return of > 1 ? `${recording}.${part + 1}.mp4` : `${recording}.mp4`;
}

/**
 * The plan of a finished programme, kept whole. Its "recording" is the programme itself.
 *
 * @param urlOf address of a file by its name
 */
export function finishedPlan(recording: string, film: Finished, urlOf: (file: string) => string): PlayPlan {
  const spans = finishedSpans(film);
  return {
    files: spans.map(({ start, end }, part) => ({
      url: urlOf(programmeFile(recording, part, spans.length)),
      recording: range(ticks(start), ticks(end)),
    })),
    kept: [range(ticks(0), ticks(film.length))],
    frame: film.frame,
  };
}

/** A run of one file that plays without a jump. */
export interface PlayPiece {
  /** Position in the plan's files. */
  readonly file: number;
  readonly recording: Range<'recording'>;
  readonly programme: Range<'programme'>;
}

/**
 * The runs to play one after the other, in programme order. What is kept but lies in no file is left out:
 * there is nothing to show.
 *
 *     files       |------- 0 -------|------ 1 ------|
 *     kept           |--a--|     |----b----|
 *     pieces         |--0--|     |0-|--1---|
 */
export function playPieces({ files, kept }: PlayPlan): PlayPiece[] {
  return files
    .flatMap((file, index) =>
      kept.flatMap((stretch) => {
        const recording = intersect(stretch, file.recording);
        const [programme] = recording ? rangeToProgramme(kept, recording) : [];
        return recording && programme ? [{ file: index, recording, programme }] : [];
      }),
    )
    .toSorted((a, b) => a.programme.start - b.programme.start);
}

/**
 * The piece that shows a moment; where none does, the next one, and past the end the last.
 *
 * @returns position in `pieces`; −1 when there are none
 */
export function pieceAt(pieces: readonly PlayPiece[], moment: Ticks<'programme'>): number {
  const found = pieces.findIndex(({ programme }) => moment < programme.end);
  return found === -1 ? pieces.length - 1 : found;
}

/** Where frames are uneven: past what an element rounds by, s, and less than any picture stands. */
const A_HAIR = 0.001;

/**
 * Where in its file a moment of the programme is, for setting the position of a media element.
 * Aims at the middle of the frame, or a hair into it where frames are uneven, so that rounding in the element cannot land on a neighbour.
 *
 * @returns seconds from the start of the file
 */
export function filePosition(plan: PlayPlan, piece: PlayPiece, moment: Ticks<'programme'>): number {
  const file = plan.files[piece.file];
  const inPiece = Math.min(
    Math.max(0, moment - piece.programme.start),
    piece.programme.end - piece.programme.start - 1,
  );
  const inFile = piece.recording.start + inPiece - (file?.recording.start ?? 0);
  if (!plan.frame) return toSeconds(inFile) + A_HAIR;
  return toSeconds((Math.floor(inFile / plan.frame) + 0.5) * plan.frame);
}

/**
 * Where in the programme a position of a media element is, kept inside the piece that is playing.
 *
 * @param seconds from the start of the file
 */
export function programmeMoment(plan: PlayPlan, piece: PlayPiece, seconds: number): Ticks<'programme'> {
  const file = plan.files[piece.file];
  const moment = fromSeconds(seconds) + (file?.recording.start ?? 0) - piece.recording.start + piece.programme.start;
  return ticks(Math.min(Math.max(piece.programme.start, moment), piece.programme.end));
}

/** Programme length of a plan, ticks. */
export function playLength({ kept }: PlayPlan): number {
  return kept.reduce((sum, { start, end }) => sum + end - start, 0);
}

/** A plan as a page carries it: plain JSON, ticks as numbers. */
export interface PlayPlanJson {
  readonly files: readonly PlayFileJson[];
  readonly kept: readonly (readonly [number, number])[];
  readonly frame?: number;
  readonly openings?: readonly PlayFileJson[];
}

interface PlayFileJson {
  readonly url: string;
  readonly recording: readonly [number, number];
}

export function planToJson({ files, kept, frame, openings }: PlayPlan): PlayPlanJson {
  const json = ({ url, recording }: PlayFile): PlayFileJson => ({ url, recording: [recording.start, recording.end] });
  return {
    files: files.map(json),
    kept: kept.map(({ start, end }) => [start, end]),
    ...(frame === undefined ? {} : { frame }),
    ...(openings?.length ? { openings: openings.map(json) } : {}),
  };
}

/** @throws RangeError when a range runs backwards */
export function planFromJson({ files, kept, frame, openings }: PlayPlanJson): PlayPlan {
  const span = ([start, end]: readonly [number, number]) => range<'recording'>(ticks(start), ticks(end));
  const file = ({ url, recording }: PlayFileJson): PlayFile => ({ url, recording: span(recording) });
  return {
    files: files.map(file),
    kept: kept.map(span),
    ...(frame === undefined ? {} : { frame }),
    ...(openings ? { openings: openings.map(file) } : {}),
  };
}
