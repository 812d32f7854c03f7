import { wording } from '../locale/index.ts';
import { anglesUsed, type SeekSheet } from '../media/index.ts';
import type { Chapter, Lesson, Machine, Passage, Shop, SignalWord, Step } from '../model/index.ts';
import {
  citedSpecs,
  correctionsShown,
  type PlayFile,
  type PlayPlan,
  planToJson,
  programmeCaptions,
} from '../programme/index.ts';
import { kitTitle } from '../search/index.ts';
import { parseYears, printYears } from '../spec/index.ts';
import { type Range, type Ticks, ticks, toSeconds } from '../time/index.ts';
import { type BeforeYouStart, beforeYouStart } from './before-you-start.ts';
import { type CorrectionNote, correctionNote } from './correction-note.ts';
import { glossary, type WordExplained } from './glossary.ts';
import { type JobSheet, jobSheet, type Measured } from './job-sheet.ts';
import { languageOfCaptions, languageOfLesson, prefixOf } from './languages.ts';
import type { LessonData, TimedPart } from './lesson-data.ts';
import { type AddressOf, type Film, lessonParts, type PartTimed } from './lesson-parts.ts';
import { type SiteFrame, siteFrame } from './site-frame.ts';
import { type TextShown, textShown } from './text-shown.ts';
import { type Holds, holdsFor, type ValueShown, valuesShown } from './value-shown.ts';
import { wrenchSettings } from './wrench-settings.ts';

/** What is on the site of a lesson's film, besides the film. */
export interface LessonPictures {
  /** Address of the picture of a chapter or step. */
  readonly stillOf?: (part: string) => string | undefined;
  /** Small pictures of the whole programme. */
  readonly seek?: SeekSheet & { readonly url: string };
  /** Short copies of stretches of it, by which its parts begin at once. */
  readonly openings?: readonly PlayFile[];
}

/** The heading of a chapter or step: its number, its title, when it is on screen. */
export interface PartHead {
  readonly kind: 'chapter' | 'step';
  readonly id: string;
  readonly title: string;
  /** `2` for a chapter, `2.3` for a step. */
  readonly number: string;
  /** Absent when it has no cue. Empty when all of it was cut. */
  readonly at?: Range<'programme'>;
  /** The moment in its file, for a browser without scripts. */
  readonly link?: string;
  /** Address of a picture of it. */
  readonly still?: string;
}

/** A spec that a step cites, with its values. */
export interface SpecShown {
  readonly title: string;
  readonly values: readonly ValueShown[];
}

/** What a step needs at a glance while its picture runs. */
export interface StepCard {
  readonly signals: readonly { readonly word: SignalWord; readonly text: string }[];
  readonly specs: readonly SpecShown[];
  readonly kit: readonly string[];
}

export interface StepOnPage extends PartHead {
  readonly corrections: readonly CorrectionNote[];
  /** What to set a lengthened torque wrench to, in words. */
  readonly settings: readonly { readonly holds: Holds; readonly text: string }[];
  readonly text: TextShown;
  readonly card: StepCard;
  /** What it measures, to be written down. */
  readonly measured: readonly Measured[];
}

export interface ChapterOnPage extends PartHead {
  /** Of words between its steps. */
  readonly corrections: readonly CorrectionNote[];
  readonly text: TextShown;
  readonly steps: readonly StepOnPage[];
}

/** What plays on the page of a lesson. */
export interface PlayerOnPage {
  readonly lesson: string;
  readonly title: string;
  readonly files: readonly PlayFile[];
  /** True when one finished programme plays. */
  readonly finished: boolean;
  /** Of the captions; nothing when there are none. */
  readonly captions?: string;
  /** Under which terms the film may be used. */
  readonly licence?: string;
  readonly data: LessonData | null;
  /** Cards over the picture. */
  readonly corrections: readonly CorrectionNote[];
  /** Cameras that only the rendered programme brings in. */
  readonly elsewhere: readonly string[];
  /** What is said, by programme time. */
  readonly said: readonly { readonly start: Ticks<'programme'>; readonly text: string }[];
}

export interface LessonNamed {
  readonly id: string;
  readonly title: string;
}

/** Everything the page of a lesson says, in plain values. */
export interface LessonPage {
  readonly frame: SiteFrame;
  readonly title: string;
  /** That it is written in, BCP 47. */
  readonly language: string;
  readonly summary?: string;
  readonly level?: string;
  /** From whom it is, in words, with its licence and whether this shop has changed it; of a shared lesson. */
  readonly shared?: string;
  readonly machine?: { readonly id: string; readonly title: string };
  /** Model years, in words. */
  readonly years?: string;
  /** programme ticks */
  readonly length: number;
  /** Length of the recording it was cut from; nothing when nothing was cut. */
  readonly cutFrom?: Ticks<'recording'>;
  readonly player: PlayerOnPage;
  readonly before: BeforeYouStart;
  /** Words of the trade that stand in it. */
  readonly words: readonly WordExplained[];
  /** The lessons before and after it, as the front page lists them. */
  readonly neighbours: { readonly previous?: LessonNamed; readonly next?: LessonNamed };
  readonly job: JobSheet;
  readonly opening: TextShown;
  readonly chapters: readonly ChapterOnPage[];
  readonly notes: TextShown;
}

/**
 * The page of a lesson.
 *
 * @param film what plays of its recording
 */
export function lessonPage(
  shop: Shop,
  lesson: Lesson,
  film: Film,
  addressOf: AddressOf,
  { stillOf = () => undefined, seek, openings = [] }: LessonPictures = {},
): LessonPage {
  const head = ({ part, number, at, link }: PartTimed<Chapter | Step>): PartHead => {
    const { id, title } = part;
    const still = stillOf(id);
    return {
      kind: 'steps' in part ? 'chapter' : 'step',
      id,
      title,
      number,
      ...(at ? { at } : {}),
      ...(link ? { link } : {}),
      ...(still ? { still } : {}),
    };
  };
  const recording = shop.recordings.find(({ id }) => id === lesson.recording);
  const machine = shop.machines.find(({ id }) => id === lesson.machine);
  const years = machine && parseYears(lesson.years, machine.years);
  const { plan, length, chapters } = lessonParts(lesson, recording, film, addressOf);
  const setting = { shop, lesson, machine, fileAddress: (file: string) => addressOf(encodeURI(`footage/${file}`)) };
  const corrections = correctionsShown(shop).filter((each) => each.lesson.id === lesson.id);
  const notesOf = ({ id }: Passage) =>
    corrections.filter(({ passage }) => passage.id === id).map((each) => correctionNote(shop, each));
  const job = jobSheet(shop, lesson, machine);
  const step = (timed: PartTimed<Step>): StepOnPage => ({
    ...head(timed),
    corrections: notesOf(timed.part),
    settings: machine
      ? wrenchSettings(shop, machine, lesson, timed.part).map(({ row, text }) => ({
          holds: holdsFor(machine.id, row),
          text,
        }))
      : [],
    text: textShown(timed.part.body, setting),
    card: stepCard(shop, lesson, machine, timed.part),
    measured: job.measured.filter(({ step }) => step === timed.part.id),
  });
  const onScreen = corrections.flatMap(({ at, ...rest }) => (at ? [{ ...rest, at }] : []));
  const captioned = (recording?.captions?.cues.length ?? 0) > 0;
  const language = recording ? languageOfCaptions(shop, recording) : shop.locale.tag;
  const captionFile = addressOf(`${prefixOf(shop)}lessons/${lesson.id}/captions.vtt`);
  return {
    frame: siteFrame(shop),
    title: lesson.title,
    language: languageOfLesson(shop, lesson),
    ...(lesson.summary ? { summary: lesson.summary } : {}),
    ...(lesson.level ? { level: lesson.level } : {}),
    ...sharedFrom(shop, lesson),
    ...(machine ? { machine: { id: machine.id, title: machine.title } } : {}),
    ...(years?.ok ? { years: printYears(years.value, shop.locale) } : {}),
    length,
    ...(recording?.length !== undefined && recording.edited ? { cutFrom: recording.length } : {}),
    player: {
      lesson: lesson.id,
      title: lesson.title,
      files: plan?.files ?? [],
      finished: typeof film === 'object',
      ...(captioned ? { captions: language } : {}),
      ...(recording?.written.licence ? { licence: recording.written.licence } : {}),
      data: plan
        ? {
            ...playerData(lesson, { ...plan, openings }, length, chapters, onScreen, stillOf),
            ...(seek ? { seek } : {}),
            ...(captioned ? { captions: { url: captionFile, language } } : {}),
          }
        : null,
      corrections: onScreen.map((each) => correctionNote(shop, each)),
      elsewhere: recording && film === 'uncut' ? [...new Set(anglesUsed(recording).map(({ id }) => id))] : [],
      said: (recording ? programmeCaptions(recording) : []).flatMap(({ at, text }) =>
        text.trim() === '' ? [] : [{ start: at.start, text }],
      ),
    },
    before: beforeYouStart(shop, lesson),
    words: glossary(shop, lesson),
    neighbours: neighboursOf(shop, lesson),
    job,
    opening: textShown(lesson.opening, setting),
    chapters: chapters.map((chapter) => ({
      ...head(chapter),
      corrections: notesOf(chapter.part),
      text: textShown(chapter.part.body, setting),
      steps: chapter.steps.map(step),
    })),
    notes: textShown(lesson.notes, setting),
  };
}

function neighboursOf({ lessons }: Shop, { id }: Lesson): LessonPage['neighbours'] {
  const shown = lessons.filter(({ draft }) => !draft);
  const here = shown.findIndex((each) => each.id === id);
  const named = (lesson: Lesson | undefined) => lesson && { id: lesson.id, title: lesson.title };
  const [previous, next] = here === -1 ? [] : [named(shown[here - 1]), named(shown[here + 1])];
  return { ...(previous && { previous }), ...(next && { next }) };
}

/** Every spec that a step cites, with its values. */
export function specsShown(shop: Shop, lesson: Lesson, machine: Machine, passage: Passage): SpecShown[] {
  return citedSpecs(machine, lesson, passage, shop.locale).map(({ title, rows }) => ({
    title,
    values: valuesShown(shop, machine, rows),
  }));
}

function stepCard(shop: Shop, lesson: Lesson, machine: Machine | undefined, step: Step): StepCard {
  return {
    signals: step.signals.map(({ word, text }) => ({ word, text })),
    specs: machine ? specsShown(shop, lesson, machine, step) : [],
    kit: step.uses.map(({ group, id, count }) => `${count > 1 ? `${count} × ` : ''}${kitTitle(shop, group, id)}`),
  };
}

function playerData(
  { id, title }: Lesson,
  plan: PlayPlan,
  length: number,
  chapters: readonly (PartTimed<Chapter> & { readonly steps: readonly PartTimed<Step>[] })[],
  onScreen: readonly { readonly id: string; readonly passage: Passage; readonly at: Range<'programme'> }[],
  stillOf: (part: string) => string | undefined,
): LessonData {
  const seconds = ({ start, end }: Range<'programme'>) => ({ start: toSeconds(start), end: toSeconds(end) });
  const timesOf = (parts: readonly PartTimed<Chapter | Step>[]): TimedPart[] =>
    parts.flatMap(({ part: { id, title }, at }) => {
      const still = stillOf(id);
      return at ? [{ id, title, ...seconds(at), ...(still ? { still } : {}) }] : [];
    });
  const corrections = onScreen.map(({ id, passage, at }) => ({ id, title: passage.title, ...seconds(at) }));
  return {
    id,
    title,
    length: toSeconds(ticks(length)),
    plan: planToJson(plan),
    chapters: timesOf(chapters),
    steps: timesOf(chapters.flatMap(({ steps }) => steps)),
    ...(corrections.length > 0 ? { corrections } : {}),
  };
}

/** Licences that shops share by ask who it is from, under which licence, and whether it was changed. */
function sharedFrom({ collections, locale }: Shop, { id }: Lesson): Pick<LessonPage, 'shared'> {
  const file = `lessons/${id}.mdx`;
  const from = collections.kept.find(({ texts }) => texts.has(file));
  if (!from) return {};
  const whole = `${from.publisher}, ${from.name} ${from.version}, ${from.licence}`;
  return {
    shared: from.texts.get(file) === 'changed' ? wording(locale).t('{from}, changed here', { from: whole }) : whole,
  };
}
