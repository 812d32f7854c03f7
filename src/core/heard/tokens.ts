import { unitsWritten } from '../spec/index.ts';

/** A piece of a sentence. `number` is written in figures; `code` is what looks like one and measures nothing. */
export interface Token {
  readonly type: 'number' | 'word' | 'mark' | 'code';
  readonly text: string;
  /** Small letters. */
  readonly lower: string;
  /** Of figures. */
  readonly value: number | undefined;
  readonly start: number;
  readonly end: number;
}

/** What is said at a place, in small letters; nothing before the first piece and past the last, which no word is. */
export function wordAt(pieces: readonly Token[], at: number): string {
  return pieces[at]?.lower ?? '';
}

/** The same as it is written. */
export function textAt(pieces: readonly Token[], at: number): string {
  return pieces[at]?.text ?? '';
}

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅙': '1/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};
const FIGURES = /^(?:\d{1,3}(?:[, \u00a0\u202f]\d{3})+(?:\.\d+)?|\d+\/\d+|\d+[.,]\d+|\d+|\.\d+)(?![\d])/;
const PLAIN = /^[a-zA-Z]+$/;
const LETTERS = /^\p{L}+(?:['’]\p{L}+)*(?:⁻¹|[²³23])?(?![\p{L}\d])/u;

/** What stands between blanks; thousands in groups with blanks are one piece. */
const CHUNK = /(?<![\p{L}\d.,/:-])\d{1,3}(?:[ \u00a0\u202f]\d{3}){1,5}(?![\d.,:/]*\d)\S*|\S+/gu;
/** More characters without a blank are no word and no number that anybody says. */
export const LONGEST_CHUNK = 200;

/**
 * A text in pieces. Part numbers, thread sizes, dates, clock times, prices and oil grades become one `code` each, so
 * that nobody takes a figure in them for a quantity.
 */
export function tokens(text: string): Token[] {
  const found: Token[] = [];
  for (const chunk of text.matchAll(CHUNK)) {
    if (chunk[0].length > LONGEST_CHUNK) {
      found.push(token('code', chunk[0], chunk.index));
      continue;
    }
    // Most of any talk: a plain word.
    if (PLAIN.test(chunk[0])) {
      found.push(token('word', chunk[0], chunk.index));
      continue;
    }
    const lead = /^[("'“‘[{*_]*/.exec(chunk[0])?.[0].length ?? 0;
    const body = chunk[0].slice(lead);
    const trail = body.slice(trailFrom(body));
    const inchMark = trail.startsWith('"') || /\d["']$/.test(body);
    const core = inchMark ? body : body.slice(0, body.length - trail.length);
    const at = chunk.index;
    for (let i = 0; i < lead; i++) found.push(mark(text, at + i));
    for (const piece of pieces(core, at + lead)) found.push(piece);
    for (let i = at + lead + core.length; i < at + chunk[0].length; i++) found.push(mark(text, i));
  }
  return found;
}

const CLOSING = new Set(')]}*_,;:!?…”’');
/** Where the marks that end a chunk begin: closing ones with one full stop among them, quotation marks behind it. */
function trailFrom(body: string): number {
  let at = body.length;
  while (at > 0 && (CLOSING.has(body[at - 1] ?? '') || body[at - 1] === "'" || body[at - 1] === '"')) at--;
  if (body[at - 1] === '.') at--;
  while (at > 0 && CLOSING.has(body[at - 1] ?? '')) at--;
  return at;
}

function token(type: Token['type'], text: string, start: number, value?: number): Token {
  // One shape for all of them keeps an engine quick.
  return { type, text, lower: text.toLowerCase(), value, start, end: start + text.length };
}

function mark(text: string, at: number): Token {
  return token('mark', text[at] ?? '', at);
}

/** `50:1`; a clock shows two figures for its minutes. */
const RATIO = /^([1-9]\d{0,3}(?:\.\d+)?):1$/;

const CODES: readonly RegExp[] = [
  /\d:\d/, // clock times, ratios, timecode
  /^[£$€¥]/, // prices
  /[£€¥]$/,
  /^\p{L}+\d/u, // M8, T30, DOT4, XR650
  /\p{L}\d.*-|-.*\p{L}\d/u, // AB12-34, 4512-K3
  /^\d+[x×]\d|\d[x×]\d/i, // sizes by sizes
  /^\d+\/\d+[-–]\d+(?!\/|\d*\.)/, // inch threads, 3/8-16
  /^\d+[.,]?\d*[-–]\d+[.,]?\d*[-–]\d/, // dates and part numbers
  /^\d+\/\d+\/\d+/,
  /^\d+\.\d+\.\d+/,
  /^0\d/, // a leading nought without a point
  /^\d{7,}/,
  /^\d+w-?\d*$/i, // oil grades
  /^(?:700|650|26)[abcABC]$/, // rims
  /^\d+(st|nd|rd|th)s?$/i,
  /^['’]\d+s$|^\d{3,}['’]?s$|^\d+['’]s$/, // the nineties as '90s, bikes as 650s
];

function pieces(core: string, at: number): Token[] {
  if (core === '') return [];
  const whole = (): Token[] => [token('code', core, at)];
  const ratio = RATIO.exec(core)?.[1];
  if (ratio !== undefined) return [token('number', ratio, at, Number(ratio)), token('word', ':1', at + ratio.length)];
  if (/\d/.test(core) && CODES.some((code) => code.test(core)) && !isGlued(core) && unitsWritten(core).length === 0)
    return whole();
  const found: Token[] = [];
  for (let i = 0; i < core.length; ) {
    const rest = core.slice(i);
    const vulgar = VULGAR[rest[0] ?? ''];
    const figures = vulgar ? rest[0] : FIGURES.exec(rest)?.[0];
    const letters = figures ? undefined : withoutVerb(rest);
    const text = figures ?? letters ?? rest[0] ?? '';
    const before = found.at(-1);
    // A figure straight after letters, or letters straight after a figure that name no unit: a code.
    const touching = before?.end === at + i;
    if (figures && !vulgar && touching && before?.type === 'word') return whole();
    if (letters && touching && before?.type === 'number' && !isUnitAfterFigures(rest)) return whole();
    const type = figures ? 'number' : letters ? 'word' : 'mark';
    found.push(token(type, text, at + i, figures ? readFigures(vulgar ?? figures) : undefined));
    i += text.length;
  }
  // A word, a hyphen, a figure: a model or a grade, unless the word is a number of its own.
  const [first, second, third] = found;
  if (first?.type === 'word' && second?.text === '-' && third?.type === 'number') return whole();
  return found;
}

/** `thirty's plenty`, `a quarter'll do`: a number and its verb are two words. */
const NUMBER_OF_VERB =
  /^(?:(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]+teen|[a-z]+ty|hundred|thousand|half|quarter|third|eighth|sixteenth)(?=['’](?:s|ll|d)$)|['’](?:s|ll|d)$)/i;
const withoutVerb = (rest: string) => (NUMBER_OF_VERB.exec(rest) ?? LETTERS.exec(rest))?.[0];

/** Figures with a unit straight after them, such as `70s` of seconds are not, but `2m3` is. */
function isGlued(core: string): boolean {
  const match = /^[\d.,]+(?:[-–][\d.,]+)?(\p{L}[\p{L}\d²³/·⋅.-]*)$/u.exec(core);
  const unit = match?.[1] ?? '';
  return unit !== '' && unit !== 's' && unit.length > 1 && unitsWritten(unit).length > 0;
}

function isUnitAfterFigures(rest: string): boolean {
  const letters = /^[\p{L}²³]+(?:[·⋅.\-/]\p{L}+[²³2]?)*/u.exec(rest)?.[0] ?? '';
  const first = /^\p{L}+/u.exec(rest)?.[0] ?? '';
  return /^(k|ish|x)$/i.test(first) || unitsWritten(letters).length > 0 || unitsWritten(first).length > 0;
}

/** The number that figures write: thousands in groups, a decimal point or comma, a fraction. */
function readFigures(figures: string): number {
  const [top, bottom] = figures.split('/');
  if (bottom !== undefined) return Number(top) / Number(bottom);
  const plain = figures.replace(/[ \u00a0\u202f]/g, '');
  if (/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(plain)) return Number(plain.replaceAll(',', ''));
  return Number(plain.replace(',', '.'));
}
