import { disagrees, estimateOf, everythingTook, type PartLookup, partLookup, toPlan } from '../../fit/index.ts';
import { placeOf, type ShopClass } from '../../model/index.ts';
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
    const parts = partLookup(shop);
    for (const { actual, shopClass, block, treatment, seconds, index } of everythingTook(shop)) {
      const written = estimateOf(shopClass, block, treatment);
      if (!written) {
        const told = onScreen(shopClass, block, treatment, seconds, parts);
        if (told) yield { ...told, place: placeOf(actual, 'blocks', index, 'minutes') };
        continue;
      }
      if (!disagrees(written.estimate, [seconds])) continue;
      const minutes = (s: number) => `${Math.round(s / 60)} min`;
      yield {
        place: placeOf(actual, 'blocks', index, 'minutes'),
        message: `"${block}" took ${minutes(seconds)}${written.stations ? ' a turn' : ''} where ${minutes(written.mean)} were expected`,
        help: `liftside fit of the next class with a block "${block}" offers an estimate that counts it in`,
        see: { place: placeOf(shopClass, ...written.path), note: 'the estimate' },
      };
    }
  },
});

/** A film lasts what it lasts; talk around it is nothing to tell, unless it is more than half as much again. */
const TALK_SHARE = 0.5;
const TALK_SECONDS = 5 * 60;

function onScreen(shopClass: ShopClass, block: string, treatment: string, seconds: number, parts: PartLookup) {
  const { plan } = toPlan(shopClass, parts);
  const planned = plan.blocks.find(({ id }) => id === block)?.treatments.find(({ id }) => id === treatment)?.seconds;
  if (planned === undefined || Math.abs(seconds - planned) <= Math.max(TALK_SECONDS, TALK_SHARE * planned))
    return undefined;
  const minutes = (s: number) => `${Math.round(s / 60)} min`;
  return {
    message: `"${block}" took ${minutes(seconds)} where what it shows, with its talks, takes ${minutes(planned)}`,
    help: `correct the minutes, or give "${block}" a treatment with minutes: of its own, or more time to its talks`,
  };
}
