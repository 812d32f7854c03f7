import type { Recording } from '../../model/index.ts';
import {
  type EditList,
  gridOf,
  later,
  printClockTime,
  type Range,
  range,
  TICKS_PER_SECOND,
  type Ticks,
  ticks,
  timecodeAt,
  toProgramme,
} from '../../time/index.ts';
import { spokenWords } from '../../words/index.ts';

/** A rest this long is a row of its own, ticks: what is done without words is cut or kept by itself. */
const REST = 2 * TICKS_PER_SECOND;

/** A word of a recording, or a rest between two, on whole frames. A word lasts until the next one begins, or the rest. */
export interface PaperWord {
  readonly at: Range<'recording'>;
  readonly text: string;
  /** As it is compared: letters and figures alone. */
  readonly bare: string;
}

/** What a rest is compared by; no word is the same. */
export const BARE_REST = ' ';

/** A word without what hands and programs write differently: case, punctuation, signs. */
export function bareWord(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{M}\p{N}]+/gu, '');
}

/** Everything that is said in a recording, word by word, with the rests before, between and after. */
export function paperWords(recording: Recording): PaperWord[] {
  const grid = gridOf(recording);
  const said = withCompany(recording);
  const found: PaperWord[] = [];
  const add = (start: number, end: number, text: string, bare: string) => {
    const from = grid.shown(Math.max(0, start));
    found.push({ at: range(from, ticks(Math.max(from, end))), text, bare });
  };
  const rest = (start: number, end: number) => add(start, end, restText(end - start), BARE_REST);
  const first = said[0]?.start ?? recording.length ?? 0;
  if (first >= REST) rest(0, grid.shown(first));
  for (const [i, { start, end, text }] of said.entries()) {
    const next = said[i + 1]?.start;
    const until = next ?? recording.length ?? end;
    const on = next === undefined ? until : grid.shown(until);
    const over = grid.shown(end);
    if (until - end < REST) add(start, on, text, bareWord(text));
    else {
      add(start, over, text, bareWord(text));
      rest(over, on);
    }
  }
  return found;
}

interface Said {
  readonly start: Ticks<'recording'>;
  readonly end: Ticks<'recording'>;
  readonly text: string;
}

/** Dashes and other signs that stand alone go with the word before them, or the one they open. */
function withCompany({ captions }: Recording): Said[] {
  const found: Said[] = [];
  let opening: Said | undefined;
  for (const { at, text } of spokenWords(captions?.cues ?? [])) {
    const last = found.at(-1);
    if (bareWord(text) === '') {
      if (last) found[found.length - 1] = { ...last, end: later(last.end, at.end), text: `${last.text} ${text}` };
      else
        opening = {
          start: opening?.start ?? at.start,
          end: at.end,
          text: `${opening ? `${opening.text} ` : ''}${text}`,
        };
      continue;
    }
    found.push({ start: opening?.start ?? at.start, end: at.end, text: opening ? `${opening.text} ${text}` : text });
    opening = undefined;
  }
  return found;
}

function restText(length: number): string {
  const seconds = Math.round(length / TICKS_PER_SECOND);
  return `(no words, ${seconds < 60 ? '' : `${Math.floor(seconds / 60)} min `}${seconds % 60} s)`;
}

/**
 * True where the programme leaves a word out: as the strip of the cutting room strikes it through.
 *
 * @param kept on whole frames
 */
export function isCutOut({ at }: PaperWord, kept: EditList): boolean {
  return toProgramme(kept, ticks(Math.floor((at.start + at.end) / 2))).cut !== undefined;
}

/** The time of a moment on paper: the timecode of its frame, or a clock time where frames are not counted. */
export function paperTime(moment: number, recording: Recording): string {
  const { rate, startFrame, grid } = recording;
  if (rate && !grid) return timecodeAt(gridOf(recording).shown(moment), rate, startFrame);
  const [clock = '', fraction = ''] = printClockTime(moment).split('.');
  return `${clock}.${fraction.padEnd(3, '0')}`;
}
