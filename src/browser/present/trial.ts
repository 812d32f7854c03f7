import type { WhatIf } from '../../core/fit/index.ts';

/** Changes to try on a class, as the command line takes them; every list is there. */
export type Trial = WhatIf & Required<Pick<WhatIf, 'without' | 'with' | 'at'>>;

/** The part of a form's name that says which of its fields it is: `way look`, `at soup`. */
const FIELD = /^(way|at) (.+)$/;
/** Choice of a block that is left out. */
export const LEFT_OUT = '-';

/** What a filled form asks to be tried; empty fields ask for nothing. */
export function trialOf(fields: Iterable<readonly [string, unknown]>): Trial {
  const trial = { without: [] as string[], with: [] as string[], at: [] as string[] };
  const numbers: { attendees?: string; slot?: string } = {};
  for (const [name, value] of fields) {
    const text = typeof value === 'string' ? value.trim() : '';
    if (text === '') continue;
    if (name === 'attendees' || name === 'slot') numbers[name] = text;
    const [, field, block = ''] = FIELD.exec(name) ?? [];
    if (field === 'at') trial.at.push(`${block}=${text}`);
    if (field === 'way' && text === LEFT_OUT) trial.without.push(block);
    else if (field === 'way') trial.with.push(`${block}=${text}`);
  }
  return { ...numbers, ...trial };
}

/** The same as words of the command line. */
export function trialCommand(id: string, { attendees, slot, ...lists }: Trial): string {
  return [
    `liftside fit ${id}`,
    ...(attendees === undefined ? [] : [`--attendees ${attendees}`]),
    ...(slot === undefined ? [] : [`--slot ${slot}`]),
    ...lists.without.map((block) => `--without ${block}`),
    ...lists.with.map((pair) => `--with ${pair}`),
    ...lists.at.map((pair) => `--at ${pair}`),
  ].join(' ');
}
