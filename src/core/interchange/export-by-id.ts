import type { Lesson, Recording, Shop } from '../model/index.ts';
import { type LessonTimes, lessonTimes } from '../programme/index.ts';
import { didYouMean } from '../read/index.ts';
import { fail, type Parsed } from '../time/index.ts';
import type { Exported } from './format.ts';
import type { Format } from './formats.ts';

/** What an id came to: the text, or why there is none; in words where nothing has that id. */
export type ExportMade =
  | { readonly known: true; readonly result: Parsed<Exported> }
  | { readonly known: false; readonly words: string };

/**
 * Writes a recording, lesson or class in a format. A recording stands for the one lesson that uses it, a lesson for its
 * recording.
 */
export function exportById(format: Format, id: string, shop: Shop, now: Date): ExportMade {
  const made = (result: Parsed<Exported>): ExportMade => ({ known: true, result });
  if (format.of === 'class') {
    const shopClass = shop.classes.find((one) => one.id === id);
    return shopClass ? made(format.write(shopClass, shop, now)) : unknown('class', id, shop.classes);
  }
  const lesson = shop.lessons.find((one) => one.id === id);
  const recording = shop.recordings.find((one) => one.id === id) ?? recordingOf(lesson, shop);
  if (format.of === 'recording') {
    if (!recording)
      return lesson ? made(withoutRecording(lesson)) : unknown('recording', id, [...shop.recordings, ...shop.lessons]);
    return made(format.write(recording, lessonsOf(recording, shop), shop));
  }
  if (lesson) {
    const own = recordingOf(lesson, shop);
    return made(own ? format.write(lessonTimes(lesson, own), shop) : withoutRecording(lesson));
  }
  const users = recording ? lessonsOf(recording, shop) : [];
  const [only] = users;
  if (only && users.length === 1) return made(format.write(only, shop));
  if (recording)
    return {
      known: false,
      words: `${format.id} is of a lesson, and ${users.length === 0 ? 'none uses' : 'several use'} the recording ${id}${users.length > 0 ? `: ${users.map((one) => one.lesson.id).join(', ')}` : ''}`,
    };
  return unknown('lesson', id, shop.lessons);
}

function recordingOf(lesson: Lesson | undefined, shop: Shop): Recording | undefined {
  return shop.recordings.find((one) => one.id === lesson?.recording);
}

function lessonsOf(recording: Recording, shop: Shop): LessonTimes[] {
  return shop.lessons.filter((one) => one.recording === recording.id).map((one) => lessonTimes(one, recording));
}

function withoutRecording(lesson: Lesson): Parsed<Exported> {
  return fail(
    `the lesson ${lesson.id} has no recording "${lesson.recording}" that can be read`,
    'liftside check says why',
  );
}

function unknown(what: string, id: string, things: readonly { readonly id: string }[]): ExportMade {
  const ids = [...new Set(things.map((one) => one.id))];
  return { known: false, words: `no ${what} "${id}": ${didYouMean(id, ids)}` };
}
