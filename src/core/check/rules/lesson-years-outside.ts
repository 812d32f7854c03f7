import { placeOf } from '../../model/index.ts';
import { parseYears, printYears } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { machineOf } from './find.ts';

const years = (span: string) =>
  replaceIn('lessons/chain.mdx', 'machine: tarn-420\n', `machine: tarn-420\nyears: ${span}\n`);

export default rule({
  id: 'lesson-years-outside',
  severity: 'error',
  why: 'For years that the spec table does not know there is no value, and somebody would guess one.',
  bad: years('2024-2027'),
  says: '5:8 the lesson is for 2024–2027, but Tarn 420 was made 2019–2025',
  good: years('2021-2024'),

  *lesson(shop) {
    for (const lesson of shop.lessons) {
      const machine = machineOf(shop, lesson);
      if (!machine || lesson.years === undefined) continue;
      const place = placeOf(lesson, 'years');
      const own = parseYears(lesson.years, machine.years);
      if (!own.ok) yield { place, message: own.problem, help: own.help };
      else if (own.value.from < machine.years.from || own.value.to > machine.years.to)
        yield {
          place,
          message: `the lesson is for ${printYears(own.value)}, but ${machine.title} was made ${printYears(machine.years)}`,
          help: `mend the years of the lesson, or those of the machine in specs/${machine.id}.yaml`,
          see: { place: placeOf(machine, 'machine', 'years'), note: 'the years of the machine' },
        };
    }
  },
});
