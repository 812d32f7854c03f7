import { secondsOfDay } from '../../fit/index.ts';
import type { ShopClass } from '../../model/index.ts';
import { listWords } from '../../read/index.ts';

/** Every two classes that take place at one time, the later of the list first. */
export function* atOnce(classes: readonly ShopClass[]): Generator<readonly [ShopClass, ShopClass]> {
  for (const [index, shopClass] of classes.entries())
    for (const other of classes.slice(0, index)) if (overlap(shopClass, other)) yield [shopClass, other];
}

function overlap(a: ShopClass, b: ShopClass): boolean {
  const [one, two] = [secondsTaken(a), secondsTaken(b)];
  return one.start < two.end && two.start < one.end;
}

/** The slot of a class in seconds of the shop's own clock, counted from the first day of 1970; half-open. */
function secondsTaken({ date, starts, slot }: ShopClass): { readonly start: number; readonly end: number } {
  const start = Date.parse(`${date}T00:00:00Z`) / 1000 + secondsOfDay(starts);
  return { start, end: start + secondsOfDay(slot) };
}

/** What two classes share that cannot be shared: the room; where neither names one, it is the shop. And people by name. */
export function sharedBy(a: ShopClass, b: ShopClass): string[] {
  const room = plain(a.place) === plain(b.place);
  const others = new Set((b.people ?? []).map(({ name }) => plain(name)));
  const both = (a.people ?? []).flatMap(({ name }) => (name !== undefined && others.has(plain(name)) ? [name] : []));
  return [
    ...(room ? [a.place === undefined ? 'and neither says where' : 'in the same room'] : []),
    ...(both.length > 0 ? [`with ${listWords([...new Set(both)])} in both`] : []),
  ];
}

/** Names as they are compared. */
export function plain(words: string | undefined): string {
  return (words ?? '').toLowerCase().replace(/\s+/g, ' ').trim();
}
