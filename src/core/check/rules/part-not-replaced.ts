import { rule } from '../rule.ts';
import { both, replaceIn } from '../sample.ts';
import { kitIds, rowsOf, stepsOf } from './find.ts';

const USED_ONCE = replaceIn(
  'specs/tarn-420.yaml',
  'plusMinus: 5',
  'plusMinus: 5\n    replace: always\n    part: cotter-pin',
);

export default rule({
  id: 'part-not-replaced',
  severity: 'error',
  why: 'A part made to be used once may let go the second time.',
  bad: both(USED_ONCE, replaceIn('lessons/chain.mdx', '<Uses part="cotter-pin" /> ', '')),
  says: '17:48 axle-nut takes a new cotter-pin each time, but "Tighten the nut" does not use one',
  good: USED_ONCE,

  *lesson(shop) {
    for (const { lesson, step } of stepsOf(shop))
      for (const { spec, measured, place } of step.cites) {
        if (measured) continue;
        const parts = new Set(
          rowsOf(shop, lesson, spec).flatMap(({ written }) =>
            written.replace === 'always' && written.part ? [written.part] : [],
          ),
        );
        const stocked = new Set(kitIds(shop.kit, 'part'));
        for (const part of parts)
          if (stocked.has(part) && !step.uses.some(({ group, id }) => group === 'part' && id === part))
            yield {
              place,
              message: `${spec} takes a new ${part} each time, but "${step.title}" does not use one`,
              help: `add <Uses part="${part}" /> to the step`,
            };
      }
  },
});
