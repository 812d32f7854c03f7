import { secondsOfDay } from '../../fit/index.ts';
import { placeOf, type ShopClass } from '../../model/index.ts';
import { listWords } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { SOUND_SHOP } from '../sample.ts';

const second = (starts: string, place: string) => {
  const text = SOUND_SHOP['classes/saturday.yaml'] ?? '';
  const at = (clock: string, where: string) =>
    text.replace('starts: "10:00"\n', `starts: "${clock}"\nplace: ${where}\npeople: [{role: instructor, name: Ada}]\n`);
  return { files: { 'classes/saturday.yaml': at('10:00', 'Bay 1'), 'classes/second.yaml': at(starts, place) } };
};

export default rule({
  id: 'class-clash',
  severity: 'error',
  why: 'One room holds one class, and one person stands in one room.',
  bad: second('11:59', 'bay 1'),
  says: '2:7 takes place while saturday does, in the same room and with Ada in both',
  good: second('12:00', 'Bay 1'),

  *around({ classes }) {
    for (const [index, shopClass] of classes.entries())
      for (const other of classes.slice(0, index)) {
        const shared = sharedBy(shopClass, other);
        if (shared.length > 0 && overlap(shopClass, other))
          yield {
            place: placeOf(shopClass, 'date'),
            message: `takes place while ${other.id} does, ${shared.join(' and ')}`,
            help: 'give one of them another day or hour, another place, or other people',
            see: { place: placeOf(other, 'date'), note: 'the other class' },
          };
      }
  },
});

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
function sharedBy(a: ShopClass, b: ShopClass): string[] {
  const room = plain(a.place) === plain(b.place);
  const others = new Set((b.people ?? []).map(({ name }) => plain(name)));
  const both = (a.people ?? []).flatMap(({ name }) => (name !== undefined && others.has(plain(name)) ? [name] : []));
  return [
    ...(room ? [a.place === undefined ? 'and neither says where' : 'in the same room'] : []),
    ...(both.length > 0 ? [`with ${listWords([...new Set(both)])} in both`] : []),
  ];
}

function plain(words: string | undefined): string {
  return (words ?? '').toLowerCase().replace(/\s+/g, ' ').trim();
}
