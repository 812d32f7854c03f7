import type { Discussion, Lesson, Shop } from '../../model/index.ts';
import { type ChapterTimes, type LessonTimes, lessonTimes } from '../../programme/index.ts';
import { TICKS_PER_SECOND } from '../../time/index.ts';

/** Part of a lesson, as a class names it. */
export interface LessonPart {
  readonly lesson: string;
  readonly chapter?: string | undefined;
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly speed?: number | undefined;
}

/** One stretch of a chapter on screen. */
export interface PartChapter {
  readonly id: string;
  readonly title: string;
  /** Where it starts and how long it is, s of programme. */
  readonly start: number;
  readonly seconds: number;
}

/** How long a part of a lesson is on screen: all that a plan needs to know of it. */
export interface PartLength {
  readonly lesson: { readonly id: string };
  readonly chapters: readonly PartChapter[];
  /** Programme time of it all, s. */
  readonly programmeSeconds: number;
  /** Time the programme stands still for discussion, s. */
  readonly pauseSeconds: number;
}

/** What a part of a lesson takes on screen. */
export interface PartTimes extends PartLength {
  readonly lesson: Lesson;
  readonly pauses: readonly Discussion[];
}

/** Looks up what a part of a lesson takes; nothing where the part is unknown or its length was never measured. */
export type PartLookup = (part: LessonPart) => PartTimes | undefined;

/** The lookup of a shop; lesson times are worked out once. */
export function partLookup({ lessons, recordings }: Shop): PartLookup {
  const known = new Map<string, LessonTimes | undefined>();
  return (part) => {
    if (!known.has(part.lesson)) {
      const lesson = lessons.find(({ id }) => id === part.lesson);
      const recording = recordings.find(({ id }) => id === lesson?.recording);
      const measured = recording && (recording.length !== undefined || recording.edited);
      known.set(part.lesson, lesson && measured ? lessonTimes(lesson, recording) : undefined);
    }
    const times = known.get(part.lesson);
    return times && partTimes(times, part);
  };
}

function partTimes({ lesson, chapters, length }: LessonTimes, part: LessonPart): PartTimes | undefined {
  const whole = part.chapter === undefined && part.from === undefined && part.to === undefined;
  const within = chapters.filter(({ chapter }) => part.chapter === undefined || chapter.id === part.chapter);
  const holds = (step: string | undefined) => within.find((c) => c.steps.some((s) => s.step.id === step));
  const first = part.from === undefined ? within[0] : holds(part.from);
  const last = part.to !== undefined ? holds(part.to) : part.from !== undefined ? first : within.at(-1);
  if (!whole && (!first || !last)) return undefined;

  const stepAt = (chapter: ChapterTimes | undefined, id: string) =>
    chapter?.steps.find(({ step }) => step.id === id)?.at;
  const start = whole ? 0 : ((part.from === undefined ? first?.at : stepAt(first, part.from))?.start ?? 0);
  const end = whole ? length : ((part.to === undefined ? last?.at : stepAt(last, part.to))?.end ?? 0);
  if (end < start) return undefined;

  const seconds = (ticks: number) => ticks / TICKS_PER_SECOND;
  const ticksWithin = (from: number, to: number) => Math.max(0, Math.min(to, end) - Math.max(from, start));
  const inside = (at: { start: number; end: number }) => start <= at.start && at.start < Math.max(end, start + 1);
  const pauses = chapters.flatMap(({ chapter, at, steps }) => [
    ...(inside(at) ? chapter.discussions : []),
    ...steps.flatMap(({ step, at: place }) => (inside(place) ? step.discussions : [])),
  ]);
  return {
    lesson,
    chapters: chapters.flatMap(({ chapter, at }) => {
      const ticks = ticksWithin(at.start, at.end);
      const from = seconds(Math.max(at.start, start));
      return ticks > 0 ? [{ id: chapter.id, title: chapter.title, start: from, seconds: seconds(ticks) }] : [];
    }),
    programmeSeconds: seconds(end - start),
    pauseSeconds: pauses.reduce((sum, { minutes }) => sum + minutes * 60, 0),
    pauses,
  };
}
