import { placeOf } from '../../model/index.ts';
import { printYears } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const years = (span: string) =>
  replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', `    years: ${span}\n    nominal: 98\n`);

export default rule({
  id: 'row-years-outside',
  severity: 'error',
  why: 'A row for years in which the machine was not made is a slip: its value stands for another machine or year.',
  bad: years('2019-2052'),
  says: '11:12 axle-nut is for 2019–2052, but Tarn 420 was made 2019–2025',
  good: years('2019-2025'),

  *machine({ machines }) {
    for (const machine of machines)
      for (const row of machine.specs)
        if (row.years.from < machine.years.from || row.years.to > machine.years.to)
          yield {
            place: placeOf(row, 'years'),
            message: `${row.id} is for ${printYears(row.years)}, but ${machine.title} was made ${printYears(machine.years)}`,
            help: 'mend the years of the row, or those of the machine at the top of the file',
            see: { place: placeOf(machine, 'machine', 'years'), note: 'the years of the machine' },
          };
  },
});
