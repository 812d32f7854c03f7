import type { Caption, Recording } from '../model/index.ts';
import { captionTime, captionWords, type TimedWords, timedWords } from '../read/index.ts';
import {
  type EditList,
  lengthOf,
  type Range,
  rangeToProgramme,
  TICKS_PER_SECOND,
  type Ticks,
  toProgramme,
  toRecording,
} from '../time/index.ts';
import { webvttTime } from './webvtt-time.ts';

/** A rest of a caption shorter than this cannot be read; its words are given up, and told. (Common practice, no source.) */
export const LEAST_REST = TICKS_PER_SECOND / 2;

/** A caption as the programme shows it. */
export interface ProgrammeCaption {
  readonly id?: string;
  readonly at: Range<'programme'>;
  /** WebVTT cue text; times inside are programme times. */
  readonly markup: string;
  readonly text: string;
  readonly settings: string;
  /** The caption of the recording it comes from. */
  readonly from: Caption;
}

/** A caption that a cut went through. */
export interface CutCaption {
  readonly from: Caption;
  /** Ticks of it that are still shown, and that were cut. */
  readonly kept: number;
  readonly lost: number;
  /** Words shown no longer: known where the caption has word times, or where its rest was too short to read. */
  readonly lostWords: string;
}

export interface Retimed {
  /** In order of their start. */
  readonly captions: readonly ProgrammeCaption[];
  /** Captions that a cut went through; those cut out whole went with their words and are not told. */
  readonly cut: readonly CutCaption[];
}

/** The captions of a recording in programme time; none where it has no captions. */
export function programmeCaptions({ captions, edit }: Recording): readonly ProgrammeCaption[] {
  return captions ? retimeCaptions(captions.cues, edit).captions : [];
}

/**
 * Captions from recording time to programme time.
 *
 *     recording   |--a--|   |--b--|    |--c--|
 *                 keep  |xxxxxxxxxxxx|  keep
 *     programme   |--a--||c-|                     b went with its words; c is clipped
 *
 * A caption that a cut goes through keeps all its words on what remains of it, unless it says when each word is
 * spoken: then each side of the cut keeps its own words, and those between are lost. Whatever a cut went through is
 * listed, so that no word goes in silence.
 */
export function retimeCaptions(captions: readonly Caption[], edit: EditList): Retimed {
  const shown: ProgrammeCaption[] = [];
  const cut: CutCaption[] = [];
  for (const caption of captions) {
    const pieces = rangeToProgramme(edit, caption.at);
    const kept = pieces.reduce((sum, piece) => sum + lengthOf(piece), 0);
    const lost = lengthOf(caption.at) - kept;
    if (kept === 0) continue;
    if (lost === 0 && pieces.length === 1 && pieces[0]) shown.push(wholly(caption, pieces[0], edit));
    else {
      const rest = acrossCut(caption, pieces, edit, kept);
      shown.push(...rest.shown);
      cut.push({ from: caption, kept, lost, lostWords: rest.lostWords });
    }
  }
  return { captions: shown.toSorted((a, b) => a.at.start - b.at.start), cut };
}

function wholly(caption: Caption, at: Range<'programme'>, edit: EditList): ProgrammeCaption {
  const { id, text, settings } = caption;
  return {
    ...(id === undefined ? {} : { id }),
    at,
    markup: retimeTags(caption.markup, edit),
    text,
    settings,
    from: caption,
  };
}

function acrossCut(
  caption: Caption,
  pieces: readonly Range<'programme'>[],
  edit: EditList,
  kept: number,
): { shown: ProgrammeCaption[]; lostWords: string } {
  const words = timedWords(caption.markup, caption.at.start);
  if (words.length > 1) return byWords(caption, pieces, edit, words);
  const [first] = pieces;
  const last = pieces.at(-1);
  if (!first || !last || (kept < LEAST_REST && lengthOf(caption.at) >= LEAST_REST))
    return { shown: [], lostWords: caption.text };
  return { shown: [wholly(caption, { start: first.start, end: last.end }, edit)], lostWords: '' };
}

/** Each piece with the words whose first moment it holds. */
function byWords(
  caption: Caption,
  pieces: readonly Range<'programme'>[],
  edit: EditList,
  words: readonly TimedWords[],
): { shown: ProgrammeCaption[]; lostWords: string } {
  const voice = /^<v[ .][^>]*>/.exec(caption.markup)?.[0] ?? '';
  const placed = words.map((run) => ({ run, placed: toProgramme(edit, run.at) }));
  const shown = pieces.flatMap((at, i): ProgrammeCaption[] => {
    const own = placed.filter(({ placed: { at: moment, cut } }) => !cut && at.start <= moment && moment < at.end);
    const text = captionWords(own.map(({ run }) => run.markup).join('')).trim();
    if (text === '') return [];
    const tagged = own
      .map(({ run, placed: { at: moment } }, k) =>
        k === 0 ? run.markup.trimStart() : `<${webvttTime(moment)}>${run.markup}`,
      )
      .join('');
    const markup = voice === '' || tagged.startsWith(voice) ? tagged : voice + tagged;
    const id = caption.id === undefined ? {} : { id: i === 0 ? caption.id : `${caption.id}-${i + 1}` };
    return [{ ...id, at, markup, text, settings: caption.settings, from: caption }];
  });
  const lost = placed.filter(
    ({ run, placed: { cut } }) => cut || toRecording(edit, toProgramme(edit, run.at).at, 'after') !== run.at,
  );
  return {
    shown,
    lostWords: captionWords(lost.map(({ run }) => run.markup).join(''))
      .replaceAll(/\s+/g, ' ')
      .trim(),
  };
}

/** Word times in cue text, moved to the programme. */
function retimeTags(markup: string, edit: EditList): string {
  return markup.replaceAll(/<([\d:.]{9,20})>/g, (written: string, text: string) => {
    const time = captionTime(text);
    return time.ok ? `<${webvttTime(toProgramme(edit, time.value.at as Ticks<'recording'>).at)}>` : written;
  });
}
