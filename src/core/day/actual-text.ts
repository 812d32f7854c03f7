import { Document, isScalar, visit } from 'yaml';
import { clockOf } from './clock-of.ts';
import type { DaySheet } from './day-sheet.ts';
import type { DayState } from './day-state.ts';

/**
 * What a class took, as the text of its `.actual.yaml`; nothing before a block has ended.
 *
 * A block that ran beside another and ended with it says nothing about its own time, and is left out.
 *
 * @param date the day it took place, YYYY-MM-DD
 */
export function actualText(sheet: DaySheet, state: DayState, date: string): string | undefined {
  const beside = new Set(sheet.shopClass.blocks.flatMap(({ id, beside: other }) => (other === undefined ? [] : [id])));
  const blocks = Object.entries(state.times)
    .toSorted(([, a], [, b]) => a.start - b.start)
    .flatMap(([id, { start, end }]) =>
      end === undefined || beside.has(id)
        ? []
        : [
            {
              id,
              ...(state.given[id] === undefined ? {} : { treatment: state.given[id] }),
              minutes: Math.round((end - start) / 6) / 10,
              starts: clockOf(sheet, start),
              ends: clockOf(sheet, end),
            },
          ],
    );
  if (blocks.length === 0) return undefined;
  const { attendance } = state;
  const written = { date, ...(attendance === undefined ? {} : { attendees: attendance }), blocks };
  return `# Written on the day of the class, as it happened.\n${yamlText(written)}`;
}

/** YAML in which times of day stand in quotation marks: an older reader would take 10:06 for a number. */
export function yamlText(value: unknown): string {
  const document = new Document(value);
  visit(document, (_, node) => {
    if (isScalar(node) && typeof node.value === 'string' && /^\d+:\d+$/.test(node.value)) node.type = 'QUOTE_DOUBLE';
  });
  return document.toString({ lineWidth: 0 });
}
