import { disagrees, estimateOf, everythingTook } from '../../fit/index.ts';
import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';

const actual = (minutes: number) => ({
  files: { 'classes/saturday.actual.yaml': `date: 2026-12-05\nblocks:\n  - {id: welcome, minutes: ${minutes}}\n` },
});

export default rule({
  id: 'class-estimate-disagrees',
  severity: 'info',
  why: 'The next class will be late by the same minutes.',
  bad: actual(14),
  says: '3:28 "welcome" took 14 min where 5 min were expected',
  good: actual(6),

  *check(shop) {
    for (const { actual, shopClass, block, treatment, seconds, index } of everythingTook(shop)) {
      const written = estimateOf(shopClass, block, treatment);
      if (!written || !disagrees(written.estimate, [seconds])) continue;
      const minutes = (s: number) => `${Math.round(s / 60)} min`;
      yield {
        place: placeOf(actual, 'blocks', index, 'minutes'),
        message: `"${block}" took ${minutes(seconds)}${written.stations ? ' a rotation' : ''} where ${minutes(written.mean)} were expected`,
        help: `liftside fit of the next class with a block "${block}" offers an estimate that counts it in`,
        see: { place: placeOf(shopClass, ...written.path), note: 'the estimate' },
      };
    }
  },
});
