import { placeOf } from '../../model/index.ts';
import { toolsUsed } from '../../programme/index.ts';
import {
  type Amount,
  convert,
  partsOf,
  readAmount,
  type SimpleKind,
  unitsCompare,
  writtenAmount,
} from '../../spec/index.ts';
import { MARK_SHARE } from '../likely.ts';
import { rule } from '../rule.ts';
import { both, replaceIn } from '../sample.ts';
import { rowsOf, stepsOf } from './find.ts';

const withMark = (mark: number) =>
  both(
    replaceIn(
      'lessons/chain.mdx',
      '<Uses tool="breaker-bar" />',
      '<Uses tool="breaker-bar" /> <Uses tool="rule" /> It hangs by <Spec of="chain-slack" measured />.',
    ),
    replaceIn(
      'kit.yaml',
      'grinder:\n',
      `rule:\n    title: Steel rule\n    kind: measuring-tool\n    resolution: {nominal: ${mark}, unit: mm}\n  grinder:\n`,
    ),
  );

export default rule({
  id: 'gauge-too-coarse',
  severity: 'warning',
  why: 'Where one mark of a gauge is a large part of the tolerance, a reading cannot tell right from wrong.',
  bad: withMark(5),
  says: '12:68 one mark of Steel rule is 5 mm, and chain-slack is 30–40 mm: a tenth of that band is 1 mm',
  good: withMark(1),

  *lesson(shop) {
    for (const { lesson, step } of stepsOf(shop)) {
      const gauges = toolsUsed(shop.kit, step).filter(({ tool }) => tool.kind === 'measuring-tool');
      for (const { spec, measured: reads, place } of step.cites) {
        if (!reads) continue;
        for (const { quantity, origin } of rowsOf(shop, lesson, spec))
          for (const { kind, amount } of quantity ? partsOf(quantity) : []) {
            const { max, unit } = amount;
            const min = amount.min ?? lowest(kind, amount);
            if (min === undefined || max === undefined) continue;
            const marks = gauges.flatMap(({ tool: { title, resolution } }) => {
              const mark = resolution && readAmount(resolution, kind, []).amount;
              return mark?.nominal === undefined || !unitsCompare(kind, mark.unit, unit)
                ? []
                : [{ title, mark, own: convert(mark.nominal, kind, mark.unit, unit) }];
            });
            const [finest] = marks.toSorted((a, b) => a.own - b.own);
            const wanted = (max - min) * MARK_SHARE;
            if (!finest || finest.own <= wanted * (1 + 1e-9)) continue;
            yield {
              place,
              // A finer one that is wrong in the kit, or without its marks, would do.
              builtOn: [origin.place, ...gauges.map(({ id }) => placeOf(shop.kit, 'tools', id))],
              message: `one mark of ${finest.title} is ${writtenAmount(finest.mark, kind)}, and ${spec} is ${writtenAmount(amount, kind)}: a tenth of that band is ${Number(wanted.toPrecision(2))} ${unit}`,
              help: 'use a tool with finer marks',
            };
          }
      }
    }
  },
});

/** What may be off by so much at most may be off by nothing at all. */
function lowest(kind: SimpleKind, { nominal }: Amount): number | undefined {
  return kind === 'length' && nominal === undefined ? 0 : undefined;
}
