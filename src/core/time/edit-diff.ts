import { printClockTime } from './clock-time.ts';
import { within, without } from './edit-algebra.ts';
import { type EditList, runtime } from './edit-list.ts';
import type { Range } from './ticks.ts';

/** A part of the recording that has a name, such as a chapter or a step. */
export interface NamedPart {
  /** As it is spoken of: `chapter 2`, `step "Crack the axle nut"`. */
  readonly name: string;
  readonly at: Range<'recording'>;
}

/**
 * The change in words, one line for each part it touched, and one for the whole.
 *
 *     chapter 2 lost 1:12
 *     step "Crack the axle nut" is now cut off 3 s early
 *     the programme is 1:12 shorter: 42:10, was 43:22
 *
 * @param parts in the order they are to be told; those that keep their time are left out
 * @returns no lines when nothing changed
 */
export function diffInWords(before: EditList, after: EditList, parts: readonly NamedPart[]): string[] {
  if (without(before, after).length === 0 && without(after, before).length === 0) return [];
  return [...parts.flatMap((part) => partInWords(part, before, after)), wholeInWords(before, after)];
}

function partInWords({ name, at }: NamedPart, before: EditList, after: EditList): string[] {
  const had = within(before, at);
  const has = within(after, at);
  const lost = runtime(without(had, has));
  const gained = runtime(without(has, had));
  if (lost === 0 && gained === 0) return [];
  if (has.length === 0) return [`${name} is now cut out whole (${span(lost)})`];
  if (had.length === 0) return [`${name} is back (${span(gained)})`];
  const edges = [
    ...edge(`${name} now starts`, (has[0]?.start ?? 0) - (had[0]?.start ?? 0), 'late', 'early'),
    ...edge(`${name} is now cut off`, (had.at(-1)?.end ?? 0) - (has.at(-1)?.end ?? 0), 'early', 'late'),
  ];
  const explained = edges.length === 1 && edges[0]?.size === lost + gained;
  if (explained) return edges.map(({ words }) => words);
  const sums = [...(lost > 0 ? [`lost ${span(lost)}`] : []), ...(gained > 0 ? [`gained ${span(gained)}`] : [])];
  return [`${name} ${sums.join(' and ')}`, ...edges.map(({ words }) => words)];
}

function edge(start: string, by: number, later: string, earlier: string): { words: string; size: number }[] {
  if (by === 0) return [];
  return [{ words: `${start} ${span(Math.abs(by))} ${by > 0 ? later : earlier}`, size: Math.abs(by) }];
}

function wholeInWords(before: EditList, after: EditList): string {
  const by = runtime(after) - runtime(before);
  const length = printClockTime(runtime(after));
  if (by === 0) return `the programme is as long as before: ${length}`;
  const change = by > 0 ? 'longer' : 'shorter';
  return `the programme is ${span(Math.abs(by))} ${change}: ${length}, was ${printClockTime(runtime(before))}`;
}

/** A length in words: `3 s`, `0.04 s`, `1:12`, `1:02:03`. */
function span(length: number): string {
  const clock = printClockTime(length);
  const [hours = '0', minutes = '00', seconds = '00'] = clock.split(':');
  if (Number(hours) > 0) return clock;
  if (Number(minutes) > 0) return `${Number(minutes)}:${seconds}`;
  return `${Number(seconds)} s`;
}
