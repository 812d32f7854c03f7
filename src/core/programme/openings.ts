import { fromSeconds, lengthOf, type Range, range, type Ticks, ticks } from '../time/index.ts';
import { type PlayPiece, type PlayPlan, pieceAt, playPieces } from './play-plan.ts';

/** How long an opening plays: the index of a film of an hour comes in less over 1.6 Mbit/s, ticks. */
const OPENING_LENGTH = fromSeconds<'recording'>(12);
/** So much of an opening is left unplayed, ticks: a change that a timer makes is more exact than the end of a file. */
const OPENING_SPARE = fromSeconds<'recording'>(0.5);
/** With less than this of an opening to come, its file begins at once, ticks. */
const OPENING_LEAST = fromSeconds<'recording'>(2);
/** The index of a shorter film comes as soon as an opening does, ticks. */
const SHORT_FILM = fromSeconds<'recording'>(120);

/** A stretch of a file of a plan, to be copied into a file of its own. */
export interface OpeningPlan {
  /** Position in the plan's files. */
  readonly file: number;
  readonly recording: Range<'recording'>;
}

/**
 * The openings that are worth making: from the start of the programme and from each part of it.
 *
 * @param starts where somebody may want to begin
 */
export function planOpenings(plan: PlayPlan, starts: readonly Ticks<'programme'>[]): OpeningPlan[] {
  const pieces = playPieces(plan);
  const wanted = new Map<number, OpeningPlan>();
  for (const start of starts) {
    const piece = pieces[pieceAt(pieces, start)];
    const file = piece && plan.files[piece.file];
    if (!piece || !file || lengthOf(file.recording) <= SHORT_FILM) continue;
    const from = recordingMoment(piece, start);
    const to = Math.min(from + OPENING_LENGTH, piece.recording.end);
    if (to - from >= OPENING_LEAST)
      wanted.set(from, {
        file: piece.file,
        recording: range(from, ticks(Math.min(to + OPENING_SPARE, file.recording.end))),
      });
  }
  return [...wanted.values()].toSorted((a, b) => a.recording.start - b.recording.start);
}

/**
 * The runs to play where the file that shows a moment has not come yet: through the opening that holds the moment, if
 * there is one. Openings are numbered after the files of the plan.
 *
 *     piece       |------------ 0 ------------|
 *     opening             |---------|
 *     pieces      |-- 0 --|-- 1 --|---- 0 ----|
 */
export function piecesByOpening(
  { files, openings = [] }: PlayPlan,
  pieces: readonly PlayPiece[],
  moment: Ticks<'programme'>,
): readonly PlayPiece[] {
  const piece = pieces[pieceAt(pieces, moment)];
  if (!piece) return pieces;
  const whole = piece.recording;
  const wanted = recordingMoment(piece, moment);
  const least = Math.min(wanted + OPENING_LEAST, whole.end);
  // Of several the one that begins last: the least of it has to come before the moment.
  const found = openings
    .map(({ recording }, position) => ({
      file: files.length + position,
      start: Math.max(recording.start, whole.start),
      end: Math.min(recording.end - OPENING_SPARE, whole.end),
    }))
    .filter(({ start, end }) => start <= wanted && least <= end)
    .toSorted((a, b) => a.start - b.start)
    .at(-1);
  if (!found) return pieces;
  const runs = [
    { file: piece.file, start: whole.start, end: found.start },
    found,
    { file: piece.file, start: found.end, end: whole.end },
  ].filter(({ start, end }) => end > start);
  const toProgramme = (at: number) => ticks<'programme'>(at - whole.start + piece.programme.start);
  const through = runs.map(
    ({ file, start, end }): PlayPiece => ({
      file,
      recording: range(ticks(start), ticks(end)),
      programme: range(toProgramme(start), toProgramme(end)),
    }),
  );
  return pieces.flatMap((each) => (each === piece ? through : [each]));
}

function recordingMoment({ recording, programme }: PlayPiece, moment: Ticks<'programme'>): Ticks<'recording'> {
  return ticks(Math.max(moment, programme.start) - programme.start + recording.start);
}
