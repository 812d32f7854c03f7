import type { Ticks } from '../time/index.ts';
import { captionTime } from './caption-times.ts';

const REFERENCES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  nbsp: '\u00A0',
  lrm: '\u200E',
  rlm: '\u200F',
};

/** The words of WebVTT cue text: tags gone, character references read; an unknown reference stays as written. */
export function captionWords(markup: string): string {
  return decodeReferences(markup.replaceAll(/<[^>]*>?/g, ''));
}

function decodeReferences(text: string): string {
  return text.replaceAll(/&(?:#(\d{1,7})|#x([\da-f]{1,6})|(\w{1,8}));/gi, (written, decimal, hex, name: string) => {
    if (name) return REFERENCES[name] ?? written;
    const code = decimal ? Number(decimal) : Number.parseInt(hex, 16);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '\uFFFD';
  });
}

/** Words as text of HTML or of a WebVTT cue. */
export function escapeMarkup(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** What SRT text carries over to WebVTT, and what it does not. */
export interface CarriedOver {
  readonly markup: string;
  /** WebVTT settings that say what its position codes said. */
  readonly settings: string;
  /** Codes that WebVTT has nothing for, as written. */
  readonly left: readonly string[];
}

/** Row of the numeric keypad that a SubRip position code names, as WebVTT settings. */
const ROWS: readonly string[] = ['', 'line:50%', 'line:0'];
const SIDES: readonly string[] = ['align:left', '', 'align:right'];

/**
 * SRT text as WebVTT cue text: `<b> <i> <u>` stay, `{\an8}` becomes settings, other codes are listed.
 * (Common practice, no source: SubRip has no standard.)
 */
export function fromSrtText(text: string): CarriedOver {
  const left: string[] = [];
  let settings = '';
  const markup = text
    .split(/(<\/?[biu]>|<\/?font[^<>]{0,200}>|\{\\[^{}]{0,60}\})/i)
    .map((part, i) => {
      if (i % 2 === 0) return escapeMarkup(decodeReferences(part));
      if (/^<\/?[biu]>$/i.test(part)) return part.toLowerCase();
      const pad = /^\{\\an?([1-9])\}$/.exec(part);
      if (!pad) left.push(part);
      else {
        const key = Number(pad[1]) - 1;
        settings = [ROWS[Math.floor(key / 3)], SIDES[key % 3]].filter(Boolean).join(' ');
      }
      return '';
    })
    .join('');
  return { markup: withoutBlankLines(markup), settings, left };
}

/** Cue text cannot hold a blank line: it would end there. */
export function withoutBlankLines(text: string): string {
  return text
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== '')
    .join('\n');
}

/** Words said from a moment on. */
export interface TimedWords {
  readonly at: Ticks<'recording'>;
  readonly markup: string;
}

/** The runs of words between the time tags of cue text; one run when it has none. */
export function timedWords(markup: string, start: Ticks<'recording'>): TimedWords[] {
  const runs: TimedWords[] = [];
  let at = start;
  markup.split(/<([\d:.]{9,20})>/).forEach((part, i) => {
    if (i % 2 === 1) {
      const time = captionTime(part);
      if (time.ok && time.value.at >= at) at = time.value.at;
    } else if (part !== '') runs.push({ at, markup: part });
  });
  return runs;
}
