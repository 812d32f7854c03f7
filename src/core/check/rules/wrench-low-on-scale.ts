import { convert, readAmount, usableRange } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { changed, SOUND } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';
import { torquesOf } from './torques-of.ts';
import { torqueSpan } from './wrenches.ts';

export default rule({
  id: 'wrench-low-on-scale',
  severity: 'warning',
  why: 'Torque wrenches are tested from 20 % of their maximum (ISO 6789); below, nobody promises what they click at.',
  bad: changed('kit.yaml', 'min: 40, max: 200', 'min: 40, max: 500'),
  says: '17:75 axle-nut needs 93 N·m at least, and Torque wrench, large is exact from 100 N·m',
  good: SOUND,

  *check(shop) {
    for (const { lesson, step } of stepsOf(shop)) {
      const wrenches = step.uses.flatMap(({ group, id }) => {
        const tool = group === 'tool' ? shop.kit.tools?.[id] : undefined;
        const range =
          tool?.kind === 'torque-wrench' && tool.range ? readAmount(tool.range, 'torque', []).amount : undefined;
        const usable = range && usableRange(range);
        if (!tool || !range || !usable) return [];
        const [from = 0, to = 0] = [usable.from, usable.to].map((value) =>
          convert(value, 'torque', usable.unit, 'N·m'),
        );
        const least = convert(range.min ?? 0, 'torque', range.unit, 'N·m');
        return [{ title: tool.title, from, to, least }];
      });
      if (wrenches.length === 0) continue;
      for (const { spec, measured, place } of step.cites) {
        if (measured) continue;
        for (const { quantity } of rowsOf(shop, lesson, spec))
          for (const amount of torquesOf(quantity)) {
            const { low, high } = torqueSpan(amount);
            const holding = wrenches.filter(({ least, to }) => least <= low && high <= to);
            const [best] = holding.toSorted((a, b) => a.from - b.from);
            if (!best || best.from <= low + 1e-9) continue;
            yield {
              place,
              message: `${spec} needs ${round(low)} N·m at least, and ${best.title} is exact from ${round(best.from)} N·m`,
              help: 'use a smaller wrench, so that the torque lies between 20 % and 100 % of its maximum',
            };
          }
      }
    }
  },
});

function round(value: number): string {
  return String(Math.round(value * 10) / 10);
}
