import type { LessonData, TimedPart } from '../browser/player/lesson-data.ts';
import type { Chapter, Lesson, Machine, Recording, Shop, Step } from '../core/model/index.ts';
import {
  correctionsShown,
  finishedPlan,
  lessonTimes,
  type PlayFile,
  type PlayPlan,
  playPlan,
} from '../core/programme/index.ts';
import { type Range, toSeconds } from '../core/time/index.ts';
import { href } from './href.ts';

/** A chapter or step with its number and its places on both clocks. */
export interface PartView<P extends Chapter | Step> {
  readonly part: P;
  /** `2` for a chapter, `2.3` for a step. */
  readonly number: string;
  /** Absent when it has no cue. Empty when all of it was cut. */
  readonly at?: Range<'programme'>;
  /** The moment in its camera file, for a browser without scripts. */
  readonly link?: string;
}

export interface ChapterView extends PartView<Chapter> {
  readonly steps: readonly PartView<Step>[];
}

/** A lesson as its page shows it. */
export interface LessonView {
  readonly shop: Shop;
  readonly lesson: Lesson;
  readonly machine?: Machine;
  readonly recording?: Recording;
  readonly plan?: PlayPlan;
  /** True when the plan plays one finished programme. */
  readonly rendered: boolean;
  /** programme ticks */
  readonly length: number;
  readonly chapters: readonly ChapterView[];
}

/** Puts together what the page of a lesson shows. */
export function lessonView(
  shop: Shop,
  lesson: Lesson,
  rendered: ReadonlyMap<string, { readonly length: number; readonly frame: number }> = new Map(),
): LessonView {
  const recording = shop.recordings.find(({ id }) => id === lesson.recording);
  const machine = shop.machines.find(({ id }) => id === lesson.machine);
  const times = recording && lessonTimes(lesson, recording);
  const programme = recording && rendered.get(recording.id);
  const plan =
    recording &&
    (programme
      ? finishedPlan(href(`footage/rendered/${recording.id}.mp4`), programme)
      : playPlan(recording, (file) => href(encodeURI(`footage/${file}`))));
  const view = <P extends Chapter | Step>(
    part: P,
    number: string,
    span?: { at: Range<'programme'>; recording: Range<'recording'> },
  ) => ({
    part,
    number,
    ...(span ? { at: span.at, ...linkTo(plan?.files ?? [], programme ? span.at : span.recording) } : {}),
  });
  const chapters = lesson.chapters.map((chapter, c): ChapterView => {
    const timed = times?.chapters.find((each) => each.chapter.id === chapter.id);
    return {
      ...view(chapter, `${c + 1}`, timed),
      steps: chapter.steps.map((step, s) =>
        view(
          step,
          `${c + 1}.${s + 1}`,
          timed?.steps.find((each) => each.step.id === step.id),
        ),
      ),
    };
  });
  return {
    shop,
    lesson,
    ...(machine ? { machine } : {}),
    ...(recording ? { recording } : {}),
    ...(plan ? { plan } : {}),
    rendered: programme !== undefined,
    length: times?.length ?? 0,
    chapters,
  };
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

/** What the player on the page is given. */
export function lessonData({ shop, lesson, plan, chapters }: LessonView): Omit<LessonData, 'plan'> | undefined {
  if (!plan) return undefined;
  const timed = (parts: readonly PartView<Chapter | Step>[]): TimedPart[] =>
    parts.flatMap(({ part: { id, title }, at }) =>
      at ? [{ id, title, start: toSeconds(at.start), end: toSeconds(at.end) }] : [],
    );
  const corrections = correctionsShown(shop).flatMap(({ id, step, at, lesson: { id: of } }): TimedPart[] =>
    of === lesson.id && at ? [{ id, title: step.title, start: toSeconds(at.start), end: toSeconds(at.end) }] : [],
  );
  return {
    title: lesson.title,
    chapters: timed(chapters),
    steps: timed(chapters.flatMap(({ steps }) => steps)),
    ...(corrections.length > 0 ? { corrections } : {}),
  };
}

function round(seconds: number): number {
  return Math.round(seconds * 1000) / 1000;
}
