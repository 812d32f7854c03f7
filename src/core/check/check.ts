import type { Diagnostic, Severity, Shop } from '../model/index.ts';
import { findingsAround, findingsOfLessons, findingsOfMachines, findingsOfRecordings } from './kept-findings.ts';
import { oneForOneCause, type Raw, rawOf } from './one-cause.ts';
import type { CheckContext, Rule } from './rule.ts';
import { RULES } from './rules/index.ts';

/**
 * Every rule over a shop; the diagnostics of reading it come first into the same order.
 *
 * @returns sorted by file, line, column, rule
 */
export function check(
  shop: Shop,
  fromReading: readonly Diagnostic[],
  context: CheckContext,
  rules: readonly Rule[] = RULES,
): Diagnostic[] {
  const found = [
    ...findingsOfRecordings(shop, context.speech, rules),
    ...findingsOfLessons(shop, rules),
    ...findingsOfMachines(shop, rules),
    ...findingsAround(shop, context.today, rules),
  ];
  return allTold(shop, [...fromReading, ...found], context, rules);
}

/**
 * What is found in lessons, recordings and machines, each by itself, with what the rules find in the whole shop.
 *
 * @param found what reading told, and what was found in each lesson, recording and machine by itself
 */
export function allTold(
  shop: Shop,
  found: readonly Raw[],
  context: CheckContext,
  rules: readonly Rule[] = RULES,
): Diagnostic[] {
  const between = rules.flatMap((rule) => rawOf(rule, rule.check?.(shop, context) ?? []));
  const all = [...found, ...between];
  return oneForOneCause(shop, onceEach(all.toSorted(inOrder))).toSorted(inOrder);
}

/** Without what several lessons tell of one thing that they share, in order. */
function onceEach(found: readonly Raw[]): Raw[] {
  return found.filter((each, index) => {
    const before = found[index - 1];
    return (
      !before ||
      inOrder(before, each) !== 0 ||
      before.help !== each.help ||
      before.place.end.offset !== each.place.end.offset
    );
  });
}

function inOrder(a: Diagnostic, b: Diagnostic): number {
  return (
    compare(a.place.file, b.place.file) ||
    a.place.start.offset - b.place.start.offset ||
    compare(a.rule, b.rule) ||
    compare(a.message, b.message)
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** How many of each severity. */
export function count(diagnostics: readonly Diagnostic[]): Record<Severity, number> {
  const counts = { error: 0, warning: 0, info: 0 };
  for (const { severity } of diagnostics) counts[severity]++;
  return counts;
}
