import {
  FAR_FROM_NEIGHBOUR,
  LIMITS_APART,
  TOLERANCE_UNLIKE,
  TOLERANCE_WIDE,
  TORQUE_TIGHT,
} from '../../../src/core/check/index.ts';
import {
  kindInWords,
  SIMPLE_KINDS,
  type SimpleKind,
  spanInWords,
  USUAL,
  type Usual,
} from '../../../src/core/spec/index.ts';

/** The page that lists what is told as unlikely, made from the table and the factors that the rules compare with. */
export function usualPage(): string {
  return [
    '# What is told as unlikely',
    '',
    'Made by `npm run docs` from the numbers that the rules compare with. Outside of them a value gets a warning: it has likely a',
    'slipped point or another unit, and the source decides. Inside of them nothing is said, and nothing is approved.',
    'All of them are common practice, no source, but for the last line of the first table and the boiling points of fluids (49 CFR 571.116, S5.1.2).',
    '',
    '| compared | told from |',
    '| --- | --- |',
    `| a value with its former values, the rows of its id above it, and one on the same fastener ([magnitude-unlikely](rules.md#magnitude-unlikely)) | ${FAR_FROM_NEIGHBOUR} times it, or 1/${FAR_FROM_NEIGHBOUR} of it |`,
    `| the width of a tolerance with the same ([tolerance-unlikely](rules.md#tolerance-unlikely)) | ${TOLERANCE_UNLIKE} times it, or 1/${TOLERANCE_UNLIKE} of it |`,
    `| a tolerance to one side with its value | ${TOLERANCE_WIDE * 100} % of it |`,
    `| the upper limit with the lower, where there is no value between | ${LIMITS_APART} times |`,
    `| the tolerance of a torque with its value | under ${TORQUE_TIGHT * 100} %: ISO 6789-1 lets a hand torque tool above 10 N·m be off by twice that |`,
    '',
    'What a thing usually measures ([value-unlikely](rules.md#value-unlikely)). The first line whose words all stand in the title or',
    'the id of the row counts; the line without words is for every other row of the kind.',
    '',
    '| kind | words | from … to |',
    '| --- | --- | --- |',
    ...SIMPLE_KINDS.flatMap(linesOf),
    '',
    `Of ${list(SIMPLE_KINDS.filter((kind) => linesOf(kind).length === 0))} nothing is compared so. Of a time only intervals are: how long a thing takes has no usual span.`,
    '',
  ].join('\n');
}

function linesOf(kind: SimpleKind): string[] {
  return USUAL.filter(({ of }) => of === kind).map(
    (usual: Usual) => `| ${kindInWords(kind)} | ${usual.words ?? ''} | ${spanInWords(usual)} |`,
  );
}

function list(kinds: readonly SimpleKind[]): string {
  return kinds
    .map(kindInWords)
    .join(', ')
    .replace(/, ([^,]*)$/, ' and $1');
}
