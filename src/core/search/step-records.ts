import { english, wording } from '../locale/index.ts';
import type { KitGroup, Lesson, Machine, Recording, Shop, SignalWord, Spec, Step } from '../model/index.ts';
import { lessonTimes, rowsCited } from '../programme/index.ts';
import { type Range, toSeconds } from '../time/index.ts';
import { stepText } from './step-text.ts';

/** One step as the step index shows it and as search finds it. */
export interface StepRecord {
  /** What it was made of. */
  readonly from: { readonly lesson: Lesson; readonly machine?: Machine; readonly step: Step };
  readonly lesson: { readonly id: string; readonly title: string };
  readonly machine: { readonly id: string; readonly title: string };
  readonly chapter: { readonly id: string; readonly title: string };
  readonly id: string;
  readonly title: string;
  /** Chapter and step counted from 1, such as `2.3`. */
  readonly number: string;
  /** Programme seconds; absent when the step has no cue or was cut out. */
  readonly at?: { readonly start: number; readonly end: number };
  readonly specs: readonly { readonly id: string; readonly title: string }[];
  /** Rows of every spec it cites, for the model years of the lesson. */
  readonly rows: readonly Spec[];
  readonly tools: readonly { readonly id: string; readonly title: string }[];
  readonly hazards: readonly SignalWord[];
  /** What the step says, with its values: words a search may match, and show. */
  readonly text: string;
  /** What it needs and cites, by name, and its signal words: words a search may match, and never shows. */
  readonly also: readonly string[];
}

/** As search hears them. */
const SIGNAL_NAMES: Readonly<Record<SignalWord, string>> = {
  danger: english('Danger'),
  warning: english('Warning'),
  caution: english('Caution'),
  notice: english('Notice'),
};

/** Every step of the shop's lessons, in the order of the lessons. Drafts are left out. */
export function stepRecords(shop: Shop): StepRecord[] {
  return shop.lessons.flatMap((lesson) => lessonRecords(shop, lesson));
}

/** Lesson and step of every such step, in that order, where nothing else is asked of them. */
export function stepsShown({ lessons }: Shop): { readonly lesson: Lesson; readonly step: Step }[] {
  return lessons
    .filter(({ draft }) => !draft)
    .flatMap((lesson) => lesson.chapters.flatMap(({ steps }) => steps.map((step) => ({ lesson, step }))));
}

const known = new WeakMap<Shop, Map<Lesson, readonly StepRecord[]>>();

/** The steps of a lesson, in its order; none of a draft. Made once for all that lists or searches them. */
export function lessonRecords(shop: Shop, lesson: Lesson): readonly StepRecord[] {
  const ofShop = known.get(shop) ?? new Map<Lesson, readonly StepRecord[]>();
  known.set(shop, ofShop);
  const records = ofShop.get(lesson) ?? (lesson.draft ? [] : recordsOf(shop, lesson));
  ofShop.set(lesson, records);
  return records;
}

function recordsOf(shop: Shop, lesson: Lesson): StepRecord[] {
  const machine = shop.machines.find(({ id }) => id === lesson.machine);
  const spans = stepSpans(
    lesson,
    shop.recordings.find(({ id }) => id === lesson.recording),
  );
  return lesson.chapters.flatMap((chapter, c) =>
    chapter.steps.map((step, s): StepRecord => {
      const cited = machine ? rowsCited(lesson, machine, step) : [];
      const specs = unique(step.cites.map(({ spec }) => spec)).flatMap((id) => {
        const row = cited.find((each) => each.id === id);
        return row ? [{ id, title: row.title }] : [];
      });
      const tools = unique(step.uses.filter(({ group }) => group === 'tool').map(({ id }) => id));
      const span = spans.get(step.id);
      return {
        from: { lesson, ...(machine && { machine }), step },
        lesson: { id: lesson.id, title: lesson.title },
        machine: { id: lesson.machine, title: machine?.title ?? lesson.machine },
        chapter: { id: chapter.id, title: chapter.title },
        id: step.id,
        title: step.title,
        number: `${c + 1}.${s + 1}`,
        ...(span && span.end > span.start ? { at: { start: toSeconds(span.start), end: toSeconds(span.end) } } : {}),
        specs,
        rows: cited,
        tools: tools.map((id) => ({ id, title: kitTitle(shop, 'tool', id) })),
        hazards: unique(step.signals.map(({ word }) => word)),
        text: stepText(lesson, machine, step, shop.info.units, shop.locale),
        also: [
          ...step.uses.map(({ group, id }) => `${kitTitle(shop, group, id)}, ${id.replaceAll('-', ' ')}`),
          ...specs.map(({ title }) => title),
          ...unique(step.signals.map(({ word }) => wording(shop.locale).t(SIGNAL_NAMES[word]))),
        ],
      };
    }),
  );
}

function stepSpans(lesson: Lesson, recording: Recording | undefined): Map<string, Range<'programme'>> {
  if (!recording) return new Map();
  const { chapters } = lessonTimes(lesson, recording);
  return new Map(chapters.flatMap(({ steps }) => steps.map(({ step, at }) => [step.id, at])));
}

/** What the kit calls a thing; its id when the kit does not know it. */
export function kitTitle({ kit }: Shop, group: KitGroup, id: string): string {
  const list = { tool: kit.tools, part: kit.parts, supply: kit.supplies, protective: kit.protective }[group];
  return list?.[id]?.title ?? id;
}

function unique<T>(values: readonly T[]): T[] {
  return [...new Set(values)];
}
