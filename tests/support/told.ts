import { check, replaceIn, SAMPLE_TODAY, type Sample, sampleContent } from '../../src/core/check/index.ts';
import type { Diagnostic } from '../../src/core/model/index.ts';
import { readShop } from '../../src/core/read/index.ts';

/** All that a check of a sample tells. */
export function checked(sample: Sample): readonly Diagnostic[] {
  const { texts, facts, unreadable } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts, unreadable);
  return check(shop, diagnostics, { today: sample.today ?? SAMPLE_TODAY });
}

/** What one rule tells of a sample: severity, message, help and what is shown beside it. */
export function told(rule: string, sample: Sample): string[] {
  return checked(sample)
    .filter((each) => each.rule === rule)
    .map(({ severity, message, help, see }) => [severity, message, help, ...(see ? [see.note] : [])].join(' | '));
}

/** What is told of a sample, and in brackets what is told with it, by the names of the rules. */
export function rulesTold(sample: Sample): string[] {
  return checked(sample).map(({ rule, also }) =>
    also ? `${rule} (${also.map((each) => each.rule).join(', ')})` : rule,
  );
}

/** The line and column of what one rule tells of a sample. */
export function placesTold(rule: string, sample: Sample): string[] {
  return checked(sample)
    .filter((each) => each.rule === rule)
    .map(({ place: { file, start } }) => `${file}:${start.line}:${start.column}`);
}

const NUT = '    kind: torque\n    nominal: 98\n    plusMinus: 5\n    unit: N·m\n';

/** The sound shop with other values of its axle nut. @param row lines of the row, from its kind on */
export function axleNut(...row: readonly string[]): Sample {
  return replaceIn('specs/tarn-420.yaml', NUT, row.map((line) => `    ${line}\n`).join(''));
}

/** The stages of a sequence in place of the torque of the axle nut. */
export const SEQUENCE = [
  'kind: torque-sequence',
  'stages:',
  '  - {nominal: 50, unit: N·m}',
  '  - {nominal: 98, plusMinus: 5, unit: N·m}',
] as const;
