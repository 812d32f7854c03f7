import { classStart, placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { SOUND_SHOP } from '../sample.ts';

/** The sound class and one a week later; one of them presupposes the other. */
const pair = (first: string, second: string) => {
  const text = SOUND_SHOP['classes/saturday.yaml'] ?? '';
  const dated = (date: string, more: string) => text.replace(/^date: .*\n/m, `date: ${date}\n${more}`);
  return {
    files: { 'classes/saturday.yaml': dated('2026-12-05', first), 'classes/second.yaml': dated('2026-12-12', second) },
  };
};

export default rule({
  id: 'class-presupposes',
  severity: 'error',
  why: 'The second Saturday builds on the first, so it cannot come before it.',
  bad: pair('presupposes: [second]\n', ''),
  says: '3:15 presupposes second, which is not before it but on 2026-12-12',
  good: pair('', 'presupposes: [saturday]\n'),

  *around({ classes, broken }) {
    for (const shopClass of classes)
      for (const [index, id] of (shopClass.presupposes ?? []).entries()) {
        if (broken.has(id)) continue;
        const place = placeOf(shopClass, 'presupposes', index);
        const other = classes.find((each) => each.id === id);
        if (!other)
          yield {
            place,
            message: `presupposes "${id}", which is no class`,
            help: didYouMean(
              id,
              classes.map((each) => each.id),
            ),
          };
        else if (classStart(other) >= classStart(shopClass))
          yield {
            place,
            message: `presupposes ${id}, which is not before it but on ${other.date}`,
            help: 'give one of them another day, or take the id out of presupposes',
            see: { place: placeOf(other, 'date'), note: 'the class that it presupposes' },
          };
      }
  },
});
