import { XMLBuilder } from 'fast-xml-parser';
import type { LessonTimes } from '../programme/index.ts';
import { TICKS_PER_SECOND, twoDigits } from '../time/index.ts';
import { type ShownStep, shownChapters } from './chapters.ts';
import type { Exported } from './format.ts';

/**
 * Matroska chapters as XML, steps nested in their chapters; read by mkvmerge `--chapters`.
 * Ends are excluded and in whole nanoseconds, as RFC 9559 has them (ChapterTimeStart, ChapterTimeEnd).
 *
 * @param language BCP 47 tag of the titles
 */
export function writeMkvChapters(times: LessonTimes, language = 'und'): Exported {
  const { chapters, notes } = shownChapters(times);
  const atoms = chapters.map((chapter) => ({
    ...atom(chapter, times.lesson.id, language),
    ...(chapter.steps.length > 0 && {
      ChapterAtom: chapter.steps.map((step) => atom(step, `${times.lesson.id}/${chapter.id}`, language)),
    }),
  }));
  const edition = { EditionUID: uid(times.lesson.id), ...(atoms.length > 0 && { ChapterAtom: atoms }) };
  const xml = new XMLBuilder({ format: true, indentBy: '', ignoreAttributes: false }).build({
    '?xml': { '@_version': '1.0', '@_encoding': 'UTF-8' },
    Chapters: { EditionEntry: edition },
  });
  return { text: xml, notes };
}

function atom({ id, at, title }: ShownStep, inside: string, language: string) {
  return {
    ChapterUID: uid(`${inside}/${id}`),
    ChapterTimeStart: nanoseconds(at.start),
    ChapterTimeEnd: nanoseconds(at.end),
    ChapterDisplay: {
      ChapterString: xmlText(title),
      ChapterLanguage: 'und',
      ChapLanguageIETF: xmlText(language),
    },
  };
}

/** `hh:mm:ss.nnnnnnnnn`, the nearest nanosecond. */
function nanoseconds(moment: number): string {
  const seconds = Math.floor(moment / TICKS_PER_SECOND);
  const rest = Math.round(((moment - seconds * TICKS_PER_SECOND) * 1e9) / TICKS_PER_SECOND);
  const [whole, fraction] = rest === 1e9 ? [seconds + 1, 0] : [seconds, rest];
  return `${twoDigits(Math.floor(whole / 3600))}:${twoDigits(Math.floor(whole / 60) % 60)}:${twoDigits(whole % 60)}.${String(fraction).padStart(9, '0')}`;
}

/** A number for a name, the same each time, never 0: 53 bits of FNV-1a. */
function uid(name: string): string {
  let hash = 0xcbf29ce484222325n;
  for (const sign of name) hash = BigInt.asUintN(64, (hash ^ BigInt(sign.codePointAt(0) ?? 0)) * 0x100000001b3n);
  return String(hash & 0x1fffffffffffffn || 1n);
}

/** Text without the signs that XML cannot hold. */
function xmlText(text: string): string {
  return [...text]
    .filter((sign) => (sign >= ' ' ? sign !== '\uFFFE' && sign !== '\uFFFF' : '\t\n\r'.includes(sign)))
    .join('');
}
