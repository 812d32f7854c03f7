import type { Diagnostic, Severity, Shop } from '../model/index.ts';
import { oneForOneCause, type Raw } from './one-cause.ts';
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
  const found = rules.flatMap(({ id, severity, why, check: walk }) =>
    [...walk(shop, context)].map((finding): Raw => ({ rule: id, severity, why, ...finding })),
  );
  return oneForOneCause(shop, [...fromReading, ...found].toSorted(inOrder)).toSorted(inOrder);
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
