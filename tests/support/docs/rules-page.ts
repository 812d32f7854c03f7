import { structuredPatch } from 'diff';
import { EXPLAINABLE, type Explained, explain } from '../../../src/core/check/index.ts';

/** The page that lists every rule, made from the lines its tests run on and that `check --explain` prints. */
export function rulesPage(): string {
  return [
    '# Rules',
    '',
    'What `liftside check` can tell, made by `npm run docs` from the rules themselves: why each matters, what it says of an',
    'example, what to do then, and the example wrong and right. The tests run on the same lines, and',
    '`liftside check --explain <rule>` prints them.',
    '',
    ...EXPLAINABLE.map((id) => `- [${id}](#${id})`),
    ...EXPLAINABLE.flatMap((id) => section(explain(id))),
    '',
  ].join('\n');
}

function section(explained: Explained | undefined): string[] {
  if (!explained) return [];
  const { rule, severity, says, why, help, example } = explained;
  const contrasts = example.flatMap(({ file, wrong, right }) => [`  ${file}`, ...difference(wrong, right)]);
  return [
    '',
    `## ${rule}`,
    '',
    `${severity}. ${why}`,
    '',
    `> ${says}`,
    '',
    `What to do: ${escaped(help)}.`,
    '',
    '```diff',
    ...contrasts,
    '```',
  ];
}

/** Wrong and right as one difference. */
function difference(wrong: readonly string[], right: readonly string[]): string[] {
  const text = (lines: readonly string[]) => lines.map((line) => `${line}\n`).join('');
  const { hunks } = structuredPatch('', '', text(wrong), text(right), '', '', { context: 99 });
  return hunks.flatMap(({ lines }) => lines.map((line) => line.trimEnd()));
}

/** Elements in words are shown, not read as HTML. */
function escaped(words: string): string {
  return words.replaceAll('<', '\\<').replaceAll('{', '\\{');
}
