import type { CameraFile, Recording } from '../model/index.ts';
import type { LessonTimes } from '../programme/index.ts';
import { listWords, plural } from '../read/index.ts';
import {
  contains,
  evenGrid,
  type FrameRate,
  fail,
  intersect,
  type Range,
  ROUNDING_TICKS,
  range,
  type Ticks,
  ticks,
} from '../time/index.ts';

/** A run of one camera file in the programme, in whole frames. */
export interface CutEvent {
  readonly file: CameraFile;
  /** Frames from the start of the file: first kept, first not kept. */
  readonly first: number;
  readonly end: number;
  /** The same, on the recording's clock. */
  readonly at: Range<'recording'>;
}

/** What an edit list is in camera files, and how far its points had to move to whole frames. */
export interface CutEvents {
  readonly events: readonly CutEvent[];
  /** Points that lay between frames: in points went down, out points up. */
  readonly snapped: number;
}

/**
 * The programme as runs of camera files, in order.
 *
 *     recording   |--- file 1 ---|---- file 2 ----|
 *     kept           |----a----------|   |--b--|
 *     events         |---1-----|--2--|   |--3--|
 */
export function cutEvents({ edit, files }: Recording, rate: FrameRate): CutEvents {
  const frame = rate.ticksPerFrame;
  const grid = evenGrid(rate);
  let snapped = 0;
  const events = edit.flatMap((kept) =>
    files.flatMap((file): CutEvent[] => {
      const run = intersect(kept, file.span);
      if (!run) return [];
      // As the cutting room reads and writes them: up to a millisecond beside a frame, a point is on it.
      const first = grid.shown(run.start - file.span.start) / frame;
      const end = Math.max(grid.ended(run.end - file.span.start) / frame, first + 1);
      const whole = range<'recording'>(ticks(file.span.start + first * frame), ticks(file.span.start + end * frame));
      // Where a file ends there is no picture to split.
      const moved = [whole.start - run.start, run.end === file.span.end ? 0 : whole.end - run.end];
      snapped += moved.filter((by) => Math.abs(by) > ROUNDING_TICKS).length;
      return [{ file, first, end, at: whole }];
    }),
  );
  return { events, snapped };
}

/** Why a recording cannot be told in frames. */
export function withoutRate({ id, grid }: Recording) {
  return grid
    ? fail(
        `the pictures of ${id} follow no frame rate in use, as phones write them, and this format counts frames`,
        'write rate: in the recording file, such as "30"; points then go outward to whole frames of it',
      )
    : fail(`the frame rate of ${id} is not known`, 'write rate: in the recording file');
}

/** Frame number of the label that a camera file's first frame bears: its own, or the recording's at that place. */
export function fileLabel({ startFrame }: Recording, file: CameraFile, rate: FrameRate): number {
  return file.startFrame ?? startFrame + Math.round(file.span.start / rate.ticksPerFrame);
}

/** A chapter or step as a mark on the recording. */
export interface Mark {
  readonly kind: 'chapter' | 'step';
  readonly id: string;
  readonly title: string;
  readonly at: Ticks<'recording'>;
  readonly until?: Ticks<'recording'>;
}

/** The marks of lessons, in recording order. */
export function marksOf(lessons: readonly LessonTimes[]): Mark[] {
  return lessons
    .flatMap(({ chapters }) =>
      chapters.flatMap(({ chapter, steps, recording }): Mark[] => [
        { kind: 'chapter', id: chapter.id, title: chapter.title, at: recording.start },
        ...steps.map(
          ({ step, recording: span }): Mark => ({
            kind: 'step',
            id: step.id,
            title: step.title,
            at: span.start,
            ...(step.cue?.until === undefined ? {} : { until: span.end }),
          }),
        ),
      ]),
    )
    .toSorted((a, b) => a.at - b.at);
}

/** The event that shows a mark, and the marks that no event shows. */
export function placeMarks(
  marks: readonly Mark[],
  events: readonly CutEvent[],
): { readonly placed: readonly { mark: Mark; event: CutEvent }[]; readonly cut: readonly Mark[] } {
  const found = marks.map((mark) => ({ mark, event: events.find(({ at }) => contains(at, mark.at)) }));
  return {
    placed: found.flatMap(({ mark, event }) => (event ? [{ mark, event }] : [])),
    cut: found.flatMap(({ mark, event }) => (event ? [] : [mark])),
  };
}

/** What was not carried of angles, cut marks and snapped points, as notes. */
export function cutNotes({ shots, written }: Recording, snapped: number, cut: readonly Mark[]): string[] {
  const shown = [...new Set(shots.map(({ angle }) => angle))];
  return [
    ...(shown.length > 0
      ? [
          `what ${listWords(shown)} ${shown.length === 1 ? 'shows' : 'show'} is told as the recording's own camera: only its files are named`,
        ]
      : []),
    ...(written.sound === undefined
      ? []
      : [`the sound of ${written.sound} is told as that of the recording's own camera`]),
    ...(snapped > 0
      ? [`${plural(snapped, 'point')} between two frames moved to whole frames: in points down, out points up`]
      : []),
    ...(cut.length > 0
      ? [
          `${cut
            .map(({ title }) => `"${title}"`)
            .slice(0, 5)
            .join(', ')}${cut.length > 5 ? ` and ${cut.length - 5} more` : ''} lie in a cut and got no mark`,
        ]
      : []),
  ];
}
