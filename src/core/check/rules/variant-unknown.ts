import { placeOf } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const variants = (own: string) => {
  const text = replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', `    variants: [${own}]\n    nominal: 98\n`).files[
    'specs/tarn-420.yaml'
  ];
  const machine = '  years: 2019-2025\n';
  return {
    files: {
      'specs/tarn-420.yaml': `${text}`.replace(machine, `${machine}  variants: [{id: sport, title: Sport}]\n`),
    },
  };
};

export default rule({
  id: 'variant-unknown',
  severity: 'error',
  why: 'A row for a variant that nobody has is shown to nobody.',
  bad: variants('sprot'),
  says: '12:16 axle-nut is for the variant "sprot", which Tarn 420 does not have',
  good: variants('sport'),

  *machine({ machines }) {
    for (const machine of machines) {
      const known = machine.written.machine.variants?.map(({ id }) => id) ?? [];
      for (const row of machine.specs)
        for (const [index, id] of (row.written.variants ?? []).entries())
          if (!known.includes(id))
            yield {
              place: placeOf(row, 'variants', index),
              message: `${row.id} is for the variant "${id}", which ${machine.title} does not have`,
              help: didYouMean(id, known, 'add it under machine: variants:, with an id and a title'),
            };
    }
  },
});
