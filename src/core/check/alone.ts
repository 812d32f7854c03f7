import type { Hear } from '../heard/index.ts';
import type { Lesson, LessonParts, Shop } from '../model/index.ts';
import { slug } from '../read/index.ts';
import { groupBy } from '../time/index.ts';

/**
 * A shop that holds one lesson, and nothing but what that lesson is made from: its translations, its recording, its
 * machine, its corrections, and the kit. A rule about lessons is given this instead of the shop, so that what it finds
 * can be kept until something in here changes: there is nothing else that it could have read.
 */
export type OneLesson = LessonParts &
  Pick<Shop, 'broken'> & {
    /** Knows what is heard in texts of the lesson that have not changed. */
    readonly hear?: Hear;
  };

/** A shop that holds one recording with its captions, and nothing else. */
export type OneRecording = Pick<Shop, 'recordings'>;

/** A shop that holds one machine with its spec table, and nothing else. */
export type OneMachine = Pick<Shop, 'machines'>;

/** All of a shop but its lessons and recordings. */
export type AroundLessons = Omit<Shop, 'lessons' | 'translations' | 'recordings' | 'locale'>;

/** The parts of each lesson of a shop by its id; a translation alone where the lesson itself cannot be read. */
export function lessonParts(shop: LessonParts): ReadonlyMap<string, LessonParts> {
  const [recordings, machines] = [groupBy(shop.recordings, idOf), groupBy(shop.machines, idOf)];
  const lessons = groupBy(shop.lessons, idOf);
  const translations = groupBy(shop.translations, ({ lesson }) => lesson.id);
  const corrections = groupBy(shop.corrections, ({ lesson }) => lesson);
  const ids = new Set([...lessons.keys(), ...translations.keys()]);
  return new Map(
    [...ids].map((id): [string, LessonParts] => {
      const own = lessons.get(id) ?? [];
      const parts = {
        lessons: own,
        translations: translations.get(id) ?? [],
        recordings: own.flatMap(({ recording }) => recordings.get(recording) ?? []),
        machines: own.flatMap(({ machine }) => machines.get(machine) ?? []),
        corrections: corrections.get(id) ?? [],
        kit: shop.kit,
      };
      return [id, parts];
    }),
  );
}

function idOf({ id }: { readonly id: string }): string {
  return id;
}

/** The ids that lessons name: what of the broken ones can matter to them. */
export function namesIn(lessons: readonly Lesson[]): ReadonlySet<string> {
  return new Set([
    'kit.yaml',
    ...lessons.flatMap(({ id, recording, machine, chapters }) => [
      ...[id, recording, machine],
      ...chapters
        .flatMap((chapter) => [chapter, ...chapter.steps])
        .flatMap(({ cites, uses }) => [...cites.map(({ spec }) => spec), ...uses.map((use) => use.id)]),
    ]),
  ]);
}

/** Which ids that could not be read are among some names, as they are written or as they would have been. */
export function brokenAmong(names: ReadonlySet<string>, broken: ReadonlySet<string>): ReadonlySet<string> {
  return new Set([...broken].filter((id) => names.has(id) || names.has(slug(id))));
}
