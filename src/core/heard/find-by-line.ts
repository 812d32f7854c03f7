import { lastUpTo } from '../time/index.ts';
import { findQuantities } from './find-quantities.ts';
import type { HeardQuantity } from './heard-quantity.ts';
import { unsearched } from './unsearched.ts';

/** A quantity heard in a text of lines. */
export interface HeardInLine extends HeardQuantity {
  /** From 1; `start` and `end` are columns of this line, from 0. */
  readonly line: number;
}

const TIMING = /-->/;
/** An element of WebVTT, or a time within a caption; `< 3 mm` is none. Source: WebVTT, 4.2.2 (W3C). */
const TAG = /<(?:\/?[a-z][^<>]*|[\d:.]+)>/gi;

/** What was not searched, from a line and a column on. */
export interface UnsearchedLine {
  /** From 1. */
  readonly line: number;
  /** Column, from 0. */
  readonly start: number;
  readonly why: string;
}

/**
 * Every quantity in a text, by line; of captions (WebVTT or SRT) only what is said. Words of one caption belong
 * together over its lines: what starts in one and ends in the next is told where it starts.
 */
export function findQuantitiesByLine(text: string): HeardInLine[] {
  return stretchesOf(text).flatMap((stretch) =>
    findQuantities(stretch.text, stretch.earlier).map((heard) => {
      const { line, start } = stretch.at(heard.start);
      const end = Math.min(heard.end - heard.start + start, stretch.lengthOf(line));
      return { ...heard, line, start, end };
    }),
  );
}

/** Where a text was not searched; nowhere in what people write and say. */
export function unsearchedByLine(text: string): UnsearchedLine[] {
  return stretchesOf(text).flatMap((stretch) =>
    unsearched(stretch.text).map(({ start, why }) => ({ ...stretch.at(start), why })),
  );
}

/** The runs of lines that are the words of one caption. */
function captionTexts(lines: readonly string[]): { first: number; count: number }[] {
  const runs: { first: number; count: number }[] = [];
  lines.forEach((line, at) => {
    if (!TIMING.test(line)) return;
    let end = at + 1;
    while (end < lines.length && lines[end]?.trim() !== '' && !TIMING.test(lines[end] ?? '')) end++;
    if (end > at + 1) runs.push({ first: at + 1, count: end - at - 1 });
  });
  return runs;
}

/** Lines that are read as one text. */
interface Stretch {
  readonly text: string;
  /** What stands before it. */
  readonly earlier: string;
  readonly at: (offset: number) => { line: number; start: number };
  readonly lengthOf: (line: number) => number;
}

function stretchesOf(text: string): Stretch[] {
  const lines = text.split(/\r\n|\n|\r/);
  const captions = lines.some((line) => TIMING.test(line));
  const runs = captions ? captionTexts(lines) : lines.map((_, first) => ({ first, count: 1 }));
  let earlier = '';
  const stretches: Stretch[] = [];
  for (const { first, count } of runs) {
    const own = lines.slice(first, first + count);
    const stretch = own.some((line) => /\S/.test(line)) ? together(own, first, earlier) : undefined;
    if (stretch) stretches.push(stretch);
    earlier = stretch?.text ?? '';
  }
  return stretches;
}

function together(lines: readonly string[], first: number, earlier: string): Stretch {
  // Tags keep their room, so that columns stay true.
  const words = lines.map((line) => line.replace(TAG, (tag) => ' '.repeat(tag.length)));
  const starts: { line: number; from: number }[] = [];
  let length = 0;
  for (const [index, line] of words.entries()) {
    starts.push({ line: first + index + 1, from: length });
    length += line.length + 1;
  }
  return {
    text: words.join(' '),
    earlier,
    at: (offset) => {
      const { line, from } = lastUpTo(starts, offset, (each) => each.from) ?? { line: first + 1, from: 0 };
      return { line, start: offset - from };
    },
    lengthOf: (line) => lines[line - first - 1]?.length ?? 0,
  };
}
