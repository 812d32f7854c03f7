import { findQuantities, type HeardQuantity } from '../../src/core/heard/index.ts';
import type { SimpleKind } from '../../src/core/spec/index.ts';
import { UNIT_FORMS, type UnitForm } from './heard-units.ts';

/**
 * How amounts are spoken, in three tables: forms of numbers, names of units, and frames of neutral talk. Each amount in
 * each frame says one quantity, whatever it is of. All invented, by the grammar of English and not by any sentence.
 */

/** `{many}`, `{one}`, `{a}` are the unit behind several, in the singular, and in the singular with its article. */
interface NumberForm {
  readonly form: string;
  readonly says: string;
  readonly low: number;
  readonly high: number;
}

const number = (form: string, says: string, low: number, high = low): NumberForm => ({ form, says, low, high });

const NUMBER_FORMS: readonly NumberForm[] = [
  number('figures', '7 {many}', 7),
  number('figures', '45 {many}', 45),
  number('figures', '1,200 {many}', 1200),
  number('figures', '3450 {many}', 3450),
  number('decimal figures', '1.5 {many}', 1.5),
  number('decimal figures', '0.979 {many}', 0.979),
  number('decimal figures', '.04 {many}', 0.04),
  number('word', 'seven {many}', 7),
  number('word', 'twelve {many}', 12),
  number('word', 'forty {many}', 40),
  number('word', 'forty-five {many}', 45),
  number('word', 'thirty six {many}', 36),
  number('hundreds', 'a hundred {many}', 100),
  number('hundreds', 'a hundred and ten {many}', 110),
  number('hundreds', 'one hundred and twenty-five {many}', 125),
  number('hundreds', 'three hundred and forty {many}', 340),
  number('hundreds', 'three hundred forty {many}', 340),
  number('hundreds', 'three hundred and five {many}', 305),
  number('hundreds of hundreds', 'thirty-three hundred {many}', 3300),
  number('hundreds of hundreds', 'twelve hundred {many}', 1200),
  number('thousands', 'four thousand {many}', 4000),
  number('thousands', 'three thousand four hundred and fifty {many}', 3450),
  number('thousands', 'two and a half thousand {many}', 2500),
  number('thousands', 'twelve thousand five hundred {many}', 12_500),
  number('thousands', 'three and a quarter thousand {many}', 3250),
  number('spoken decimal', 'two point five {many}', 2.5),
  number('spoken decimal', 'two-point-five {many}', 2.5),
  number('spoken decimal', 'point eight {many}', 0.8),
  number('spoken decimal', 'point oh four {many}', 0.04),
  number('spoken decimal', 'nought point three {many}', 0.3),
  number('spoken decimal', 'zero point nine seven nine {many}', 0.979),
  number('spoken decimal', 'oh point six {many}', 0.6),
  number('spoken decimal', 'one point oh five {many}', 1.05),
  number('spoken decimal', 'twelve point seven five {many}', 12.75),
  number('spoken decimal', 'fourteen point three {many}', 14.3),
  number('spoken decimal', 'a hundred and two point five {many}', 102.5),
  number('spoken short', 'two-forty-three {many}', 243),
  number('spoken short', 'two seventy-five {many}', 275),
  number('spoken short', 'one-oh-five {many}', 105),
  number('spoken short', 'one ten {many}', 110),
  number('spoken short', 'one-twenty {many}', 120),
  number('spoken short', 'seventeen twenty-five {many}', 1725),
  number('spoken short', 'a hundred ten {many}', 110),
  number('spoken short', 'thirty-four fifty {many}', 3450),
  number('half', 'half {a}', 0.5),
  number('half', 'a half {one}', 0.5),
  number('half', 'one and a half {many}', 1.5),
  number('half', 'five and a half {many}', 5.5),
  number('half', 'five-and-a-half {many}', 5.5),
  number('half', '{a} and a half', 1.5),
  number('half', 'twenty-two and a half {many}', 22.5),
  number('half', 'a hundred and a half {many}', 100.5),
  number('part', 'a quarter of {a}', 0.25),
  number('part', 'three quarters of {a}', 0.75),
  number('part', 'an eighth of {a}', 0.125),
  number('part', 'two thirds of {a}', 2 / 3),
  number('part', 'a tenth of {a}', 0.1),
  number('part', 'a twentieth of {a}', 0.05),
  number('part', 'three hundredths of {a}', 0.03),
  number('part', 'three point eight hundredths of {a}', 0.038),
  number('part', 'two and a half tenths of {a}', 0.25),
  number('part', 'point seven of {a}', 0.7),
  number('mixed', 'two and three quarter {many}', 2.75),
  number('mixed', 'two and three quarters {many}', 2.75),
  number('mixed', 'thirteen and five eighths {many}', 13.625),
  number('mixed', 'two and a quarter {many}', 2.25),
  number('mixed', 'two {many} and a quarter', 2.25),
  number('mixed', '{a} and a quarter', 1.25),
  number('range', 'five to six {many}', 5, 6),
  number('range', 'forty to forty-five {many}', 40, 45),
  number('range', 'between forty and fifty {many}', 40, 50),
  number('range', 'from forty to fifty {many}', 40, 50),
  number('range', 'five or six {many}', 5, 6),
  number('range', '40-45 {many}', 40, 45),
  number('range', '40 to 45 {many}', 40, 45),
  number('range', 'five {many} to six', 5, 6),
  number('range', 'forty {many} to forty-five {many}', 40, 45),
  number('range', 'point two to point four {many}', 0.2, 0.4),
  number('range', 'two and a half to three {many}', 2.5, 3),
  number('range', 'a half to three quarters of {a}', 0.5, 0.75),
  number('guess', 'forty, forty-five {many}', 40, 45),
  number('guess', 'forty, maybe forty-five {many}', 40, 45),
  number('guess', 'forty {many}, maybe forty-five', 40, 45),
  number('tolerance', 'forty plus or minus five {many}', 35, 45),
  number('tolerance', 'forty {many} plus or minus five', 35, 45),
  number('tolerance', 'forty {many}, give or take five', 35, 45),
  number('roughly', 'about forty {many}', 40),
  number('roughly', 'forty or so {many}', 40),
  number('roughly', 'forty-odd {many}', 40),
  number('roughly', 'forty-ish {many}', 40),
  number('roughly', 'forty {many} or so', 40),
  number('roughly', 'a good forty {many}', 40),
  number('roughly', 'call it forty {many}', 40),
  number('roughly', 'nearly forty {many}', 40),
  number('roughly', 'somewhere around forty {many}', 40),
  number('roughly', 'forty {many}, thereabouts', 40),
];

type Side = 'min' | 'max';

interface Frame {
  readonly frame: string;
  readonly says: string;
  /** Which side of a single amount it leaves. */
  readonly side?: Side;
  /** It holds of lengths of time and ways, or it does not. */
  readonly lasts?: boolean;
}

const frame = (name: string, says: string, more: Omit<Frame, 'frame' | 'says'> = {}): Frame => ({
  frame: name,
  says,
  ...more,
});

const FRAMES: readonly Frame[] = [
  frame('alone', '{}.'),
  frame('start', '{} and it was happy.', { lasts: false }),
  frame('start', '{}, that is what the book has.'),
  frame('end', 'So this one here wants {}.'),
  frame('end', 'What we are after is {}.'),
  frame('end', 'Set it to {}.', { lasts: false }),
  frame('end', 'I went with {}.', { lasts: false }),
  frame('middle', 'You want {} on there, same as before.'),
  frame('middle', 'It says {} in the manual.'),
  frame('middle', 'The label says {} and I believe it.'),
  frame('middle', 'Mine came out at {} when I did it.', { lasts: false }),
  frame('middle', 'We had {} the first time round.', { lasts: false }),
  frame('comma', "That's {}, near enough."),
  frame('comma', 'On this one, {}, which is fine.'),
  frame('question', 'Is that {}?'),
  frame('question', 'Would {} do it?', { lasts: false }),
  frame('short', "It's {}."),
  frame('short', "That one's {}."),
  frame('short', 'Get yourself {} and carry on.', { lasts: false }),
  frame('anecdote', "My old one's {} and nobody ever moaned.", { lasts: false }),
  frame('pace', 'Start with {}, then have a look.', { lasts: false }),
  frame('over', 'Nothing over {}.', { side: 'max' }),
  frame('under', 'It must not be under {}.', { side: 'min' }),
  frame('under', 'Keep it under {}.', { side: 'max' }),
  frame('within', 'Get it within {} and stop.', { side: 'max' }),
  frame('no more than', 'No more than {} on any of them.', { side: 'max' }),
  frame('no less than', 'You want no less than {} there.', { side: 'min' }),
  frame('at least', 'You want at least {}.', { side: 'min' }),
  frame('at most', '{} at most.', { side: 'max' }),
  frame('at least', '{} at the very least.', { side: 'min' }),
  frame('maximum', 'Maximum of {}.', { side: 'max' }),
  frame('maximum', 'The maximum is {}.', { side: 'max' }),
  frame('maximum', '{} max.', { side: 'max' }),
  frame('maximum', '{}, tops.', { side: 'max' }),
  frame('minimum', '{} minimum.', { side: 'min' }),
  frame('minimum', 'Minimum {}.', { side: 'min' }),
  frame('or more', '{} or more.', { side: 'min' }),
  frame('or less', '{} or less.', { side: 'max' }),
  frame('up to', 'Anything up to {} is fine.', { side: 'max' }),
  frame('exceed', 'Do not exceed {}.', { side: 'max' }),
  frame('limit', 'The limit is {}.', { side: 'max' }),
];

export interface Spoken {
  readonly text: string;
  readonly number: NumberForm;
  readonly unit: UnitForm;
  readonly frame: Frame;
}

const COUNTS = new Set<SimpleKind>(['count']);
const LASTS = new Set<SimpleKind>(['time', 'distance']);
/** Said behind the amount or before it, a limit has no second one. */
const OPEN = /^(range|guess|tolerance|roughly)$/;
const OF_ONE = /\{(a|one)\}/;

/** Whether somebody would say so many of this in this frame. */
function isSaid(form: NumberForm, of: UnitForm, { side, lasts, says }: Frame): boolean {
  if (form.low < of.least || form.high > of.most) return false;
  if (OF_ONE.test(form.says) && !of.parts) return false;
  if (COUNTS.has(of.kind) && !(Number.isInteger(form.low) && Number.isInteger(form.high))) return false;
  if (lasts === false && LASTS.has(of.kind)) return false;
  // A limit has one side, and says itself how near.
  if (side !== undefined && OPEN.test(form.form)) return false;
  // `between` and `from` are prepositions of their own.
  if (/^(between|from) /.test(form.says) && / (to|with|of|at) \{\}/.test(says)) return false;
  return true;
}

const article = (word: string) => (/^(hour|[aeiou](?!ne))/i.test(word) ? `an ${word}` : `a ${word}`);

function say(form: NumberForm, of: UnitForm, { says }: Frame): string {
  const amount = form.says.replaceAll('{many}', of.many).replaceAll('{one}', of.one).replaceAll('{a}', article(of.one));
  const text = says.replace('{}', amount);
  return text.replace(/^[a-z]/, (first) => first.toUpperCase());
}

/** Every amount in every frame in which it would be said; with a step, every so many of them. */
export function* grid(step = 1): Generator<Spoken> {
  let at = 0;
  for (const form of NUMBER_FORMS)
    for (const of of UNIT_FORMS)
      for (const round of FRAMES)
        if (isSaid(form, of, round) && at++ % step === 0)
          yield { text: say(form, of, round), number: form, unit: of, frame: round };
}

const close = (a: number | undefined, b: number | undefined) =>
  a === undefined || b === undefined ? a === b : Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(b));

/** The same amount of the same unit; an end that is open is open. */
export function isSameAmount(
  heard: HeardQuantity,
  { kind, symbol }: UnitForm,
  low: number | undefined,
  high: number | undefined,
): boolean {
  const units = heard.kind === kind && heard.readings.some((reading) => reading.symbol === symbol);
  return units && close(heard.min, low) && close(heard.max, high);
}

/** True where exactly what was said is heard. */
export function isHeard({ text, number: form, unit: of, frame: round }: Spoken): boolean {
  const [only, ...more] = findQuantities(text);
  const [low, high] = [round.side === 'max' ? undefined : form.low, round.side === 'min' ? undefined : form.high];
  return only !== undefined && more.length === 0 && isSameAmount(only, of, low, high);
}
