import type { Recording, Shop } from '../../core/model/index.ts';
import { lessonTimes } from '../../core/programme/index.ts';
import { TICKS_PER_SECOND } from '../../core/time/index.ts';
import type { Inlays } from './render.ts';

/** Chapters, title and captions of a recording's programme, as its lessons tell them. */
export function inlaysOf(shop: Shop, recording: Recording): Inlays {
  const times = shop.lessons
    .filter((l) => l.recording === recording.id)
    .map((lesson) => lessonTimes(lesson, recording));
  const chapters = times
    .flatMap((lesson) => lesson.chapters)
    .filter(({ at }) => at.end > at.start)
    .toSorted((a, b) => a.at.start - b.at.start);
  const title = times.length === 1 && times[0] ? times[0].lesson.title : recording.title;
  const lines = [
    ';FFMETADATA1',
    `title=${escaped(title)}`,
    ...chapters.flatMap(({ chapter, at }) => [
      '[CHAPTER]',
      'TIMEBASE=1/1000000',
      `START=${Math.round((at.start / TICKS_PER_SECOND) * 1e6)}`,
      `END=${Math.round((at.end / TICKS_PER_SECOND) * 1e6)}`,
      `title=${escaped(chapter.title)}`,
    ]),
  ];
  return { metadata: `${lines.join('\n')}\n` };
}

/** Source: ffmpeg documentation, "Metadata": = ; # \ and line ends take a backslash. */
function escaped(text: string): string {
  return text.replaceAll(/[=;#\\\n]/g, (character) => `\\${character}`);
}
