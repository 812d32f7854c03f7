import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { changed, SOUND } from '../sample.ts';
import { coverageOf } from './spec-coverage.ts';

export default rule({
  id: 'spec-hole',
  severity: 'error',
  why: 'Whoever has one of the machines left out is shown no value, or takes the one beside it.',
  bad: changed('specs/tarn-420.yaml', '    kind: torque\n', '    kind: torque\n    years: 2019-2022\n'),
  says: '8:5 axle-nut has no row for 2023–2025',
  good: SOUND,

  *check({ machines }) {
    for (const machine of machines)
      for (const { id, rows, missing } of coverageOf(machine)) {
        const [first] = rows;
        if (missing === '' || !first) continue;
        yield {
          place: placeOf(first),
          message: `${id} has no row for ${missing}`,
          help: 'add a row for them, or widen the years, variants or regions of one that holds there too',
        };
      }
  },
});
