import type { LessonTimes } from '../programme/index.ts';
import { printClockTime, TICKS_PER_SECOND } from '../time/index.ts';
import { shownChapters } from './chapters.ts';
import type { Exported } from './format.ts';

/** Hosts that make chapters of a description want them this long at least, and so many. (Common practice, no source.) */
export const LEAST_SECONDS = 10;
const LEAST_CHAPTERS = 3;

/** A list for a video host's description: one `m:ss Title` a line, the first at 0:00. */
export function writeChapterList(times: LessonTimes): Exported {
  const { chapters, notes } = shownChapters(times);
  const rows = chapters.map(({ at, title }) => ({
    second: Math.floor(at.start / TICKS_PER_SECOND),
    title: title.replaceAll(/\s+/g, ' '),
  }));
  const told = [...notes];
  const [first] = rows;
  if (first && first.second > 0) {
    if (first.second < LEAST_SECONDS) {
      told.push(`"${first.title}" starts at ${short(first.second)}; the list has it at 0:00, where the first must be`);
      rows[0] = { ...first, second: 0 };
    } else {
      told.push(
        `the first chapter starts at ${short(first.second)}; a line 0:00 with the lesson's title comes before it`,
      );
      rows.unshift({ second: 0, title: times.lesson.title });
    }
  }
  const end = Math.floor(times.length / TICKS_PER_SECOND);
  const brief = rows.filter(({ second }, i) => (rows[i + 1]?.second ?? end) - second < LEAST_SECONDS);
  if (brief.length > 0)
    told.push(
      `shorter than ${LEAST_SECONDS} s, so hosts may show no chapters at all: ${brief.map(({ title }) => `"${title}"`).join(', ')}`,
    );
  if (rows.length < LEAST_CHAPTERS)
    told.push(
      `hosts want ${LEAST_CHAPTERS} chapters or more; there ${rows.length === 1 ? 'is' : 'are'} ${rows.length}`,
    );
  return { text: `${rows.map(({ second, title }) => `${short(second)} ${title}`).join('\n')}\n`, notes: told };
}

/** `m:ss`, or `h:mm:ss` from an hour on. */
function short(seconds: number): string {
  const clock = printClockTime(seconds * TICKS_PER_SECOND);
  return seconds < 3600 ? clock.slice(2).replace(/^0/, '') : clock;
}
