import { diffArrays } from 'diff';
import type { Caption } from '../model/index.ts';
import { captionWords, escapeMarkup } from '../read/index.ts';
import type { Splice } from '../write/index.ts';

/** A caption where it stands in its file, as offsets of the text. */
type Standing = Pick<Caption, 'id' | 'markup' | 'text' | 'place'>;

/** Takes the mark out that says nobody has read the caption: its line alone goes. */
export function markRead(source: string, caption: Standing): Splice[] {
  const from = caption.place.start.offset;
  return caption.id === undefined ? [] : [{ from, to: nextLine(source, from), text: '' }];
}

/**
 * Writes other words into a caption and takes its mark out: a person has read it. Its times stay, those within it with
 * the words they stood before; without any words the caption goes.
 *
 * @param words as typed, one line or two
 */
export function correctWords(source: string, caption: Standing, words: string): Splice[] {
  const lines = words
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim().replaceAll(/\s+/g, ' '))
    .filter((line) => line !== '');
  const { start, end } = caption.place;
  if (lines.length === 0) return [{ from: start.offset, to: nextBlock(source, end.offset), text: '' }];
  if (lines.join('\n') === caption.text.trim()) return markRead(source, caption);
  const times = nextLine(source, caption.id === undefined ? start.offset : nextLine(source, start.offset));
  // A caption without words ends with its times.
  const lineEnd = /\r\n|\r|\n/.exec(source)?.[0] ?? '\n';
  const text = `${times > end.offset ? lineEnd : ''}${withTimes(lines, caption.markup).join(lineEnd)}`;
  return [...markRead(source, caption), { from: Math.min(times, end.offset), to: end.offset, text }];
}

/** Offset of the line after the one that an offset lies in, whichever line ends the text has. */
function nextLine(source: string, offset: number): number {
  const end = source.slice(offset).search(/[\r\n]/);
  if (end === -1) return source.length;
  return offset + end + (source.startsWith('\r\n', offset + end) ? 2 : 1);
}

/** Offset of what follows the blank lines behind a block. */
function nextBlock(source: string, end: number): number {
  return end + (/^[\r\n]*/.exec(source.slice(end))?.[0].length ?? 0);
}

/** Lines of words as WebVTT cue text: what stood before a word that stays, or before the one it replaces, stays too. */
function withTimes(lines: readonly string[], markup: string): string[] {
  const before = [...markup.matchAll(/((?:\s|<[^>]*>)*)([^\s<]+)/g)].map(([, tags = '', word = '']) => ({
    tags: tags.replaceAll(/\s/g, ''),
    word: captionWords(word),
  }));
  const after = lines.flatMap((line) => line.split(' '));
  const tags: string[] = [];
  const waiting: string[] = [];
  let at = 0;
  for (const { value, added, removed } of diffArrays(
    before.map(({ word }) => word),
    after,
  )) {
    const here = before.slice(at, at + value.length).map((one) => one.tags);
    if (!added) at += value.length;
    if (removed) waiting.push(...here);
    else if (added) tags.push(...value.map(() => waiting.shift() ?? ''));
    else {
      waiting.length = 0;
      tags.push(...here);
    }
  }
  let next = 0;
  return lines.map((line) =>
    line
      .split(' ')
      .map((word) => `${tags[next++] ?? ''}${escapeMarkup(word)}`)
      .join(' '),
  );
}
