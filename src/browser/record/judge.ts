import { english } from '../../core/locale/index.ts';
import type { LimitRow, Measured } from '../../core/pages/index.ts';
import { judgeReading, type Verdict } from '../../core/spec/index.ts';
import { type Chosen, holdsFor } from '../my-machine/chosen.ts';
import { t } from '../page/words.ts';

/** A reading against the limits that hold for a machine. */
export interface Judged {
  /** Absent where several limits hold and they say different things of it, or none holds. */
  readonly verdict?: Verdict;
  /** The limits, in words. */
  readonly limits: string;
  readonly words: string;
}

const WORDS = {
  in: english('In limits: {limits}.'),
  near: english('In limits, but only just: {limits}.'),
  out: english('Out of limits: {limits}.'),
} as const;

/** @param chosen the attendee's machine, as far as they have named it */
export function judge(value: number, { rows }: Pick<Measured, 'rows'>, chosen: Chosen | undefined): Judged {
  const own = rows.filter((row) => holds(row, chosen));
  const limits = [...new Set(own.map(({ shown }) => shown))].join(t(' or '));
  const verdicts = new Set(own.map(({ amount }) => judgeReading(value, amount)));
  const [verdict] = verdicts;
  if (own.length === 0) return { limits, words: t('The table gives no limit for your machine.') };
  if (verdicts.size > 1 || verdict === undefined)
    return {
      limits,
      words: t('It depends on the year of your machine: {limits}. Name it at the top of the page.', { limits }),
    };
  return { verdict, limits, words: t(WORDS[verdict], { limits }) };
}

function holds({ machine, from, to, variants, regions }: LimitRow, chosen: Chosen | undefined): boolean {
  const row = {
    machine,
    from: String(from),
    to: String(to),
    variants: variants?.join(' '),
    regions: regions?.join(' '),
  };
  return chosen === undefined || holdsFor(row, chosen);
}
