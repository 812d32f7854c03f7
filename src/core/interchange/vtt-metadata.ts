import type { Passage } from '../model/index.ts';
import type { LessonTimes } from '../programme/index.ts';
import type { Range } from '../time/index.ts';
import type { Exported } from './format.ts';
import { writeVtt } from './vtt.ts';

/** What a cue of the metadata track says, as one line of JSON. */
export interface CueMetadata {
  readonly kind: 'chapter' | 'step';
  readonly id: string;
  readonly title: string;
  /** Id of the chapter a step belongs to. */
  readonly chapter?: string;
  readonly uses: readonly { readonly group: string; readonly id: string; readonly count: number }[];
  readonly specs: readonly string[];
  readonly keyPoints: readonly { readonly text: string; readonly why?: string }[];
  readonly signals: readonly { readonly word: string; readonly text: string }[];
}

/** A WebVTT metadata track in programme time: for each chapter and step what a page may show beside the picture. */
export function writeVttMetadata({ chapters }: LessonTimes): Exported {
  const rows = chapters.flatMap(({ chapter, at, steps }) => [
    { at, data: metadata('chapter', chapter) },
    ...steps.map(({ step, at: place }) => ({ at: place, data: metadata('step', step, chapter.id) })),
  ]);
  const shown = rows.filter(({ at }) => at.end > at.start);
  const cues = shown.map(({ at, data }: { at: Range<'programme'>; data: CueMetadata }) => ({
    id: data.chapter ? `${data.chapter}/${data.id}` : data.id,
    at,
    // A JSON text may hold the arrow that would end the cue, but never needs it.
    markup: JSON.stringify(data).replaceAll('>', '\\u003e'),
    settings: '',
  }));
  const gone = rows.length - shown.length;
  return {
    text: writeVtt(cues, [], 'metadata'),
    notes: gone > 0 ? [`${gone} of ${rows.length} chapters and steps are cut out whole and left out`] : [],
  };
}

function metadata(kind: CueMetadata['kind'], passage: Passage, chapter?: string): CueMetadata {
  const { id, title, uses, cites, keyPoints, signals } = passage;
  return {
    kind,
    id,
    title,
    ...(chapter === undefined ? {} : { chapter }),
    uses: uses.map(({ group, id: used, count }) => ({ group, id: used, count })),
    specs: [...new Set(cites.map(({ spec }) => spec))],
    keyPoints: keyPoints.map(({ text, why }) => ({ text, ...(why === undefined ? {} : { why }) })),
    signals: signals.map(({ word, text }) => ({ word, text })),
  };
}
