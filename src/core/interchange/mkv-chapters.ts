import type { LessonTimes } from '../programme/index.ts';
import { TICKS_PER_SECOND } from '../time/index.ts';
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
  const atoms = chapters.map((chapter) =>
    atom(
      chapter,
      times.lesson.id,
      language,
      chapter.steps.map((step) => atom(step, `${times.lesson.id}/${chapter.id}`, language)).join(''),
    ),
  );
  return {
    text: `<?xml version="1.0" encoding="UTF-8"?>\n<Chapters>\n<EditionEntry>\n<EditionUID>${uid(times.lesson.id)}</EditionUID>\n${atoms.join('')}</EditionEntry>\n</Chapters>\n`,
    notes,
  };
}

function atom({ id, at, title }: ShownStep, inside: string, language: string, steps = ''): string {
  return `<ChapterAtom>
<ChapterUID>${uid(`${inside}/${id}`)}</ChapterUID>
<ChapterTimeStart>${nanoseconds(at.start)}</ChapterTimeStart>
<ChapterTimeEnd>${nanoseconds(at.end)}</ChapterTimeEnd>
<ChapterDisplay>
<ChapterString>${escapeXml(title)}</ChapterString>
<ChapterLanguage>und</ChapterLanguage>
<ChapLanguageIETF>${escapeXml(language)}</ChapLanguageIETF>
</ChapterDisplay>
${steps}</ChapterAtom>
`;
}

/** `hh:mm:ss.nnnnnnnnn`, the nearest nanosecond. */
function nanoseconds(moment: number): string {
  const seconds = Math.floor(moment / TICKS_PER_SECOND);
  const rest = Math.round(((moment - seconds * TICKS_PER_SECOND) * 1e9) / TICKS_PER_SECOND);
  const [whole, fraction] = rest === 1e9 ? [seconds + 1, 0] : [seconds, rest];
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}.${String(fraction).padStart(9, '0')}`;
}

/** A number for a name, the same each time, never 0: 53 bits of FNV-1a. */
function uid(name: string): string {
  let hash = 0xcbf29ce484222325n;
  for (const sign of name) hash = BigInt.asUintN(64, (hash ^ BigInt(sign.codePointAt(0) ?? 0)) * 0x100000001b3n);
  return String(hash & 0x1fffffffffffffn || 1n);
}

/** Text for XML; signs that XML cannot hold are left out. */
export function escapeXml(text: string): string {
  return [...text]
    .filter((sign) => (sign >= ' ' ? sign !== '\uFFFE' && sign !== '\uFFFF' : '\t\n\r'.includes(sign)))
    .join('')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
}
