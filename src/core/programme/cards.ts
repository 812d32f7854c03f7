import type { CardCorner, Lesson, Machine, Passage, Recording, Shop, SignalWord } from '../model/index.ts';
import { type Range, range, runtime, TICKS_PER_SECOND, ticks } from '../time/index.ts';
import { correctionsShown } from './corrections.ts';
import { lessonTimes } from './lesson-times.ts';
import { rowShown } from './row-shown.ts';
import { citedSpecs, type RowShown } from './rows-for.ts';
import { SAFETY_WORDS } from './safety-words.ts';
import { sourceInWords } from './source-in-words.ts';

/** A row's value on a card. Without a source there is none. */
export interface CardValue {
  readonly title: string;
  /** Which machines it holds for, where that has to be told. */
  readonly whose?: string;
  /** In the shop's two unit systems; the second where it differs. */
  readonly primary?: string;
  readonly secondary?: string;
  readonly source?: string;
  /** A wrong value here can hurt someone. */
  readonly critical?: true;
  /** How the value that is corrected stands to it. */
  readonly verdict?: string;
}

/** What lies over the picture for a while, where no page stands beside it. */
export interface PictureCard {
  readonly kind: 'safety' | 'correction' | 'step';
  readonly head: string;
  /** YYYY-MM-DD, of a correction. */
  readonly day?: string;
  readonly texts: readonly string[];
  readonly signals: readonly { readonly word: SignalWord; readonly text: string }[];
  readonly values: readonly CardValue[];
  /** The words of caution it carries. */
  readonly caution: string;
}

export interface PlacedCard {
  readonly card: PictureCard;
  readonly at: Range<'programme'>;
  /** Where the recording wants its cards; absent: where nothing moves. */
  readonly corner?: CardCorner;
}

/** Reading: time to notice a card, and characters read a second with eyes on the work too (common practice, no source). */
const NOTICE = 2;
const CHARACTERS_PER_SECOND = 14;
/** A card to be read once stays at least and at most so long, s. */
const LEAST = 5;
const MOST = 20;

/**
 * The cards of a recording's programme, for a video that is shown without its page: at the start the words of caution;
 * the corrections, from their moment until their step ends, as the player shows them; and where a chapter or step
 * begins its signal words and the values it cites, long enough to be read, no longer than it lasts.
 *
 *     steps        |------1------|----2----|------3------|
 *     step cards   |--1--|       |-2-|     |--3--|
 *     correction       |---------|
 *
 * @returns in order of their start; what was cut has no card
 */
export function programmeCards(shop: Shop, recording: Recording): readonly PlacedCard[] {
  const length = runtime(recording.edit);
  const lessons = shop.lessons.filter((lesson) => lesson.recording === recording.id);
  const opening = safetyCard(shop);
  const corrections = correctionsShown(shop).flatMap(({ at, lesson, correction, rows, machine }): PlacedCard[] => {
    if (!at || lesson.recording !== recording.id) return [];
    const card: PictureCard = {
      kind: 'correction',
      head: 'Correction',
      day: correction.on,
      texts: [
        ...(correction.said ? [`The recording says “${correction.said}”.`] : []),
        ...(correction.shown ? [`The recording shows “${correction.shown}”.`] : []),
      ],
      signals: [],
      values: rows.map((each) => cardValue(shop, machine, each)),
      caution: SAFETY_WORDS[0],
    };
    return [{ card, at }];
  });
  const steps = lessons.flatMap((lesson) => passageCards(shop, lesson, recording));
  const all = [{ card: opening, at: forReading(opening, range<'programme'>(ticks(0), ticks(length))) }];
  return [...all, ...corrections, ...steps]
    .filter(({ at }) => at.end > at.start)
    .map((each) => ({ ...each, ...(recording.written.cards && { corner: recording.written.cards }) }))
    .toSorted((a, b) => a.at.start - b.at.start);
}

function safetyCard({ info }: Shop): PictureCard {
  return {
    kind: 'safety',
    head: 'Before you start',
    texts: info.invented
      ? ['Invented values. This shop, its machine and its figures do not exist. Do not work from these values.']
      : [],
    signals: [],
    values: [],
    caution: SAFETY_WORDS.join(' '),
  };
}

function passageCards(shop: Shop, lesson: Lesson, recording: Recording): PlacedCard[] {
  const machine = shop.machines.find(({ id }) => id === lesson.machine);
  if (!machine) return [];
  return lessonTimes(lesson, recording).chapters.flatMap(({ chapter, at, steps }) => {
    const own = range<'programme'>(at.start, steps[0]?.at.start ?? at.end);
    return [
      ...passageCard(shop, lesson, machine, chapter, own),
      ...steps.flatMap(({ step, at: lasts }) => passageCard(shop, lesson, machine, step, lasts)),
    ];
  });
}

function passageCard(
  shop: Shop,
  lesson: Lesson,
  machine: Machine,
  passage: Passage,
  lasts: Range<'programme'>,
): PlacedCard[] {
  const values = citedSpecs(machine, lesson, passage)
    .flatMap(({ rows }) => rows)
    .map((each) => cardValue(shop, machine, each));
  const signals = passage.signals.map(({ word, text }) => ({ word, text }));
  if (values.length === 0 && signals.length === 0) return [];
  const card: PictureCard = {
    kind: 'step',
    head: passage.title,
    texts: [],
    signals,
    values,
    caution: SAFETY_WORDS[0],
  };
  return [{ card, at: forReading(card, lasts) }];
}

function cardValue(shop: Shop, machine: Machine, { row, whose, verdict }: RowShown & { verdict?: string }): CardValue {
  const source = sourceInWords(shop, machine.id, row);
  const shown = (source && rowShown(row, shop.info.units)) || {};
  return {
    title: row.title,
    ...(whose && { whose }),
    ...shown,
    ...(row.written.critical && { critical: true as const }),
    ...(verdict && { verdict }),
    ...(source !== undefined && { source }),
  };
}

/** From the start of what it belongs to until it is read, or that ends. */
function forReading(card: PictureCard, lasts: Range<'programme'>): Range<'programme'> {
  const length = Math.min(MOST, Math.max(LEAST, NOTICE + wordsOf(card).length / CHARACTERS_PER_SECOND));
  const end = lasts.start + Math.round(length * TICKS_PER_SECOND);
  return range(lasts.start, ticks(Math.min(lasts.end, end)));
}

function wordsOf({ head, texts, signals, values, caution }: PictureCard): string {
  return [
    head,
    ...texts,
    ...signals.map(({ word, text }) => `${word} ${text}`),
    ...values.map(({ title, whose = '', primary = '', secondary = '' }) => `${title} ${whose} ${primary} ${secondary}`),
    caution,
  ].join(' ');
}
