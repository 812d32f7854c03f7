import type { Shop } from '../../model/index.ts';
import { didYouMean, slug } from '../../read/index.ts';
import { nameFix } from '../remedy.ts';
import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { machineOf, passagesOf } from './find.ts';

export default rule({
  id: 'spec-unknown',
  severity: 'error',
  why: 'The page would show no value, and someone would guess one.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\nIt takes <Spec of="axel-nut" />.'),
  says: '11:16 no spec "axel-nut" for tarn-420',
  good: SOUND,

  *lesson(shop) {
    for (const lesson of shop.lessons) {
      const machine = machineOf(shop, lesson);
      if (!machine) continue;
      const ids = machine.specs.map(({ id }) => id);
      for (const { cites } of passagesOf(lesson))
        for (const { spec, place } of cites) {
          if (ids.includes(spec) || isBroken(shop, spec)) continue;
          yield {
            place,
            message: `no spec "${spec}" for ${machine.id}`,
            help: didYouMean(spec, ids),
            ...nameFix(spec, ids, place, (id) => `of="${id}"`),
          };
        }
    }
  },
});

/** True for a row that stands in a table but could not be read, also where its id itself is what was wrong. */
function isBroken({ broken }: Pick<Shop, 'broken'>, id: string): boolean {
  return broken.has(id) || [...broken].some((name) => slug(name) === id);
}
