import { findQuantities, type HeardQuantity } from './find-quantities.ts';

/** A quantity heard in a text of lines. */
export interface HeardInLine extends HeardQuantity {
  /** From 1; `start` and `end` are columns of this line, from 0. */
  readonly line: number;
}

const TIMING = /-->/;
/** An element of WebVTT, or a time within a caption; `< 3 mm` is none. Source: WebVTT, 4.2.2 (W3C). */
const TAG = /<(?:\/?[a-z][^<>]*|[\d:.]+)>/gi;

/**
 * Every quantity in a text, by line; of captions (WebVTT or SRT) only what is said. Words of one caption belong
 * together over its lines: what starts in one and ends in the next is told where it starts.
 */
export function findQuantitiesByLine(text: string): HeardInLine[] {
  const lines = text.split(/\r\n|\n|\r/);
  const captions = lines.some((line) => TIMING.test(line));
  const runs = captions ? captionTexts(lines) : lines.map((_, first) => ({ first, count: 1 }));
  const words = runs.map(({ first, count }) => lines.slice(first, first + count));
  return runs.flatMap(({ first }, at) => hearTogether(words[at] ?? [], first, words[at - 1]?.join(' ')));
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

function hearTogether(lines: readonly string[], first: number, earlier?: string): HeardInLine[] {
  // Tags keep their room, so that columns stay true.
  const words = lines.map((line) => line.replace(TAG, (tag) => ' '.repeat(tag.length)));
  const starts: number[] = [];
  let length = 0;
  for (const line of words) {
    starts.push(length);
    length += line.length + 1;
  }
  let index = 0;
  return findQuantities(words.join(' '), earlier).map((heard) => {
    // What is found comes in the order of the text.
    while ((starts[index + 1] ?? Infinity) <= heard.start) index++;
    const offset = starts[index] ?? 0;
    const end = Math.min(heard.end - offset, lines[index]?.length ?? 0);
    return { ...heard, line: first + index + 1, start: heard.start - offset, end };
  });
}
