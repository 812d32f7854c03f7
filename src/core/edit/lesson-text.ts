import type { Cue } from '../model/index.ts';
import { applySplices, headingText, lineAfter, lineEnd, lineStart, type Splice } from '../write/index.ts';
import { bodyOf, type Passage, type Stretch, trimStretch } from './passages.ts';

/** A cue as written. */
export interface CueText {
  readonly at: string;
  readonly until?: string;
}

/** Sets the times of a passage's cue; a passage without one gets a line for it below its heading. */
export function withCue(text: string, passage: Passage, cue: CueText): string {
  if (!passage.cue) {
    const at = passage.heading.end;
    return applySplices(text, [{ from: at, to: at, text: `${lineEnd(text)}${cueElement(cue)}` }]);
  }
  return applySplices(text, [
    attribute(text, passage.cue, 'at', cue.at),
    ...(cue.until !== undefined || cueAttribute(text, passage.cue, 'until')
      ? [attribute(text, passage.cue, 'until', cue.until)]
      : []),
  ]);
}

/** Takes a passage's cue out, with its line where nothing else stands on it. */
export function withoutCue(text: string, passage: Passage): string {
  return passage.cue
    ? applySplices(text, [removal(text, passage.cue.place.start.offset, passage.cue.place.end.offset)])
    : text;
}

/** Gives a passage's cue an id of its own, so that its address outlives its title. */
export function withCueId(text: string, passage: Passage, id: string): string {
  return passage.cue ? applySplices(text, [attribute(text, passage.cue, 'id', id)]) : text;
}

/** What an attribute of a cue says, as written; nothing where it is not there. */
export function cueAttribute(text: string, cue: Cue, name: 'at' | 'until' | 'id'): string | undefined {
  const found = attributeIn(text, cue, name);
  return found?.value;
}

function attributeIn(text: string, cue: Cue, name: string) {
  const start = cue.place.start.offset;
  const element = text.slice(start, cue.place.end.offset);
  const match = new RegExp(`(\\s+${name}\\s*=\\s*)("([^"]*)"|'([^']*)'|\\{[^}]*\\})`).exec(element);
  if (!match) return undefined;
  const [all, before = '', value = ''] = match;
  return {
    start: start + match.index,
    end: start + match.index + all.length,
    valueStart: start + match.index + before.length,
    value: match[3] ?? match[4] ?? value.replace(/^\{\s*['"`]?|['"`]?\s*\}$/g, ''),
  };
}

function attribute(text: string, cue: Cue, name: 'at' | 'until' | 'id', value: string | undefined): Splice {
  const found = attributeIn(text, cue, name);
  if (found) {
    if (value === undefined) return { from: found.start, to: found.end, text: '' };
    const quote = text.charAt(found.valueStart) === "'" ? "'" : '"';
    return { from: found.valueStart, to: found.end, text: `${quote}${value}${quote}` };
  }
  const after = attributeIn(text, cue, 'at')?.end ?? cue.place.start.offset + '<Cue'.length;
  return { from: after, to: after, text: value === undefined ? '' : ` ${name}="${value}"` };
}

function cueElement({ at, until }: CueText): string {
  return `<Cue at="${at}"${until === undefined ? '' : ` until="${until}"`} />`;
}

/** Removal of a stretch, with its whole line where nothing else is on it. */
function removal(text: string, start: number, end: number): Splice {
  const from = lineStart(text, start);
  const to = lineAfter(text, end);
  const alone = `${text.slice(from, start)}${text.slice(end, to)}`.trim() === '';
  if (alone) return { from, to, text: '' };
  return { from: start, to: text.charAt(end) === ' ' ? end + 1 : end, text: '' };
}

/** Writes another title into a heading. */
export function withTitle(text: string, { heading, kind }: Passage, title: string): string {
  const line = text.slice(heading.start, heading.end);
  const opened = /^(\s{0,3}#{1,6}[ \t]+)(.*?)([ \t]+#+[ \t]*)?$/s.exec(line);
  if (opened) {
    const [, before = '', words = ''] = opened;
    const start = heading.start + before.length;
    return applySplices(text, [{ from: start, to: start + words.length, text: headingText(title) }]);
  }
  return applySplices(text, [{ from: heading.start, to: heading.end, text: `${marks(kind)} ${headingText(title)}` }]);
}

function marks(kind: Passage['kind']): string {
  return kind === 'chapter' ? '##' : '###';
}

/** A chapter or step that is not there yet. */
export interface NewPassage {
  readonly kind: Passage['kind'];
  readonly title: string;
  readonly cue?: CueText;
  readonly body?: string;
}

/**
 * Puts a passage into the lesson.
 *
 * @param at offset of the heading it comes before; the length of the text for the end
 */
export function withPassage(text: string, at: number, { kind, title, cue, body }: NewPassage): string {
  const eol = lineEnd(text);
  const lines = [`${marks(kind)} ${headingText(title)}`, ...(cue ? [cueElement(cue)] : []), ...(body ? [body] : [])];
  const before = text.slice(0, at);
  const gap = before.trim() === '' || /\n[ \t]*\r?\n$/.test(before) ? '' : before.endsWith('\n') ? eol : eol + eol;
  const after = at < text.length ? eol + eol : eol;
  return applySplices(text, [{ from: at, to: at, text: `${gap}${lines.join(eol)}${after}` }]);
}

/** Takes a stretch of the lesson out, such as a whole step. */
export function withoutStretch(text: string, { start, end }: Stretch): string {
  return applySplices(text, [{ from: start, to: end, text: '' }]);
}

/** Lets two neighbouring stretches change places; the blank lines between passages stay where they are. */
export function swapStretches(text: string, first: Stretch, second: Stretch): string {
  const a = trimStretch(text, first);
  const b = trimStretch(text, second);
  return applySplices(text, [
    { from: a.start, to: a.end, text: text.slice(b.start, b.end) },
    { from: b.start, to: b.end, text: text.slice(a.start, a.end) },
  ]);
}

/** Takes a heading and its cue out, so that what stood below it belongs to the passage before. */
export function withoutHeading(text: string, passage: Passage): string {
  const body = bodyOf(text, passage);
  const empty = body.start === body.end;
  return applySplices(text, [{ from: passage.heading.start, to: empty ? passage.own.end : body.start, text: '' }]);
}

/** Writes another text below a heading. */
export function withBody(text: string, passage: Passage, body: string): string {
  const eol = lineEnd(text);
  const words = body.replace(/\r?\n/g, eol).replace(/^\s*\n|\s+$/g, '');
  const { start, end } = bodyOf(text, passage);
  if (start < end && words !== '') return applySplices(text, [{ from: start, to: end, text: words }]);
  if (start < end) return applySplices(text, [{ from: text.slice(0, start).trimEnd().length, to: end, text: '' }]);
  if (words === '') return text;
  const line = lastLineOf(text, passage);
  return applySplices(text, [{ from: line, to: line, text: `${eol}${words}` }]);
}

/** Where the heading and the cue of an empty passage end. */
function lastLineOf(text: string, passage: Passage): number {
  return trimStretch(text, passage.own).end;
}
