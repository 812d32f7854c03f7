import type { Fix, Place } from '../model/index.ts';
import { nearest } from '../read/index.ts';
import { printClockTime, TICKS_PER_SECOND, type Ticks } from '../time/index.ts';

/**
 * The remedy where a name is mistyped: the nearest name there is; nothing where none is near. Nobody but a person can
 * know that it is the one meant.
 *
 * @param place what is replaced
 * @param write how the name stands there, such as `of="…"`
 */
export function nameFix(
  wanted: string,
  known: Iterable<string>,
  place: Place,
  write: (id: string) => string = (id) => id,
): { readonly fix?: Fix } {
  const [close] = nearest(wanted, [...known]);
  if (close === undefined) return {};
  return { fix: { title: `write "${close}"`, sure: false, edits: [{ place, text: write(close) }] } };
}

/** A start as it is written: to the millisecond, never before the frame it means. */
export function startText(at: Ticks<'recording'>): string {
  const millisecond = TICKS_PER_SECOND / 1000;
  return printClockTime(Math.ceil(at / millisecond) * millisecond);
}
