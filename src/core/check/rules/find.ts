import type {
  Chapter,
  Kit,
  KitGroup,
  Lesson,
  Machine,
  Passage,
  Recording,
  Shop,
  Spec,
  Step,
} from '../../model/index.ts';
import type { LessonTimes } from '../../programme/index.ts';
import { lessonTimes } from '../../programme/index.ts';

/** A step with what it stands in. */
export interface StepInLesson {
  readonly lesson: Lesson;
  readonly chapter: Chapter;
  readonly step: Step;
}

/** Every step of a shop, in order. */
export function* stepsOf({ lessons }: Pick<Shop, 'lessons'>): Generator<StepInLesson> {
  for (const lesson of lessons)
    for (const chapter of lesson.chapters) for (const step of chapter.steps) yield { lesson, chapter, step };
}

/** Every chapter and step of a lesson, in order. */
export function passagesOf(lesson: Lesson): Passage[] {
  return lesson.chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
}

export function recordingOf(shop: Pick<Shop, 'recordings'>, lesson: Lesson): Recording | undefined {
  return shop.recordings.find(({ id }) => id === lesson.recording);
}

export function machineOf(shop: Pick<Shop, 'machines'>, lesson: Lesson): Machine | undefined {
  return shop.machines.find(({ id }) => id === lesson.machine);
}

/** The rows of a lesson's machine that a cited id names; several when they differ by year or variant. */
export function rowsOf(shop: Pick<Shop, 'machines'>, lesson: Lesson, id: string): readonly Spec[] {
  return machineOf(shop, lesson)?.specs.filter((spec) => spec.id === id) ?? [];
}

/** Programme times of a lesson; nothing when its recording is not there. */
export function timesOf(shop: Pick<Shop, 'recordings'>, lesson: Lesson): LessonTimes | undefined {
  const recording = recordingOf(shop, lesson);
  return recording && lessonTimes(lesson, recording);
}

const GROUP_KEY = { tool: 'tools', part: 'parts', supply: 'supplies', protective: 'protective' } as const;

/** Ids of one group of the kit. */
export function kitIds(kit: Kit, group: KitGroup): string[] {
  return Object.keys(kit[GROUP_KEY[group]] ?? {});
}
