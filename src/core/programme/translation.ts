import type { Chapter, Lesson, Passage, Place } from '../model/index.ts';
import { plural } from '../read/index.ts';

/** Where a translation is not the same lesson. */
export interface TranslationFault {
  readonly place: Place;
  readonly message: string;
}

/**
 * Where a translation differs from the lesson in what no translator may change: chapters and steps, cues, cited specs,
 * things from the kit, signal words, and what the front matter ties it to. The words are not compared.
 */
export function translationFaults(lesson: Lesson, translated: Lesson): TranslationFault[] {
  const faults: TranslationFault[] = [];
  const top = translated.origin.place;
  for (const key of ['recording', 'machine', 'years', 'takes'] as const)
    if (String(lesson[key] ?? '') !== String(translated[key] ?? ''))
      faults.push({
        place: top,
        message: `${key}: is ${translated[key] ?? 'left out'}, not ${lesson[key] ?? 'left out'}`,
      });
  if (lesson.chapters.length !== translated.chapters.length)
    return [
      ...faults,
      { place: top, message: `it has ${plural(translated.chapters.length, 'chapter')}, not ${lesson.chapters.length}` },
    ];
  for (const [index, chapter] of lesson.chapters.entries()) {
    const own = translated.chapters[index];
    if (own) faults.push(...chapterFaults(chapter, own));
  }
  return faults;
}

function chapterFaults(chapter: Chapter, own: Chapter): TranslationFault[] {
  if (chapter.steps.length !== own.steps.length)
    return [
      {
        place: own.place,
        message: `the chapter "${own.title}" has ${plural(own.steps.length, 'step')}, "${chapter.title}" has ${chapter.steps.length}`,
      },
    ];
  return [
    ...passageFaults(chapter, own),
    ...chapter.steps.flatMap((step, index) => {
      const ownStep = own.steps[index];
      return ownStep ? passageFaults(step, ownStep) : [];
    }),
  ];
}

/** What a passage is tied to, in words that can be compared, by what each is called. */
function ties({ cue, cites, uses, signals, discussions, keyPoints, cueUnread }: Passage): Record<string, string> {
  const all = (each: readonly string[]) => each.toSorted().join(', ');
  return {
    'the cue': cueUnread ? 'unread' : cue ? `${cue.at} ${cue.until ?? ''}` : '',
    'the cited specs': all(cites.map(({ spec, measured }) => (measured ? `${spec} (measured)` : spec))),
    'the things from the kit': all(uses.map(({ group, id, count }) => `${count} × ${group} ${id}`)),
    'the signal words': all(signals.map(({ word }) => word)),
    'the minutes to talk': all(discussions.map(({ minutes }) => String(minutes))),
    'the number of key points': String(keyPoints.length),
  };
}

function passageFaults(passage: Passage, own: Passage): TranslationFault[] {
  const wanted = ties(passage);
  return Object.entries(ties(own)).flatMap(([what, has]) => {
    const not = wanted[what] ?? '';
    if (has === not) return [];
    const detail = what === 'the cue' ? '' : `: ${has || 'none'}, not ${not || 'none'}`;
    const place = what === 'the cue' ? (own.cue?.place ?? own.place) : own.place;
    return [
      {
        place,
        message: `"${own.title}" differs from "${passage.title}" in ${what}${detail}`,
      },
    ];
  });
}

/**
 * A lesson with the words of its translation and the ids, so that links, cues and records lead to the same steps in each
 * language.
 *
 * @param translated without faults against the lesson
 */
export function translatedLesson(lesson: Lesson, translated: Lesson): Lesson {
  return {
    ...translated,
    id: lesson.id,
    ...(lesson.draft === undefined ? {} : { draft: lesson.draft }),
    chapters: translated.chapters.map((chapter, c) => ({
      ...chapter,
      id: lesson.chapters[c]?.id ?? chapter.id,
      steps: chapter.steps.map((step, s) => ({ ...step, id: lesson.chapters[c]?.steps[s]?.id ?? step.id })),
    })),
  };
}
