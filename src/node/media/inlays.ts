import { writeFfmetadata, writeVtt } from '../../core/interchange/index.ts';
import type { Recording, Shop } from '../../core/model/index.ts';
import { lessonTimes, programmeCaptions } from '../../core/programme/index.ts';
import type { Inlays } from './render.ts';

/** Chapters, title and captions of a recording's programme, as its lessons and its caption file tell them. */
export function inlaysOf(shop: Shop, recording: Recording): Inlays {
  const lessons = shop.lessons.filter((lesson) => lesson.recording === recording.id);
  const texts = lessons.map((lesson) => writeFfmetadata(lessonTimes(lesson, recording)).text);
  const captions = programmeCaptions(recording);
  return {
    metadata: texts.length === 1 && texts[0] !== undefined ? texts[0] : several(recording.title, texts),
    ...(captions.length > 0 && { captions: writeVtt(captions, recording.captions?.blocks) }),
    ...(shop.info.language !== undefined && { language: languageCode(shop.info.language) }),
  };
}

/** Chapters of several lessons under the title of their recording. */
function several(title: string, texts: readonly string[]): string {
  const named = title.replaceAll(/[=;#\\\n]/g, '\\$&');
  const sections = texts.map((text) => text.slice(Math.max(0, text.indexOf('[CHAPTER]'))));
  return `${[`;FFMETADATA1\ntitle=${named}`, ...sections.filter((text) => text.startsWith('['))].join('\n\n')}\n`;
}

/** Three letters, as MP4 wants them (ISO 639-2). */
function languageCode(tag: string): string {
  const known: Readonly<Record<string, string>> = { en: 'eng', de: 'deu', fr: 'fra', es: 'spa', it: 'ita', nl: 'nld' };
  return known[tag.split('-')[0] ?? ''] ?? 'und';
}
