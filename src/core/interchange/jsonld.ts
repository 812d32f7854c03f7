import type { KitGroup, Lesson, Passage, Shop, Step } from '../model/index.ts';
import type { LessonTimes } from '../programme/index.ts';
import { showQuantity } from '../spec/index.ts';
import { TICKS_PER_SECOND, toSeconds } from '../time/index.ts';
import { shownChapters } from './chapters.ts';
import type { Exported } from './format.ts';

/** What a lesson is to search engines. */
export interface LessonJsonLd {
  readonly '@context': 'https://schema.org';
  readonly '@graph': readonly object[];
}

/**
 * A lesson as schema.org data: the video with a clip for each chapter, and the how-to with its sections, steps, tools
 * and supplies.
 *
 * Source: schema.org 30.0 (VideoObject.hasPart Clip with startOffset and endOffset in seconds; HowTo.step, tool,
 * supply, totalTime). A clip names the page with the time in it (W3C Media Fragments).
 *
 * @param page address of the lesson's page; a relative one works inside that page
 * @param media `film` and `still`: whole addresses of the film and of a picture of it, where the site has them
 */
export function lessonJsonLd(
  times: LessonTimes,
  shop: Shop,
  page: string,
  { film, still }: { readonly film?: string | undefined; readonly still?: string | undefined } = {},
): LessonJsonLd {
  const { lesson, length, recording } = times;
  const { chapters } = shownChapters(times);
  const passages = lesson.chapters.flatMap((chapter) => [chapter, ...chapter.steps]);
  const language = shop.info.language === undefined ? {} : { inLanguage: shop.info.language };
  const description = lesson.summary ?? `${lesson.title}: ${chapters.map(({ title }) => title).join(', ')}.`;
  const steps = new Map(passages.map((passage) => [passage, passage.id]));
  const clip = (title: string, start: number, end: number) => ({
    '@type': 'Clip',
    name: title,
    startOffset: toSeconds(start),
    endOffset: toSeconds(end),
    url: `${page}#t=${toSeconds(start)}`,
  });
  const video = {
    '@type': 'VideoObject',
    '@id': `${page}#video`,
    name: lesson.title,
    description,
    url: page,
    duration: isoDuration(length),
    ...(film === undefined ? {} : { contentUrl: film }),
    ...(still === undefined ? {} : { thumbnailUrl: still }),
    ...language,
    ...(recording.captions ? { accessibilityFeature: ['captions'] } : {}),
    hasPart: chapters.map(({ title, at }) => clip(title, at.start, at.end)),
  };
  const howTo = {
    '@type': 'HowTo',
    '@id': `${page}#how-to`,
    name: lesson.title,
    description,
    ...language,
    totalTime: isoDuration(workTime(lesson) ?? length),
    video: { '@id': `${page}#video` },
    tool: kitItems('HowToTool', ['tool', 'protective'], passages, shop),
    supply: kitItems('HowToSupply', ['part', 'supply'], passages, shop),
    step: times.chapters.map(({ chapter, steps: inner }, i) => ({
      '@type': 'HowToSection',
      position: i + 1,
      name: chapter.title,
      itemListElement: inner.map(({ step, at }, k) => ({
        '@type': 'HowToStep',
        position: k + 1,
        name: step.title,
        text: sentences(step, lesson, shop) || step.title,
        url: `${page}#${steps.get(step) ?? step.id}`,
        ...(at.end > at.start ? { video: clip(step.title, at.start, at.end) } : {}),
      })),
    })),
  };
  return { '@context': 'https://schema.org', '@graph': [video, howTo] };
}

/** Ticks that the work takes for the first time; nothing where the lesson does not say. */
function workTime({ takes }: Lesson): number | undefined {
  if (takes === undefined) return undefined;
  const [hours = 0, minutes = 0] = takes.split(':').map(Number);
  return (hours * 60 + minutes) * 60 * TICKS_PER_SECOND;
}

/** The same as a file. */
export function writeJsonLd(times: LessonTimes, shop: Shop): Exported {
  const { site } = shop.info;
  const path = `lessons/${times.lesson.id}/`;
  const page = site === undefined ? `/${path}` : `${site.replace(/\/?$/, '/')}${path}`;
  return {
    text: `${JSON.stringify(lessonJsonLd(times, shop, page), null, 2)}\n`,
    notes: [
      ...(site === undefined
        ? ['the shop names no site:, so addresses are relative; search engines want whole ones']
        : []),
      'search engines also want thumbnailUrl and uploadDate of the video; add them where it is published',
    ],
  };
}

/**
 * A length as ISO 8601, without years and months, to the millisecond.
 * Source: RFC 5545 §3.3.6 and schema.org Duration; minutes come after the T.
 */
export function isoDuration(length: number): string {
  const ms = Math.round(length / (TICKS_PER_SECOND / 1000));
  const hours = Math.floor(ms / 3_600_000);
  const minutes = Math.floor(ms / 60_000) % 60;
  const seconds = (ms % 60_000) / 1000;
  return `PT${hours > 0 ? `${hours}H` : ''}${hours > 0 || minutes > 0 ? `${minutes}M` : ''}${seconds}S`;
}

/** What a step says, with the values it cites from the spec table in their places. */
function sentences(step: Step, lesson: Lesson, { machines, info }: Shop): string {
  const specs = machines.find(({ id }) => id === lesson.machine)?.specs ?? [];
  const cited = step.cites.map(({ spec: id, place }) => {
    const spec = specs.find((row) => row.id === id);
    const shown = spec?.quantity
      ? showQuantity(spec.quantity, info.units ?? ['metric', 'us']).primary
      : (spec?.title ?? id);
    return { place, text: ` ${shown} ` };
  });
  return [...step.prose, ...cited]
    .toSorted((a, b) => a.place.start.offset - b.place.start.offset)
    .map(({ text }) => text)
    .join(' ')
    .replaceAll(/[ \t\n]+/g, ' ')
    .replaceAll(/ (?=[.,;:!?)])/g, '')
    .trim();
}

const STOCK = { tool: 'tools', part: 'parts', supply: 'supplies', protective: 'protective' } as const;

function kitItems(type: string, groups: readonly KitGroup[], passages: readonly Passage[], { kit }: Shop): object[] {
  const most = new Map<string, { group: KitGroup; id: string; count: number }>();
  for (const { group, id, count } of passages.flatMap(({ uses }) => uses)) {
    if (!groups.includes(group)) continue;
    const known = most.get(`${group}/${id}`);
    const parts =
      group === 'part' || group === 'supply' ? (known?.count ?? 0) + count : Math.max(known?.count ?? 0, count);
    most.set(`${group}/${id}`, { group, id, count: parts });
  }
  return [...most.values()].map(({ group, id, count }) => ({
    '@type': type,
    name: kit[STOCK[group]]?.[id]?.title ?? id,
    ...(count > 1 ? { requiredQuantity: count } : {}),
  }));
}
