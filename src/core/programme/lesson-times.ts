import type { Chapter, Lesson, Passage, Recording, Step } from '../model/index.ts';
import { type EditList, type Range, range, runtime, type Ticks, ticks, toProgramme, toSeconds } from '../time/index.ts';

/** Where a chapter or step lies on both clocks. */
export interface PassageTimes {
  /** From its cue until the next one, its `until`, or the end of what holds it. */
  readonly recording: Range<'recording'>;
  /** What remains of it; empty when all of it was cut. */
  readonly at: Range<'programme'>;
}

export interface StepTimes extends PassageTimes {
  readonly step: Step;
}

export interface ChapterTimes extends PassageTimes {
  readonly chapter: Chapter;
  readonly steps: readonly StepTimes[];
}

/** A lesson as the programme shows it. Chapters and steps without a cue, or out of order, are left out. */
export interface LessonTimes {
  readonly lesson: Lesson;
  readonly recording: Recording;
  /** Ticks of programme. */
  readonly length: Ticks<'programme'>;
  readonly chapters: readonly ChapterTimes[];
}

/**
 * Programme times of a lesson's chapters and steps.
 *
 *     recording   |  A──────xxxxB───xxx──|
 *     programme   |  A──────B─────|         a step is as long as what remains of it
 *
 * A chapter ends where the next one starts, a step where the next one or its chapter does, unless `until` says so.
 */
export function lessonTimes(lesson: Lesson, recording: Recording): LessonTimes {
  const { edit } = recording;
  const end = recording.length ?? lastKnown(lesson, edit);
  const chapters = spans(lesson.chapters, end, edit).map(({ passage: chapter, ...span }) => ({
    chapter,
    ...span,
    steps: spans(chapter.steps, span.recording.end, edit).map(({ passage: step, ...inner }) => ({ step, ...inner })),
  }));
  return {
    lesson,
    recording,
    length: ticks(recording.edited || recording.length !== undefined ? runtime(edit) : end),
    chapters,
  };
}

function spans<P extends Passage>(
  passages: readonly P[],
  end: Ticks<'recording'>,
  edit: EditList,
): (PassageTimes & { passage: P })[] {
  const cued = passages.flatMap((passage) => (passage.cue ? [{ passage, cue: passage.cue }] : []));
  return cued.flatMap(({ passage, cue }, index) => {
    const next = cued[index + 1]?.cue.at ?? end;
    const out = cue.until !== undefined && cue.until < next ? cue.until : next;
    if (out < cue.at) return [];
    const recording = range(cue.at, out);
    return [{ passage, recording, at: range(toProgramme(edit, cue.at).at, toProgramme(edit, out).at) }];
  });
}

/** The last moment anything is known of, where the files could not be measured. */
function lastKnown(lesson: Lesson, edit: EditList): Ticks<'recording'> {
  const cues = lesson.chapters.flatMap((c) => [c, ...c.steps]).flatMap(({ cue }) => (cue ? [cue.until ?? cue.at] : []));
  const kept = edit.map(({ end }) => end).filter((moment) => moment < Number.MAX_SAFE_INTEGER);
  return ticks(Math.max(0, ...cues, ...kept));
}

/** The JSON of `times --json`, in seconds. */
export function lessonTimesJson({ lesson, recording, length, chapters }: LessonTimes) {
  const seconds = (r: Range<'recording'> | Range<'programme'>) => ({
    start: toSeconds(r.start),
    end: toSeconds(r.end),
  });
  return {
    lesson: lesson.id,
    recordingSeconds: recording.length === undefined ? null : toSeconds(recording.length),
    programmeSeconds: toSeconds(length),
    chapters: chapters.map(({ chapter, at, recording: of, steps }) => ({
      id: chapter.id,
      title: chapter.title,
      ...seconds(at),
      recording: seconds(of),
      steps: steps.map(({ step, at: place }) => ({ id: step.id, title: step.title, ...seconds(place) })),
    })),
  };
}
