import { findQuantities, type HeardQuantity } from '../heard/index.ts';
import type { TimedWord } from './time-words.ts';

/**
 * English words with each spoken quantity as a figure and its unit: "nineteen newton metres" becomes "19 N·m", from
 * where its first word begins to where its last one ends. Ranges, limits and tolerances stay as they were spoken, and so
 * does all that would then be read as anything else.
 */
export function quantitiesInFigures(words: readonly TimedWord[]): TimedWord[] {
  const offsets: number[] = [];
  let text = '';
  for (const word of words) {
    offsets.push(text.length);
    text += `${word.text} `;
  }
  const written: TimedWord[] = [];
  let next = 0;
  for (const quantity of findQuantities(text)) {
    const first = offsets.indexOf(quantity.start);
    const last = offsets.findLastIndex((offset) => offset < quantity.end);
    const figure = figureOf(quantity);
    const [begin, end] = [words[first], words[last]];
    if (first < next || !begin || !end || figure === undefined) continue;
    // What stands behind the quantity in its last word: a full stop, or letters that make it another word.
    const behind = end.text.slice(quantity.end - (offsets[last] ?? 0));
    if (/[\p{L}\p{N}]/u.test(behind)) continue;
    written.push(...words.slice(next, first));
    written.push({ text: `${figure}${behind}`, start: begin.start, end: end.end, ends: end.ends });
    next = last + 1;
  }
  return [...written, ...words.slice(next)];
}

/** The figure, where it is read as the very same quantity. */
function figureOf({ text, min, max, nominal, unit, kind, readings }: HeardQuantity): string | undefined {
  if (min === undefined || min !== max || nominal !== undefined || readings.length !== 1) return undefined;
  // A time is spoken of loosely, and reads as well in words.
  if (['count', 'ratio', 'time'].includes(kind) || /\d/.test(text)) return undefined;
  const figure = `${String(min).replace('-', '−')}${unit === '°' ? '' : '\u00a0'}${unit}`;
  const [again, more] = findQuantities(figure);
  const same = again?.min === min && again.max === max && again.unit === unit && again.kind === kind;
  return same && more === undefined ? figure : undefined;
}
