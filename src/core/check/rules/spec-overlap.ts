import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { coverageOf } from './spec-coverage.ts';

const SECOND = `  - id: axle-nut
    title: Rear axle nut
    kind: torque
    years: 2022-
    nominal: 105
    plusMinus: 5
    unit: N·m
    source: {document: manual, page: 41}
    checkedBy: lead mechanic
    checkedOn: 2026-10-03
`;

export default rule({
  id: 'spec-overlap',
  severity: 'error',
  why: 'Two values for one machine: people who read one of them do not know that there is another.',
  bad: replaceIn('specs/tarn-420.yaml', '  - id: chain-slack', `${SECOND}  - id: chain-slack`),
  says: '17:5 axle-nut has two rows for 2022–2025',
  good: {
    files: {
      'specs/tarn-420.yaml':
        replaceIn('specs/tarn-420.yaml', '    kind: torque\n', '    kind: torque\n    years: 2019-2021\n').files[
          'specs/tarn-420.yaml'
        ]?.replace('  - id: chain-slack', `${SECOND}  - id: chain-slack`) ?? '',
    },
  },

  *machine({ machines }) {
    for (const machine of machines)
      for (const { id, doubled } of coverageOf(machine))
        for (const { first, second, where } of doubled)
          yield {
            place: placeOf(second),
            builtOn: [placeOf(first), placeOf(second)],
            message: `${id} has two rows for ${where}`,
            help: 'narrow the years, variants or regions of one of them, or say in which condition of the threads it holds',
            see: { place: placeOf(first), note: 'the other row' },
          };
  },
});
