import type { Lesson, Recording } from '../model/index.ts';
import { lessonTimes, type PassageTimes } from '../programme/index.ts';
import { type Range, type Ticks, ticks, toRecording, toSeconds } from '../time/index.ts';

/** A picture of a lesson, a chapter or a step, to be taken out of a film. */
export interface StillPlan {
  /** Id of the chapter or step; nothing for the lesson itself. */
  readonly part?: string;
  /** Position of the camera file among those of its recording; nothing where the finished programme is looked at. */
  readonly file?: number;
  /** The stretch of that file that shows it without a cut, s. */
  readonly from: number;
  readonly to: number;
  /** Widest that it may be, pixels. */
  readonly width: number;
}

/** A picture behind the Play key, or shared as the picture of a page; and one beside a line of a list. */
const LARGE = 960;
const SMALL = 480;

/**
 * Pictures of a lesson: one of itself, and one of each chapter and step that is on screen.
 *
 * @param finished true where its programme is rendered and looked at instead of the camera files
 */
export function planStills(lesson: Lesson, recording: Recording, finished: boolean): StillPlan[] {
  const { chapters, length } = lessonTimes(lesson, recording);
  const seen = (at: Range<'programme'>, end?: Ticks<'recording'>) =>
    at.end <= at.start
      ? undefined
      : finished
        ? { from: toSeconds(at.start), to: toSeconds(at.end) }
        : onCamera(recording, at.start, end);
  const still = (id: string, { at, recording: own }: PassageTimes): StillPlan[] => {
    const shown = seen(at, own.end);
    return shown ? [{ part: id, ...shown, width: SMALL }] : [];
  };
  // The lesson's own is looked for where its poster is: after a tenth of it, when the talk before the work is over.
  const opening = seen({ start: ticks(length / 10), end: length });
  return [
    ...(opening ? [{ ...opening, width: LARGE }] : []),
    ...chapters.flatMap(({ chapter, steps, ...times }) => [
      ...still(chapter.id, times),
      ...steps.flatMap(({ step, ...inner }) => still(step.id, inner)),
    ]),
  ];
}

/** The stretch of one camera file from a moment of the programme on, as far as it runs without a cut. */
function onCamera(
  { edit, files }: Recording,
  moment: Ticks<'programme'>,
  end: Ticks<'recording'> = ticks(Number.MAX_SAFE_INTEGER),
): { file: number; from: number; to: number } | undefined {
  const start = toRecording(edit, moment, 'after');
  const inside = (span: Range<'recording'>) => span.start <= start && start < span.end;
  const kept = edit.find(inside);
  const file = files.findIndex(({ span }) => inside(span));
  const span = files[file]?.span;
  if (!kept || !span) return undefined;
  const until = Math.min(kept.end, span.end, end);
  return { file, from: toSeconds(start - span.start), to: toSeconds(until - span.start) };
}

/** Where in its stretch a picture is taken: a third of it in, when what the step is about has begun. s */
export function stillMoment({ from, to }: { readonly from: number; readonly to: number }): number {
  return from + (to - from) / 3;
}
