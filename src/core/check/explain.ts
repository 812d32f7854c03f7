import { structuredPatch } from 'diff';
import type { Severity } from '../model/index.ts';
import { readShop } from '../read/index.ts';
import { check } from './check.ts';
import { READ_FAULTS, type ReadFault } from './read-faults.ts';
import type { Rule } from './rule.ts';
import { RULES } from './rules/index.ts';
import { lesson, SAMPLE_TODAY, type Sample, SOUND_SHOP, sampleContent } from './sample.ts';

/** One file of an example, as far as wrong and right differ: the lines of each. */
export interface Contrast {
  readonly file: string;
  readonly wrong: readonly string[];
  readonly right: readonly string[];
}

/** A rule in words: everything comes from the rule itself and from the examples its test runs. */
export interface Explained {
  readonly rule: string;
  readonly severity: Severity;
  /** What it tells of the wrong example. */
  readonly says: string;
  readonly why: string;
  /** What to do about it. */
  readonly help: string;
  readonly example: readonly Contrast[];
}

const [CLASS_ALONE] = Object.entries(lesson('').files).flatMap(([file, text]) =>
  file.startsWith('classes/') ? [text] : [],
);

/** Lines shown of each side at most; an example is a few lines, laid over a shop of a page. */
const MOST_LINES = 14;

/** What can be told, by name in order. */
export const EXPLAINABLE: readonly string[] = [...RULES, ...READ_FAULTS].map(({ id }) => id).toSorted();

/** What a rule tells, why, what to do, and an example wrong and right; nothing where no rule has this name. */
export function explain(id: string): Explained | undefined {
  const rule = [...RULES, ...READ_FAULTS].find((each) => each.id === id);
  if (!rule) return undefined;
  const { texts, facts, unreadable } = sampleContent(rule.bad);
  const { shop, diagnostics } = readShop(texts, facts, unreadable);
  const [finding] = check(shop, diagnostics, { today: rule.bad.today ?? SAMPLE_TODAY }).filter(
    (each) => each.rule === id,
  );
  if (!finding) throw new RangeError(`the rule ${id} does not tell its own example`);
  return {
    rule: id,
    severity: rule.severity,
    says: finding.message,
    why: rule.why,
    help: finding.help,
    example: contrasts(rule),
  };
}

/** An explained rule as a person reads it on a terminal. */
export function explainText({ rule, severity, says, why, help, example }: Explained): string {
  const side = (word: string, file: string, lines: readonly string[]) => [
    `  ${word}  ${file}`,
    ...(lines.length === 0 ? ['         (nothing)'] : lines.map((line) => `         ${line}`.trimEnd())),
  ];
  return [
    `${rule}  ${severity}`,
    `  tells  ${says}`,
    `  why    ${why}`,
    `  help   ${help}`,
    ...example.flatMap(({ file, wrong, right }) => ['', ...side('wrong', file, wrong), ...side('right', file, right)]),
  ].join('\n');
}

function contrasts({ bad, good }: Rule | ReadFault): Contrast[] {
  const files = [...new Set([...Object.keys(bad.files), ...Object.keys(good.files), ...(bad.without ?? [])])];
  const lessons = files.some((file) => file.startsWith('lessons/'));
  const own = files.flatMap((file): Contrast[] => {
    const [wrong, right] = [textIn(bad, file), textIn(good, file)];
    if (wrong === right) return [];
    // A class that leaves the lesson out only keeps the rest sound.
    if (lessons && file.startsWith('classes/') && wrong === CLASS_ALONE) return [];
    if (wrong === undefined) return [{ file, wrong: ['the file is not there'], right: ['the file is there'] }];
    if (right === undefined || SOUND_SHOP[file] === undefined)
      return [{ file, wrong: linesOf(wrong), right: right === undefined ? [] : linesOf(right) }];
    return [changeOf(file, wrong, right)];
  });
  // A file that is named otherwise on the right side is not there to be measured.
  const rename = (file: string) =>
    own.some(({ wrong, right }) => `${wrong}`.includes(file) && !`${right}`.includes(file));
  return [...own, ...factsOf(bad, good).filter(({ file }) => !rename(file))];
}

function textIn({ files, without }: Sample, file: string): string | undefined {
  return without?.includes(file) ? undefined : (files[file] ?? SOUND_SHOP[file]);
}

function linesOf(text: string): string[] {
  return text.trimEnd().split('\n').slice(0, MOST_LINES);
}

function changeOf(file: string, wrong: string, right: string): Contrast {
  const { hunks } = structuredPatch(file, file, wrong, right, '', '', { context: 1 });
  const lines = hunks.flatMap((hunk) => hunk.lines.filter((line) => !line.startsWith('\\')));
  // Lessons that share little are shown whole, below their front matter.
  const bodies = [wrong, right].map((text) => /^---\n[\s\S]*?\n---\n([\s\S]*)$/.exec(text)?.[1]);
  const [wrongBody, rightBody] = bodies;
  if (wrongBody !== undefined && rightBody !== undefined && lines.filter((line) => line.startsWith('+')).length > 3)
    return { file, wrong: linesOf(wrongBody), right: linesOf(rightBody) };
  const side = (sign: string) =>
    lines
      .filter((line) => line.startsWith(' ') || line.startsWith(sign))
      .map((line) => line.slice(1))
      .slice(0, MOST_LINES);
  return { file, wrong: side('-'), right: side('+') };
}

/** What is no text: footage and the day. */
function factsOf(bad: Sample, good: Sample): Contrast[] {
  const about = (file: string, of: (sample: Sample) => string): Contrast[] =>
    of(bad) === of(good) ? [] : [{ file, wrong: [of(bad)], right: [of(good)] }];
  const media = [...Object.keys(bad.media ?? {}), ...Object.keys(bad.sound ?? {}), ...(bad.soundOnly ?? [])];
  return [
    ...[...new Set(media)].flatMap((file) => about(file, (sample) => mediaWords(sample, file))),
    ...Object.entries(bad.unreadable ?? {}).map(([file, reason]) => ({
      file,
      wrong: [reason],
      right: ['it can be read'],
    })),
    ...about('the day of the check', ({ today }) => today ?? SAMPLE_TODAY),
  ];
}

function mediaWords({ media, sound, soundOnly }: Sample, file: string): string {
  const seconds = media?.[file] ?? 600;
  if (seconds === 'missing') return 'the file is not there';
  const heard = sound?.[file];
  return [
    `${seconds} s long`,
    ...(heard === undefined ? [] : [`its sound ${heard} s`]),
    ...(soundOnly?.includes(file) ? ['without a picture'] : []),
  ].join(', ');
}
