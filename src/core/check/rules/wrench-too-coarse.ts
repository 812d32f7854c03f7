import { placeOf } from '../../model/index.ts';
import { writtenAmount } from '../../spec/index.ts';
import { MARK_SHARE } from '../likely.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';
import { torquesOf } from './torques-of.ts';
import { holdsRange, settingRange, torqueRange, wrenchesOf } from './wrenches.ts';

const resolution = (mark: number) =>
  replaceIn('kit.yaml', 'resolution: {nominal: 1, unit: N·m}', `resolution: {nominal: ${mark}, unit: N·m}`);

export default rule({
  id: 'wrench-too-coarse',
  severity: 'warning',
  why: 'Where one mark of the scale is a large part of the tolerance, nobody can set the wrench to the middle of it.',
  bad: resolution(2),
  says: '17:75 the marks of Torque wrench, large are 2 N·m apart, and axle-nut is 98 ± 5 N·m: a tenth of that band is 1 N·m',
  good: resolution(1),

  *lesson(shop) {
    for (const { lesson, step } of stepsOf(shop)) {
      const wrenches = wrenchesOf(shop.kit, step);
      for (const { spec, measured, place } of step.cites) {
        if (measured) continue;
        for (const { quantity, origin } of rowsOf(shop, lesson, spec))
          for (const amount of torquesOf(quantity)) {
            if (amount.min === undefined || amount.max === undefined) continue;
            const span = torqueRange(amount);
            // A wrench that cannot be set there at all does not make up for one that is too coarse.
            const fitting = wrenches.filter((wrench) => holdsRange(wrench, span));
            const judged = fitting.map((wrench) => {
              const { low, high } = settingRange(wrench, span);
              // A rule of thumb is no sharper than one figure.
              return { wrench, wanted: Number(((high - low) * MARK_SHARE).toPrecision(1)) };
            });
            // One wrench that is fine enough, or whose marks nobody has written down, will do.
            if (judged.some(({ wrench: { mark }, wanted }) => mark === undefined || mark <= wanted * (1 + 1e-9)))
              continue;
            const [finest] = judged.toSorted((a, b) => (a.wrench.mark ?? 0) - (b.wrench.mark ?? 0));
            if (finest?.wrench.mark === undefined) continue;
            const { title, mark, lengthened } = finest.wrench;
            yield {
              place,
              builtOn: [origin.place, ...wrenches.map(({ id }) => placeOf(shop.kit, 'tools', id))],
              message: `the marks of ${title} are ${round(mark)} N·m apart, and ${spec} is ${writtenAmount(amount, 'torque')}: a tenth of that band is ${round(finest.wanted)} N·m${lengthened ? ` with ${lengthened.adapter} in line` : ''}`,
              help: 'use a wrench with finer marks',
            };
          }
      }
    }
  },
});

function round(value: number): string {
  return String(Math.round(value * 100) / 100);
}
