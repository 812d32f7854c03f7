import { blockNeeds, type ClassFit, kitList, type LessonPart, partLookup, passagesOf } from '../fit/index.ts';
import type { Lesson, Passage, Shop, ShopClass } from '../model/index.ts';
import {
  type AddressOf,
  type Film,
  type LessonPage,
  lessonPage,
  type StepOnPage,
  type ValueShown,
  valueShown,
} from '../pages/index.ts';
import { labelledRows, sourceInWords } from '../programme/index.ts';
import { kitTitle } from '../search/index.ts';
import { type Range, toSeconds } from '../time/index.ts';
import type { BlockOnDay, Clip, DaySheet, KitOnDay, ValueInRoom } from './day-sheet.ts';

/** What is shown for less than this is no stretch of its own, s. */
const SHORTEST_CLIP = 0.5;

/**
 * The sheet that a fitted class is run from.
 *
 * @param filmOf what plays of a recording
 * @param startsAt the planned start, milliseconds since 1970
 * @throws MissingValue where a lesson cites a value that cannot be shown
 */
export function makeDaySheet(
  shop: Shop,
  fit: ClassFit,
  filmOf: (recording: string) => Film,
  addressOf: AddressOf,
  startsAt: number,
): DaySheet {
  const { shopClass } = fit;
  const written = shopClass.blocks.flatMap(({ about, treatments }) => [about, ...treatments.map(({ show }) => show)]);
  const parts = written.flatMap((part) => (part ? [part] : []));
  const taught = shop.lessons.filter(({ id }) => parts.some(({ lesson }) => lesson === id));
  const pages = new Map(
    taught.map((lesson) => [lesson.id, lessonPage(shop, lesson, filmOf(lesson.recording), addressOf)]),
  );
  const lookup = partLookup(shop);
  const lengths = new Map(parts.map((part) => [JSON.stringify(part), part] as const));
  const { id, title, date, starts, slot, buffer, attendees, capacity, limits, blocks } = shopClass;
  return {
    shopClass: {
      ...{ id, title, date, starts, slot, blocks },
      ...(buffer === undefined ? {} : { buffer }),
      ...(attendees === undefined ? {} : { attendees }),
      ...(capacity === undefined ? {} : { capacity }),
      ...(limits === undefined ? {} : { limits }),
    },
    startsAt,
    parts: [...lengths.values()].flatMap((part) => {
      const times = lookup(part);
      if (!times) return [];
      const { chapters, programmeSeconds, pauseSeconds } = times;
      return [{ part, length: { lesson: { id: times.lesson.id }, chapters, programmeSeconds, pauseSeconds } }];
    }),
    choice: fit.choice,
    blocks: blocks.map((block, index) => blockOnDay(shop, shopClass, block, index, pages)),
    steps: taught.flatMap((lesson) => allClips(shop, lesson, pages.get(lesson.id))),
    films: Object.fromEntries(
      [...pages].flatMap(([lesson, { player }]) => (player.data ? [[lesson, player.data] as const] : [])),
    ),
    kit: kitList(fit, shop).total.flatMap(({ group, id: item, title: name, count }) =>
      group === 'tool' || group === 'protective'
        ? [{ key: `${group} ${item}`, title: name, count, returns: true }]
        : [],
    ),
  };

  function blockOnDay(
    { lessons }: Shop,
    whole: ShopClass,
    block: ShopClass['blocks'][number],
    index: number,
    shown: ReadonlyMap<string, LessonPage>,
  ): BlockOnDay {
    const kitFor = (treatment: string): KitOnDay[] =>
      [...blockNeeds(whole, index, treatment, lessons)].map(([key, count]) => {
        const [group = 'tool', item = ''] = key.split(' ') as ['tool' | 'part' | 'supply' | 'protective', string];
        return { key, title: kitTitle(shop, group, item), count, returns: group === 'tool' || group === 'protective' };
      });
    const clipsFor = (show: LessonPart | undefined): Clip[] => {
      const lesson = lessons.find((each) => each.id === show?.lesson);
      return show && lesson ? partClips(lesson, shown.get(lesson.id), show) : [];
    };
    return {
      id: block.id,
      who: block.presenter ?? '',
      bay: block.bay ?? '',
      note: block.note ?? '',
      meanwhile: block.treatments.find(({ stations }) => stations?.meanwhile !== undefined)?.stations?.meanwhile ?? '',
      kit: Object.fromEntries(block.treatments.map((way) => [way.id, kitFor(way.id)])),
      clips: Object.fromEntries(block.treatments.map((way) => [way.id, clipsFor(way.show)])),
    };
  }

  /** The stretches of a part, in order: only what the plan shows of it. */
  function partClips(lesson: Lesson, page: LessonPage | undefined, part: LessonPart): Clip[] {
    const wanted = new Set(passagesOf(part, [lesson]).map((passage) => passage.id));
    const whole = lookup(part);
    const ranges = (whole?.chapters ?? []).map(({ start, seconds }) => ({ start, end: start + seconds }));
    const clips = allClips(shop, lesson, page).filter((clip) => wanted.has(clip.id));
    return clips.flatMap((clip) => {
      const within = ranges.find(({ start, end }) => clip.start >= start - 1e-3 && clip.start < end);
      const end = Math.min(clip.end, within?.end ?? 0);
      return within && end - clip.start >= SHORTEST_CLIP ? [{ ...clip, end }] : [];
    });
  }
}

/** Every stretch of a lesson that is on film. */
function allClips(shop: Shop, lesson: Lesson, page: LessonPage | undefined): Clip[] {
  if (!page) return [];
  return page.chapters.flatMap((chapter) => {
    const passage = lesson.chapters.find(({ id }) => id === chapter.id);
    const steps = chapter.steps.filter(({ at }) => at !== undefined && at.end > at.start);
    const first = steps[0]?.at?.start;
    const opening =
      passage && chapter.at && (first === undefined || first > chapter.at.start)
        ? [
            clipOf(lesson, passage, chapter.title, chapter.number, {
              start: chapter.at.start,
              end: first ?? chapter.at.end,
            }),
          ]
        : [];
    return [
      ...opening,
      ...steps.flatMap((step): Clip[] => {
        const own = passage?.steps.find(({ id }) => id === step.id);
        if (!own || !step.at) return [];
        const clip = clipOf(lesson, own, chapter.title, step.number, step.at);
        return [{ ...clip, signals: step.card.signals, values: valuesOf(shop, lesson, own, step) }];
      }),
    ];
  });
}

function clipOf(
  lesson: Lesson,
  passage: Passage,
  chapter: string,
  number: string,
  { start, end }: Range<'programme'>,
): Clip {
  const [talk] = passage.discussions;
  return {
    lesson: lesson.id,
    id: passage.id,
    number,
    title: passage.title,
    chapter,
    start: toSeconds(start),
    end: toSeconds(end),
    signals: passage.signals.map(({ word, text }) => ({ word, text })),
    values: [],
    keyPoints: passage.keyPoints.map(({ text, why }) => ({ text, ...(why === undefined ? {} : { why }) })),
    ...(talk && {
      talk: {
        minutes: passage.discussions.reduce((sum, { minutes }) => sum + minutes, 0),
        text: passage.discussions.map(({ text }) => text).join(' '),
      },
    }),
  };
}

/** What a step cites: for the model years of its lesson, then for all others that its machine has a row for. */
function valuesOf(shop: Shop, lesson: Lesson, { cites }: Passage, { card }: StepOnPage): ValueInRoom[] {
  const own = card.specs.flatMap(({ title, values }) => values.map((value) => inRoom(title, value)));
  const machine = shop.machines.find(({ id }) => id === lesson.machine);
  if (!machine) return own;
  const others = [...new Set(cites.map(({ spec }) => spec))].flatMap((id) => {
    const rows = machine.specs.filter((row) => row.id === id);
    return labelledRows(machine, rows).flatMap((shown): ValueInRoom[] => {
      const { years, title } = shown.row;
      const known = own.some(
        (value) => value.title === title && value.years.from === years.from && value.years.to === years.to,
      );
      // A row that cannot be shown is no answer to anybody who asks for its year.
      if (known || !shown.row.quantity || !sourceInWords(shop, machine.id, shown.row)) return [];
      return [{ ...inRoom(title, valueShown(shop, machine, shown)), otherYears: true }];
    });
  });
  return [...own, ...others];
}

function inRoom(title: string, { whose, value, critical, holds }: ValueShown): ValueInRoom {
  return {
    title,
    whose: whose ?? '',
    primary: value.primary,
    secondary: value.secondary ?? '',
    critical: critical === true,
    years: { from: holds.from, to: holds.to },
  };
}
