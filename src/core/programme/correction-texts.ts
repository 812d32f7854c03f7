import { fail, ok, type Parsed, printClockTime } from '../time/index.ts';
import { insertYaml, type Plain } from '../write/index.ts';
import type { Disagreement } from './disagreements.ts';

/** What is said of the corrections that are accepted together. */
export interface Acceptance {
  /** YYYY-MM-DD */
  readonly on: string;
  /** Role of who accepts them. */
  readonly by?: string | undefined;
  readonly note?: string | undefined;
}

/** Corrections of one lesson, written into its file. */
export interface CorrectionText {
  readonly file: string;
  readonly was: string | undefined;
  readonly text: string;
  readonly count: number;
}

/**
 * A correction for each disagreement, in the files they belong to: one of each step and spec, since the card stays until
 * the step ends.
 *
 * @param texts the content texts that are there, by path
 * @returns refused where a file cannot be written into safely
 */
export function correctionTexts(
  open: readonly Pick<Disagreement, 'lesson' | 'passage' | 'at' | 'spec' | 'heard' | 'how'>[],
  texts: ReadonlyMap<string, string>,
  { on, by, note }: Acceptance,
): Parsed<readonly CorrectionText[]> {
  const changed: CorrectionText[] = [];
  for (const [id, own] of byLesson(open)) {
    const file = `corrections/${id}.yaml`;
    let text = texts.get(file) ?? 'corrections: []\n';
    for (const { passage, at, spec, heard, how } of own) {
      const entry: Record<string, Plain | undefined> = {
        step: passage.id,
        at: printClockTime(at),
        spec,
        [how]: heard.text.replaceAll(/\s+/g, ' '),
        ...{ on, by, note },
      };
      const given = Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined));
      const change = insertYaml(text, ['corrections'], Number.MAX_SAFE_INTEGER, given as Plain);
      if (!change.ok) return fail(`${file}: ${change.problem}`, change.help);
      text = change.value;
    }
    changed.push({ file, was: texts.get(file), text, count: own.length });
  }
  return ok(changed);
}

function byLesson<T extends Pick<Disagreement, 'lesson' | 'passage' | 'spec'>>(
  open: readonly T[],
): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const each of open) {
    const own = groups.get(each.lesson.id) ?? [];
    if (!own.some(({ passage, spec }) => passage.id === each.passage.id && spec === each.spec)) own.push(each);
    groups.set(each.lesson.id, own);
  }
  return groups;
}
