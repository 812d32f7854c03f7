import { placeOf } from '../../model/index.ts';
import { rowsOfLesson } from '../../programme/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { machineOf, passagesOf } from './find.ts';

const WITHDRAWN = replaceIn(
  'specs/tarn-420.yaml',
  '    source: {document: manual, page: 41}\n',
  '    source: {document: manual, page: 41}\n    withdrawn: {on: 2026-11-20, why: the bolt was changed}\n',
);

export default rule({
  id: 'spec-withdrawn',
  severity: 'warning',
  why: 'The step shows that no value holds, and the person at the machine has to look it up.',
  bad: WITHDRAWN,
  says: '17:75 the step takes axle-nut, which was withdrawn on 2026-11-20: the bolt was changed',
  good: replaceIn('specs/tarn-420.yaml', '    unit: N·m\n', '    unit: N·m\n    note: a new bolt each time\n'),

  *lesson(shop) {
    for (const lesson of shop.lessons) {
      const machine = machineOf(shop, lesson);
      for (const { cites } of machine ? passagesOf(lesson) : [])
        for (const { spec, place } of cites) {
          const row =
            machine && rowsOfLesson(machine, lesson, new Set([spec])).find(({ written }) => written.withdrawn);
          if (!row?.written.withdrawn) continue;
          const { on, why } = row.written.withdrawn;
          yield {
            place,
            message: `the step takes ${spec}, which was withdrawn on ${on}: ${why}`,
            help: 'take it out of the step, or compare the value with the manual, write it into the row, and take withdrawn: out',
            see: { place: placeOf(row, 'withdrawn'), note: 'the row' },
          };
        }
    }
  },
});
