import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { both, replaceIn } from '../sample.ts';

const past = replaceIn('classes/saturday.yaml', '2026-12-05', '2026-11-21');

export default rule({
  id: 'class-date-past',
  severity: 'warning',
  why: 'A wrong year invites people to a day that is gone; and what a class took makes the next plan better.',
  bad: past,
  says: '2:7 2026-11-21 is past, and nothing says how the class went',
  good: both(past, {
    files: { 'classes/saturday.actual.yaml': 'date: 2026-11-21\nblocks:\n  - {id: welcome, minutes: 6}\n' },
  }),

  *around({ classes, actuals, broken }, today) {
    for (const shopClass of classes) {
      const { id, date } = shopClass;
      if (date >= today || actuals.some((actual) => actual.id === id) || broken.has(`${id}.actual`)) continue;
      yield {
        place: placeOf(shopClass, 'date'),
        message: `${date} is past, and nothing says how the class went`,
        help: `correct the date, or write what its blocks took in classes/${id}.actual.yaml`,
      };
    }
  },
});
