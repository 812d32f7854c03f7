import { toolsUsed } from '../../programme/index.ts';
import { rule } from '../rule.ts';
import { lesson, SOUND } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';
import { torquesOf } from './torques-of.ts';
import { isUnnamedWrench, wrenchesOf } from './wrenches.ts';

export default rule({
  id: 'torque-without-wrench',
  severity: 'error',
  why: 'A torque that is not measured is a guess, and the bolt will be loose or overstretched.',
  bad: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\nTo <Spec of="axle-nut" />.'),
  says: '11:10 "Tighten" tightens to axle-nut, but uses no torque wrench',
  good: SOUND,

  *lesson(shop) {
    if (shop.broken.has('kit.yaml')) return;
    for (const { lesson, step } of stepsOf(shop)) {
      if (wrenchesOf(shop.kit, step).length > 0 || step.uses.some(({ id }) => shop.broken.has(id))) continue;
      // That a wrench is not known as one is told where the kit names it.
      if (toolsUsed(shop.kit, step).some(({ tool }) => isUnnamedWrench(tool))) continue;
      for (const { spec, measured, place } of step.cites) {
        if (measured) continue;
        if (rowsOf(shop, lesson, spec).some(({ quantity }) => torquesOf(quantity).length > 0))
          yield {
            place,
            message: `"${step.title}" tightens to ${spec}, but uses no torque wrench`,
            help: 'add <Uses tool="…" /> with a torque wrench of the kit',
          };
      }
    }
  },
});
