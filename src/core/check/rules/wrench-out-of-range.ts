import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';
import { torquesOf } from './torques-of.ts';
import {
  holdsRange,
  settingRange,
  type TorqueRange,
  tenth,
  torqueInWords,
  torqueRange,
  type Wrench,
  wrenchesOf,
} from './wrenches.ts';

export default rule({
  id: 'wrench-out-of-range',
  severity: 'error',
  why: 'Outside its scale a torque wrench clicks at another torque, or never.',
  bad: replaceIn('kit.yaml', 'min: 40, max: 200', 'min: 5, max: 60'),
  says: '17:75 axle-nut needs 93 to 103 N·m, but the scale of Torque wrench, large goes from 5 to 60 N·m',
  good: SOUND,

  *lesson(shop) {
    for (const { lesson, step } of stepsOf(shop)) {
      const wrenches = wrenchesOf(shop.kit, step);
      if (wrenches.length === 0) continue;
      for (const { spec, measured, place } of step.cites) {
        if (measured) continue;
        for (const { quantity, origin } of rowsOf(shop, lesson, spec))
          for (const amount of torquesOf(quantity)) {
            const span = torqueRange(amount);
            if (wrenches.some((wrench) => holdsRange(wrench, span))) continue;
            yield {
              place,
              builtOn: [origin.place, ...wrenches.map(({ id }) => placeOf(shop.kit, 'tools', id))],
              message: `${spec} needs ${torqueInWords(span)}, but ${wrenches.map((wrench) => scaleInWords(wrench, span)).join(', ')}`,
              help: 'use a wrench whose scale holds the whole tolerance',
            };
          }
      }
    }
  },
});

function scaleInWords(wrench: Wrench, span: TorqueRange): string {
  const { title, lengthened, scale = { min: 0, max: 0 } } = wrench;
  const goes = `the scale of ${title} goes from ${tenth(scale.min)} to ${tenth(scale.max)} N·m`;
  return lengthened
    ? `with ${lengthened.adapter} in line that is a setting of ${torqueInWords(settingRange(wrench, span))}, and ${goes}`
    : goes;
}
