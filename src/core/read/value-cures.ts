import type { z } from 'zod';
import { inQuotes } from './typographic-quotes.ts';

/** What is wrong with a value, to stand behind it in a sentence, and what to type. */
export interface Cure {
  readonly message: string;
  readonly help: string;
}

const NUMBER = '([-+]?\\d+(?:\\.\\d+)?)';
const THOUSANDS = /^[-+]?\d{1,3}(?:,\d{3})+$/;

/** What a keyboard or word processor does to a value. */
export function slipOf(value: string): Cure | undefined {
  const typed = value.trim();
  if (THOUSANDS.test(typed)) return { message: 'has a comma within a number', help: commaCure(typed) };
  if (/^[-+]?\d+,\d+$/.test(typed))
    return { message: 'has a comma for the point', help: `write ${typed.replace(',', '.')}` };
  const bare = value.replace(/[“”„‟«»‘’‚‛]/g, '');
  return bare !== value && /^[“”„‟«»‘’‚‛]/.test(value) ? inQuotes(bare) : undefined;
}

/** Three figures behind a comma may be thousands, or thousandths: both are named, since one is a thousand times the other. */
function commaCure(typed: string): string {
  const whole = typed.replaceAll(',', '');
  const parted = typed.split(',');
  return parted.length > 2
    ? `write ${whole}`
    : `write ${whole} where the comma parts thousands, ${Number(typed.replace(',', '.'))} where it stands for the point`;
}

/** What to type for a comma that YAML took for the end of an entry: `{ nominal: 0,5 }`. @param figures behind it */
export function halfNumberHelp(figures: string): string {
  return figures.length === 3
    ? `leave the comma out where it parts thousands; where it stands for the point, write .${figures}`
    : `write the number with a point: .${figures}`;
}

/** What to type where a schema takes another type than what stands there; nothing where its message says enough. */
export function typeCure(issue: z.core.$ZodIssue, value: unknown): Cure | undefined {
  if (issue.code !== 'invalid_type') return undefined;
  if (issue.expected === 'string' && (typeof value === 'number' || typeof value === 'boolean'))
    return { message: 'is read as something else than a text', help: `put it in quotes: "${String(value)}"` };
  if (issue.expected === 'boolean') return { message: 'is neither true nor false', help: 'write true or false' };
  if (issue.expected === 'int')
    return { message: 'is no whole number', help: 'write a whole number, in figures and without a unit' };
  if (issue.expected === 'number' && typeof value === 'string') return numberCure(value);
  return undefined;
}

type Meant = (...parts: readonly string[]) => string;

/** Ways to write a value that say more than one number. */
const FORMS: readonly (readonly [string, Meant])[] = [
  [
    `${NUMBER} ?(?:±|\\+\\/-|\\+-) ?${NUMBER}`,
    (of, off) => `write nominal: ${of} and plusMinus: ${off}, each on its own line`,
  ],
  [`${NUMBER} ?(?:-|–|\\.\\.|to) ?${NUMBER}`, (from, to) => `write min: ${from} and max: ${to}, each on its own line`],
  [`(?:<|≤|<=|max\\.?) ?${NUMBER}`, (most) => `write max: ${most}`],
  [`(?:>|≥|>=|min\\.?) ?${NUMBER}`, (least) => `write min: ${least}`],
  [`${NUMBER} ?: ?1`, (of) => `write ${of}, and unit: ":1" below it`],
  [`${NUMBER} ?%`, () => 'write a plain number, in the unit of the value'],
  [`${NUMBER} ?(\\p{L}.*|[°Ω].*)`, (of, unit) => `write ${of}, and unit: ${unit} on its own line`],
];

function numberCure(value: string): Cure {
  const message = 'is no plain number';
  const typed = value.normalize('NFKC').replaceAll('\u2212', '-').trim();
  const joined = typed.replaceAll(/(?<=\d)[ _'’](?=\d{3}(?!\d))/g, '');
  if (/^[-+]?\d+(?:\.\d+)?$/.test(joined)) return { message, help: `write ${joined}` };
  const [, top, bottom] = /^(\d+)\/(\d+)$/.exec(typed) ?? [];
  if (Number(bottom) > 0) return { message, help: `write ${Number((Number(top) / Number(bottom)).toPrecision(6))}` };
  for (const [form, meant] of FORMS) {
    const found = new RegExp(`^${form}$`, 'iu').exec(joined);
    if (found) return { message, help: meant(...found.slice(1)) };
  }
  return { message, help: 'write a number in figures, with a point, such as 19 or 0.65' };
}
