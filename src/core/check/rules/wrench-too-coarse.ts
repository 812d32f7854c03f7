import { convert, readAmount } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { changed } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';
import { torquesOf } from './torques-of.ts';

const resolution = (mark: number) =>
  changed(
    'kit.yaml',
    'max: 200, unit: N·m}\n',
    `max: 200, unit: N·m}\n    resolution: {nominal: ${mark}, unit: N·m}\n`,
  );

export default rule({
  id: 'wrench-too-coarse',
  severity: 'warning',
  why: 'Where one mark of the scale is more than the tolerance, the wrench cannot be set inside it.',
  bad: resolution(10),
  says: '17:75 the marks of Torque wrench, large are 10 N·m apart, axle-nut allows 5 N·m to one side',
  good: resolution(5),

  *check(shop) {
    for (const { lesson, step } of stepsOf(shop)) {
      const wrenches = step.uses.flatMap(({ group, id }) => {
        const tool = group === 'tool' ? shop.kit.tools?.[id] : undefined;
        if (tool?.kind !== 'torque-wrench') return [];
        const mark = tool.resolution && readAmount(tool.resolution, 'torque', []).amount;
        return [
          {
            title: tool.title,
            mark: mark?.nominal === undefined ? undefined : convert(mark.nominal, 'torque', mark.unit, 'N·m'),
          },
        ];
      });
      // One wrench that is fine enough, or whose marks nobody has written down, will do.
      if (wrenches.length === 0 || wrenches.some(({ mark }) => mark === undefined)) continue;
      const finest = wrenches.toSorted((a, b) => (a.mark ?? 0) - (b.mark ?? 0))[0];
      for (const { spec, measured, place } of step.cites) {
        if (measured || finest?.mark === undefined) continue;
        for (const { quantity } of rowsOf(shop, lesson, spec))
          for (const { min, max, unit } of torquesOf(quantity)) {
            if (min === undefined || max === undefined) continue;
            const half = convert((max - min) / 2, 'torque', unit, 'N·m');
            if (finest.mark <= half + 1e-9) continue;
            yield {
              place,
              message: `the marks of ${finest.title} are ${round(finest.mark)} N·m apart, ${spec} allows ${round(half)} N·m to one side`,
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
