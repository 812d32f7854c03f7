import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { SOUND_SHOP } from '../sample.ts';
import { atOnce, sharedBy } from './classes-at-once.ts';

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
    for (const [shopClass, other] of atOnce(classes)) {
      const shared = sharedBy(shopClass, other);
      if (shared.length > 0)
        yield {
          place: placeOf(shopClass, 'date'),
          message: `takes place while ${other.id} does, ${shared.join(' and ')}`,
          help: 'give one of them another day or hour, another place, or other people',
          see: { place: placeOf(other, 'date'), note: 'the other class' },
        };
    }
  },
});
