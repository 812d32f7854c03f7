import { placeOf } from '../../model/index.ts';
import { parseThread, proofStress } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const base = (size: string) =>
  replaceIn(
    'specs/tarn-420.yaml',
    '    nominal: 98\n',
    `    fastener: {size: ${size}, class: "8.8"}\n    nominal: 98\n`,
  );

export default rule({
  id: 'fastener-unknown',
  severity: 'warning',
  why: 'Without its size and class nobody can work out whether the torque suits the fastener.',
  bad: base('ten'),
  says: '11:22 axle-nut: "ten" is not a thread size',
  good: base('M14×1.5'),

  *machine({ machines }) {
    for (const { specs } of machines)
      for (const spec of specs) {
        const { fastener } = spec.written;
        if (!fastener) continue;
        const thread = parseThread(fastener.size);
        if (!thread.ok)
          yield {
            place: placeOf(spec, 'fastener', 'size'),
            message: `${spec.id}: ${thread.problem}`,
            help: thread.help,
          };
        else if (fastener.class !== undefined && proofStress(thread.value, fastener.class) === undefined)
          yield {
            place: placeOf(spec, 'fastener', 'class'),
            message: `${spec.id}: "${fastener.class}" is no class of ${thread.value.name} that is known`,
            help:
              thread.value.system === 'metric'
                ? 'property classes are 4.8, 5.8, 8.8, 9.8, 10.9 and 12.9 (ISO 898-1)'
                : 'grades are 2, 5 and 8 (SAE J429)',
          };
      }
  },
});
