import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
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

  *check({ lessons, kit, machines, classes, broken }) {
    if (broken.has('kit.yaml')) return;
    for (const lesson of lessons)
      for (const { uses } of passagesOf(lesson))
        for (const { group, id, place } of uses) {
          const ids = kitIds(kit, group);
          if (!ids.includes(id) && !broken.has(id))
            yield {
              place,
              message: `no ${group} "${id}" in the kit`,
              help: didYouMean(id, ids, `list it in kit.yaml`),
            };
        }
    for (const shopClass of classes)
      for (const [index, { kit: needs = [] }] of shopClass.blocks.entries())
        for (const [at, use] of needs.entries())
          for (const group of ['tool', 'part', 'supply', 'protective'] as const) {
            const id = use[group];
            const ids = kitIds(kit, group);
            if (id !== undefined && !ids.includes(id) && !broken.has(id))
              yield {
                place: placeOf(shopClass, 'blocks', index, 'kit', at, group),
                message: `no ${group} "${id}" in the kit`,
                help: didYouMean(id, ids, `list it in kit.yaml`),
              };
          }
    const parts = kitIds(kit, 'part');
    for (const { specs } of machines)
      for (const spec of specs) {
        const { part } = spec.written;
        if (part !== undefined && !parts.includes(part) && !broken.has(part))
          yield {
            place: placeOf(spec, 'part'),
            message: `no part "${part}" in the kit`,
            help: didYouMean(part, parts, 'list it in kit.yaml'),
          };
      }
  },
});
