import type { LessonTimes } from '../programme/index.ts';
import { escapeMarkup } from '../read/index.ts';
import { shownChapters } from './chapters.ts';
import type { Exported } from './format.ts';
import { writeVtt } from './vtt.ts';

/**
 * A WebVTT chapters track in programme time. Titles are text with character references, as the format wants it.
 *
 * @param steps also the steps, nested in their chapters
 */
export function writeVttChapters(times: LessonTimes, steps = false): Exported {
  const { chapters, notes } = shownChapters(times);
  const rows = chapters.flatMap((chapter) => [chapter, ...(steps ? chapter.steps : [])]);
  const cues = rows.map(({ id, at, title }) => ({ id, at, markup: escapeMarkup(title), settings: '' }));
  return { text: writeVtt(cues, [], 'chapters'), notes };
}
