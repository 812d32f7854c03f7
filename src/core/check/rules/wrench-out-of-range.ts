import { rule } from '../rule.ts';
import { changed, SOUND } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';
import { torquesOf } from './torques-of.ts';
import { torqueSpan, wrenchesOf } from './wrenches.ts';

export default rule({
  id: 'wrench-out-of-range',
  severity: 'error',
  why: 'Outside its scale a torque wrench clicks at another torque, or never.',
  bad: changed('kit.yaml', 'min: 40, max: 200', 'min: 5, max: 60'),
  says: '17:75 axle-nut needs 93 to 103 N·m, but the scale of Torque wrench, large goes from 5 to 60 N·m',
  good: SOUND,

  *check(shop) {
    for (const { lesson, step } of stepsOf(shop)) {
      const wrenches = wrenchesOf(shop.kit, step);
      const scales = wrenches.flatMap(({ title, scale }) => (scale ? [{ title, scale }] : []));
      if (wrenches.length === 0 || scales.length < wrenches.length) continue;
      for (const { spec, measured, place } of step.cites) {
        if (measured) continue;
        for (const { quantity } of rowsOf(shop, lesson, spec))
          for (const amount of torquesOf(quantity)) {
            const { low, high } = torqueSpan(amount);
            if (scales.some(({ scale }) => scale.min <= low && high <= scale.max)) continue;
            const said = scales.map(
              ({ title, scale }) => `the scale of ${title} goes from ${round(scale.min)} to ${round(scale.max)} N·m`,
            );
            yield {
              place,
              message: `${spec} needs ${low === high ? round(low) : `${round(low)} to ${round(high)}`} N·m, but ${said.join(', ')}`,
              help: 'use a wrench whose scale holds the whole tolerance',
            };
          }
      }
    }
  },
});

/** To a tenth, without a needless nought. */
function round(value: number): string {
  return String(Math.round(value * 10) / 10);
}
