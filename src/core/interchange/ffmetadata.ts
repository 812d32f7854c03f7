import type { LessonTimes } from '../programme/index.ts';
import { TICKS_PER_SECOND } from '../time/index.ts';
import { shownChapters } from './chapters.ts';
import type { Exported } from './format.ts';

/**
 * Chapters for ffmpeg: `ffmpeg -i programme.mp4 -i chapters.txt -map_chapters 1 -c copy out.mp4`.
 * Times are whole ticks, so that nothing is rounded before the container does.
 *
 * Source: ffmpeg documentation, "Metadata"; the time base always stands there, as its default differs between versions.
 */
export function writeFfmetadata(times: LessonTimes): Exported {
  const { chapters, notes } = shownChapters(times);
  const sections = chapters.map(
    ({ at, title }) =>
      `[CHAPTER]\nTIMEBASE=1/${TICKS_PER_SECOND}\nSTART=${at.start}\nEND=${at.end}\ntitle=${escapeValue(title)}`,
  );
  return { text: `${[`;FFMETADATA1\ntitle=${escapeValue(times.lesson.title)}`, ...sections].join('\n\n')}\n`, notes };
}

/** ffmpeg takes a backslash before a line end for a continued line, even an escaped one: a blank keeps them apart. */
function escapeValue(value: string): string {
  return (value.endsWith('\\') ? `${value} ` : value).replaceAll(/[=;#\\\n]/g, '\\$&');
}
