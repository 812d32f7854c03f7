import type { Chapter, Lesson, Recording, Step } from '../model/index.ts';
import {
  type Finished,
  finishedPlan,
  lessonTimes,
  type PlayFile,
  type PlayPlan,
  playPlan,
} from '../programme/index.ts';
import { type Range, toSeconds } from '../time/index.ts';

/** Address of a path on the site, under the path it is served from. */
export type AddressOf = (path: string) => string;

/** What plays of a recording: its finished programme, its camera files by the edit list, or nothing. */
export type Film = Finished | 'uncut' | 'none';

/** A chapter or step with its number and its place on the programme's clock. */
export interface PartTimed<P extends Chapter | Step> {
  readonly part: P;
  /** `2` for a chapter, `2.3` for a step. */
  readonly number: string;
  /** Absent when it has no cue. Empty when all of it was cut. */
  readonly at?: Range<'programme'>;
  /** The moment in its file, for a browser without scripts. */
  readonly link?: string;
}

export interface ChapterTimed extends PartTimed<Chapter> {
  readonly steps: readonly PartTimed<Step>[];
}

/** Chapters and steps of a lesson, numbered, and the plan by which they play. */
export interface LessonParts {
  readonly plan?: PlayPlan;
  /** programme ticks */
  readonly length: number;
  readonly chapters: readonly ChapterTimed[];
}

export function lessonParts(
  lesson: Lesson,
  recording: Recording | undefined,
  film: Film,
  addressOf: AddressOf,
): LessonParts {
  const times = recording && lessonTimes(lesson, recording);
  const plan =
    recording && film !== 'none'
      ? film === 'uncut'
        ? playPlan(recording, (file) => addressOf(encodeURI(`footage/${file}`)))
        : finishedPlan(recording.id, film, (file) => addressOf(`footage/rendered/${file}`))
      : undefined;
  const withTimes = <P extends Chapter | Step>(
    part: P,
    number: string,
    span?: { at: Range<'programme'>; recording: Range<'recording'> },
  ) => ({
    part,
    number,
    ...(span ? { at: span.at, ...linkTo(plan?.files ?? [], film === 'uncut' ? span.recording : span.at) } : {}),
  });
  const chapters = lesson.chapters.map((chapter, c): ChapterTimed => {
    const span = times?.chapters.find((each) => each.chapter.id === chapter.id);
    return {
      ...withTimes(chapter, `${c + 1}`, span),
      steps: chapter.steps.map((step, s) =>
        withTimes(
          step,
          `${c + 1}.${s + 1}`,
          span?.steps.find((each) => each.step.id === step.id),
        ),
      ),
    };
  });
  return { ...(plan ? { plan } : {}), length: times?.length ?? 0, chapters };
}

/** A media fragment of the file that the range begins in. */
function linkTo(
  files: readonly PlayFile[],
  { start, end }: Range<'recording'> | Range<'programme'>,
): { link?: string } {
  const file = files.find(({ recording }) => recording.start <= start && start < recording.end);
  if (!file || end <= start) return {};
  const from = toSeconds(start - file.recording.start);
  const to = toSeconds(Math.min(end, file.recording.end) - file.recording.start);
  return { link: `${file.url}#t=${round(from)},${round(to)}` };
}

function round(seconds: number): number {
  return Math.round(seconds * 1000) / 1000;
}
