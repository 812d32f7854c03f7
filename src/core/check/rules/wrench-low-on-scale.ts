import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';
import { torquesOf } from './torques-of.ts';
import { holdsRange, settingRange, tenth, torqueRange, wrenchesOf } from './wrenches.ts';

export default rule({
  id: 'wrench-low-on-scale',
  severity: 'warning',
  why: 'Torque wrenches are tested from 20 % of their maximum (ISO 6789); below, nobody promises what they click at.',
  bad: replaceIn('kit.yaml', 'min: 40, max: 200', 'min: 40, max: 500'),
  says: '17:75 axle-nut needs 93 N·m at least, and Torque wrench, large is accurate only above 100 N·m',
  good: SOUND,

  *lesson(shop) {
    for (const { lesson, step } of stepsOf(shop)) {
      const wrenches = wrenchesOf(shop.kit, step);
      for (const { spec, measured, place } of step.cites) {
        if (measured) continue;
        for (const { quantity, origin } of rowsOf(shop, lesson, spec))
          for (const amount of torquesOf(quantity)) {
            const span = torqueRange(amount);
            const [best] = wrenches
              .flatMap((wrench) =>
                wrench.scale && holdsRange(wrench, span) ? [{ wrench, from: wrench.scale.from }] : [],
              )
              .map((each) => ({ ...each, low: settingRange(each.wrench, span).low }))
              .toSorted((a, b) => a.from - a.low - (b.from - b.low));
            if (!best || best.from <= best.low + 1e-9) continue;
            const { title, lengthened } = best.wrench;
            const set = lengthened ? `, a setting of ${tenth(best.low)} N·m with ${lengthened.adapter} in line` : '';
            yield {
              place,
              builtOn: [origin.place, placeOf(shop.kit, 'tools', best.wrench.id)],
              message: `${spec} needs ${tenth(span.low)} N·m at least${set}, and ${title} is accurate only above ${tenth(best.from)} N·m`,
              help: 'use a smaller wrench, so that the torque lies between 20 % and 100 % of its maximum',
            };
          }
      }
    }
  },
});
