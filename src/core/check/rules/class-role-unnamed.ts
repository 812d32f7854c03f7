import { placeOf } from '../../model/index.ts';
import { listWords } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { SOUND_SHOP } from '../sample.ts';
import { atOnce, plain, sharedBy } from './classes-at-once.ts';

const second = (name: string) => {
  const text = SOUND_SHOP['classes/saturday.yaml'] ?? '';
  const at = (place: string, person: string) =>
    text.replace('starts: "10:00"\n', `starts: "10:00"\nplace: ${place}\npeople: [{role: instructor${person}}]\n`);
  return {
    files: { 'classes/saturday.yaml': at('Bay 1', ''), 'classes/second.yaml': at('Bay 2', name) },
  };
};

export default rule({
  id: 'class-role-unnamed',
  severity: 'warning',
  why: 'One person stands in one room, and of two without a name nobody can say that they are two.',
  bad: second(''),
  says: '2:7 takes place while saturday does, and neither says who its instructor is',
  good: second(', name: Ada'),

  *around({ classes }) {
    for (const [shopClass, other] of atOnce(classes)) {
      // They clash as it is.
      if (sharedBy(shopClass, other).length > 0) continue;
      const unnamed = ({ people = [] }: typeof other) => people.filter(({ name }) => name === undefined);
      const there = new Set(unnamed(other).map(({ role }) => plain(role)));
      const both = unnamed(shopClass).flatMap(({ role }) => (there.has(plain(role)) ? [role] : []));
      if (both.length > 0)
        yield {
          place: placeOf(shopClass, 'date'),
          message: `takes place while ${other.id} does, and neither says who its ${listWords([...new Set(both)])} is`,
          help: 'give them names under people:, or one of the classes another day or hour',
          see: { place: placeOf(other, 'date'), note: 'the other class' },
        };
    }
  },
});
