import { type KitGroup, type Place, placeOf, type Shop } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { nameFix } from '../remedy.ts';
import { type Finding, rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { kitIds, passagesOf } from './find.ts';

export default rule({
  id: 'kit-unknown',
  severity: 'error',
  why: 'What the kit does not list will not be on the table on Saturday.',
  bad: lesson(
    '## Wheel\n<Cue at="0:00:20" />\n\n### Crack\n<Cue at="0:00:30" />\n<Uses tool="braker-bar" /> Crack it.',
  ),
  says: '11:7 no tool "braker-bar" in the kit',
  good: SOUND,

  *lesson(one) {
    for (const lesson of one.lessons)
      for (const { uses } of passagesOf(lesson))
        for (const { group, id, place } of uses)
          yield* unlessListed(one, group, id, place, (near) => `${group}="${near}"`);
  },

  *check(shop) {
    for (const shopClass of shop.classes)
      for (const [index, { kit: needs = [] }] of shopClass.blocks.entries())
        for (const [at, use] of needs.entries())
          for (const group of ['tool', 'part', 'supply', 'protective'] as const) {
            const id = use[group];
            if (id !== undefined)
              yield* unlessListed(shop, group, id, placeOf(shopClass, 'blocks', index, 'kit', at, group));
          }
    for (const { specs } of shop.machines)
      for (const spec of specs) {
        const { part } = spec.written;
        if (part !== undefined) yield* unlessListed(shop, 'part', part, placeOf(spec, 'part'));
      }
  },
});

function* unlessListed(
  { kit, broken }: Pick<Shop, 'kit' | 'broken'>,
  group: KitGroup,
  id: string,
  place: Place,
  write?: (id: string) => string,
): Generator<Finding> {
  if (broken.has('kit.yaml')) return;
  const ids = kitIds(kit, group);
  if (!ids.includes(id) && !broken.has(id))
    yield {
      place,
      message: `no ${group} "${id}" in the kit`,
      help: didYouMean(id, ids, 'list it in kit.yaml'),
      ...nameFix(id, ids, place, write),
    };
}
